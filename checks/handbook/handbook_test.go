package handbook

import (
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
	"firstvolt/checks/trial"
)

// q reads a quantity that the test writes as a sheet would.
func q(t *testing.T, text string, d quantity.Dim) quantity.Range {
	t.Helper()
	r, err := quantity.Parse(text, d)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// published reads a table of testdata/published.
func published(t *testing.T, file string, columns int) [][]string {
	t.Helper()
	return trial.Rows(t, file, columns)
}

// num reads a cell; a dash is absent.
func num(t *testing.T, cell string, absent float64) float64 {
	t.Helper()
	if cell == "-" {
		return absent
	}
	x, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func word(cell string) string {
	if cell == "-" {
		return ""
	}
	return cell
}

func close(a, b, share float64) bool {
	return a == b || math.Abs(a-b) <= share*math.Abs(b)
}

// TestEveryFactHasABasis walks everything that the handbook holds: each struct
// with a basis field has a status and a source, and each source is a citation,
// not the address of a page.
func TestEveryFactHasABasis(t *testing.T) {
	walked := 0
	basisType := reflect.TypeFor[figure.Basis]()
	var walk func(v reflect.Value, at string)
	walk = func(v reflect.Value, at string) {
		if v.Type() == basisType {
			b := figure.Basis{Status: figure.Status(v.Field(0).String()), Source: v.Field(1).String()}
			if strings.HasSuffix(at, ".Shrinks") && b.Source == "" {
				return // an impulse that does not shrink
			}
			walked++
			if !strings.Contains(" "+strings.Join(statuses, " ")+" ", " "+string(b.Status)+" ") || len(b.Source) < 8 {
				t.Errorf("%s: basis %+v", at, b)
			}
			for _, host := range []string{"www.", "http", ".com", ".org", ".net", ".htm"} {
				if strings.Contains(b.Source, host) {
					t.Errorf("%s: source %q is an address", at, b.Source)
				}
			}
			if recalled := strings.Contains(b.Source, "recalled, not looked up"); b.Status == figure.FromMemory && !recalled {
				t.Errorf("%s: from memory, but %q does not say so", at, b.Source)
			}
			return
		}
		switch v.Kind() {
		case reflect.Pointer:
			if !v.IsNil() {
				walk(v.Elem(), at)
			}
		case reflect.Struct:
			for i := range v.NumField() {
				walk(v.Field(i), at+"."+v.Type().Field(i).Name)
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i), at+"["+strconv.Itoa(i)+"]")
			}
		case reflect.Map:
			for _, k := range v.MapKeys() {
				walk(v.MapIndex(k), at+"["+k.String()+"]")
			}
		}
	}
	for name, part := range map[string]any{
		"book": Default(), "wire": theWire(), "fuses": theFuses(), "residuals": theResiduals(), "capacitors": theCapacitors(),
		"tubes": theTubes(), "lamp": Lamp(), "effects": theEffects(), "windings": theWindings(),
	} {
		before := walked
		walk(reflect.ValueOf(part), name)
		if walked == before {
			t.Errorf("%s holds no basis at all", name)
		}
	}
	if walked < 300 {
		t.Errorf("only %d facts walked", walked)
	}
}

// TestTablesAreReadStrictly takes one fault of each sort.
func TestTablesAreReadStrictly(t *testing.T) {
	rows := must("rows", rowsOf(must("size", of(quantity.Current))))
	const sound = "sources:\n  a: {status: published, source: a standard}\nrows:\n  - {size: 1 A, basis: a}\n"
	for _, c := range []struct{ name, data, want string }{
		{"sound", sound, ""},
		{"no such source", strings.Replace(sound, "basis: a", "basis: b", 1), "t.yaml:4:24: \"b\" is not a source of this file"},
		{"no basis", strings.Replace(sound, ", basis: a", "", 1), "t.yaml:4:5: entry 1 of rows has no basis; write basis:"},
		{"unknown status", strings.Replace(sound, "published", "known", 1), "t.yaml:2:15: \"known\" is not a word for status"},
		{"wrong unit", strings.Replace(sound, "1 A", "1 V", 1), "t.yaml:4:12: size: \"V\" is the wrong unit"},
		{"no rows", strings.Replace(sound, "\n  - {size: 1 A, basis: a}", " []", 1), "t.yaml:3:7: rows has 0 entries"},
		{"no such key", strings.Replace(sound, "basis: a", "basis: a, colour: red", 1), "t.yaml:4:27: colour"},
		{"not finite", strings.Replace(sound, "1 A", ".inf", 1), "t.yaml:4:12: size: "},
	} {
		table, problems := read("t.yaml", []byte(c.data), rows)
		switch {
		case c.want == "" && (len(problems) > 0 || table.basis(table.rows("rows")[0]).Source != "a standard"):
			t.Errorf("%s: %v", c.name, problems)
		case c.want != "" && (len(problems) == 0 || !strings.HasPrefix(problems[0].String(), c.want)):
			t.Errorf("%s: %v, want %s", c.name, problems, c.want)
		}
	}
}

// TestNothingUnused: a source that no row names is a leftover.
func TestNothingUnused(t *testing.T) {
	inCode := map[string]bool{"astm": true, "between": true, "melting": true, "none": true}
	for _, open := range []func() table{wireTable, fuseTable, residualTable, capacitorTable, tubeTable, effectTable, windingTable} {
		tab := open()
		used := map[string]bool{}
		var walk func(n *strict.Node)
		walk = func(n *strict.Node) {
			for _, e := range n.Entries {
				if e.Key == "basis" || e.Key == "shrinks" {
					used[e.Value.Str()] = true
				}
				walk(e.Value)
			}
			for _, item := range n.Items {
				walk(item)
			}
		}
		walk(tab.root)
		for name := range tab.from {
			if !used[name] && !inCode[name] {
				t.Errorf("source %s is used by no row", name)
			}
		}
	}
}

// TestColumnsBelongTogether: two columns by rating or by voltage name the same
// ratings and voltages, in order.
func TestColumnsBelongTogether(t *testing.T) {
	var rectifiers []*strict.Node
	for _, row := range joined(tubeTable(), "rectifiers") {
		rectifiers = append(rectifiers, row.node)
	}
	for _, c := range []struct {
		rows []*strict.Node
		a, b string
		dim  quantity.Dim
	}{
		{fuseTable().rows("cold"), "resistance", "melting", quantity.Current},
		{rectifiers, "direct-current", "resistance", quantity.Voltage},
	} {
		for _, n := range c.rows {
			a, b := pairs(n.Get(c.a), c.dim), pairs(n.Get(c.b), c.dim)
			if len(a) == 0 || len(a) != len(b) {
				t.Errorf("line %d: %d and %d entries", n.Pos.Line, len(a), len(b))
				continue
			}
			for i := range a {
				if a[i].key != b[i].key || i > 0 && !(a[i].key > a[i-1].key) {
					t.Errorf("line %d: %g against %g", n.Pos.Line, a[i].key, b[i].key)
				}
			}
		}
	}
}
