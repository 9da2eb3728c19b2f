// Package handbook holds published facts as data: the supply of each region,
// wire, fuses, residual devices, safety capacitors, tubes, lamps, transformer
// windings, and what current does to a person. Every fact carries its basis.
//
// The data are YAML files in this folder, read as strictly as a bench sheet
// and only when first asked for. The package states facts and judges nothing:
// which of two ends is dangerous is for the asker to say, so a fact that is
// known by bounds comes as a range, and one that is not tabled comes as
// "not known", never as a guess.
package handbook

import (
	"embed"
	"fmt"
	"strings"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

//go:embed *.yaml regions/*.yaml
var files embed.FS

// sources are the bases of one table by the short names that its rows use.
type sources map[string]figure.Basis

// table is one data file, checked.
type table struct {
	root *strict.Node
	from sources
}

// open reads a data file that is built into the program. The tests read every
// one, so a fault here is a fault of the build.
func open(file string, keys ...strict.Key) table {
	data, err := files.ReadFile(file)
	if err != nil {
		panic(err)
	}
	t, problems := read(file, data, keys...)
	if len(problems) > 0 {
		panic(problems[0].String())
	}
	return t
}

// read holds one data file against its keys; sources is a key of every file,
// and each basis in it must name one of them.
func read(file string, data []byte, keys ...strict.Key) (table, []strict.Problem) {
	root, problems := strict.Parse(data)
	if root == nil || len(problems) > 0 {
		return table{}, placed(file, problems)
	}
	keys = append([]strict.Key{{Name: "sources", Required: true, Shape: &strict.Shape{Map: &strict.MapShape{Any: basisShape}}}}, keys...)
	problems = strict.Check(root, object(keys...))
	t := table{root, sources{}}
	if len(problems) == 0 {
		for _, e := range root.Get("sources").Entries {
			t.from[e.Key] = basisOf(e.Value)
		}
		problems = t.unsourced(root, nil)
	}
	return t, placed(file, problems)
}

// unsourced finds every basis that names no source of the file.
func (t table) unsourced(n *strict.Node, out []strict.Problem) []strict.Problem {
	for _, e := range n.Entries {
		if e.Key == "basis" && e.Value.Kind == strict.Text {
			if _, ok := t.from[e.Value.Text]; !ok {
				var names []string
				for _, s := range t.root.Get("sources").Entries {
					names = append(names, s.Key)
				}
				out = append(out, strict.Problem{Pos: e.Value.Pos, Wrong: fmt.Sprintf("%q is not a source of this file", e.Value.Text), Right: strict.Suggest(e.Value.Text, names, "name it under sources")})
			}
		}
		out = t.unsourced(e.Value, out)
	}
	for _, item := range n.Items {
		out = t.unsourced(item, out)
	}
	return out
}

// rows are the items of the list under key.
func (t table) rows(key string) []*strict.Node { return t.root.Get(key).Items }

// basis is the source that a row names.
func (t table) basis(row *strict.Node) figure.Basis { return t.from[row.Word("basis")] }

func placed(file string, ps []strict.Problem) []strict.Problem {
	for i := range ps {
		ps[i].File = file
		ps[i].Wrong = strings.Replace(ps[i].Wrong, "the sheet has", "the file has", 1)
	}
	return strict.Sorted(ps)
}

var statuses = []string{string(figure.Published), string(figure.FromMemory), string(figure.CommonPractice), string(figure.Computed), string(figure.Shop)}

// basisShape is {status, source}.
var basisShape = object(
	must("status", &strict.Shape{Text: &strict.TextShape{Words: statuses}}),
	must("source", plain))

func basisOf(n *strict.Node) figure.Basis {
	return figure.Basis{Status: figure.Status(n.Word("status")), Source: n.Word("source")}
}

// The shapes that the data files are made of.
var plain = &strict.Shape{Text: &strict.TextShape{}}

func words(w ...string) *strict.Shape { return &strict.Shape{Text: &strict.TextShape{Words: w}} }

func object(keys ...strict.Key) *strict.Shape {
	return &strict.Shape{Map: &strict.MapShape{Keys: keys}}
}

func listOf(item *strict.Shape) *strict.Shape {
	return &strict.Shape{List: &strict.ListShape{Item: item}}
}

// rowsOf is a list of at least one row that ends in its basis.
func rowsOf(keys ...strict.Key) *strict.Shape {
	return &strict.Shape{List: &strict.ListShape{Item: object(append(keys, must("basis", plain))...), Min: 1}}
}

func must(name string, s *strict.Shape) strict.Key {
	return strict.Key{Name: name, Shape: s, Required: true}
}

func may(name string, s *strict.Shape) strict.Key { return strict.Key{Name: name, Shape: s} }

// of is a quantity of dimension d; Node.Data becomes its quantity.Range.
func of(d quantity.Dim) *strict.Shape {
	return &strict.Shape{Text: &strict.TextShape{Example: d.Example(), Parse: func(text string) (any, error) {
		r, err := quantity.Parse(text, d)
		return r, err
	}}}
}

// byKey is a map from a quantity of dimension k to one of dimension v.
func byKey(k, v quantity.Dim) *strict.Shape {
	return &strict.Shape{Map: &strict.MapShape{Any: of(v), CheckKey: func(key string) error {
		_, err := quantity.Parse(key, k)
		return err
	}}}
}

// pair is one entry of such a map; the key stands for its upper end.
type pair struct {
	key   float64
	value quantity.Range
}

// pairs are the entries of a map from a quantity of dimension k, in the order
// of the file.
func pairs(n *strict.Node, k quantity.Dim) []pair {
	var out []pair
	if n == nil {
		return nil
	}
	for _, e := range n.Entries {
		key, err := quantity.Parse(e.Key, k)
		if value, ok := e.Value.Data.(quantity.Range); ok && err == nil {
			out = append(out, pair{key.High, value})
		}
	}
	return out
}

// span is the quantity under key; ok is false where the key is absent.
func span(n *strict.Node, key string) (r quantity.Range, ok bool) {
	v := n.Get(key)
	if v == nil {
		return r, false
	}
	r, ok = v.Data.(quantity.Range)
	return r, ok
}

// high is the upper end of the quantity under key, or the value given where
// the key is absent.
func high(n *strict.Node, key string, absent float64) float64 {
	if r, ok := span(n, key); ok {
		return r.High
	}
	return absent
}

// values are the upper ends of a list of quantities.
func values(n *strict.Node) []float64 {
	if n == nil {
		return nil
	}
	var out []float64
	for _, item := range n.Items {
		if r, ok := item.Data.(quantity.Range); ok {
			out = append(out, r.High)
		}
	}
	return out
}

func texts(n *strict.Node) []string {
	if n == nil {
		return nil
	}
	out := make([]string, 0, len(n.Items))
	for _, item := range n.Items {
		out = append(out, item.Text)
	}
	return out
}
