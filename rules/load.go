package rules

import (
	"cmp"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"firstvolt/checks/figure"
	"firstvolt/checks/strict"
)

//go:embed rulebook/*.yaml
var embedded embed.FS

// Default is the rulebook that the program carries.
func Default() fs.FS {
	sub, err := fs.Sub(embedded, "rulebook")
	if err != nil {
		panic(err) // the folder is part of the program
	}
	return sub
}

// Book is a rulebook that was read without fault.
type Book struct {
	rules    []*Rule // by name
	cautions []Caution
	owed     Standing
	deferral Standing
	known    map[string]*figure.Def
	sums     []string // one line for each file, for the digest
}

// Load reads every *.yaml of the folder and holds it against the figures that
// the program computes. With any fault there is no book.
func Load(book fs.FS, known []figure.Def) (*Book, []strict.Problem) {
	b := &Book{known: map[string]*figure.Def{}}
	for i := range known {
		b.known[known[i].Name] = &known[i]
	}
	names, err := fs.Glob(book, "*.yaml")
	if err != nil || len(names) == 0 {
		return nil, []strict.Problem{{File: "rulebook", Wrong: "the folder holds no rule files", Right: "a rulebook is a folder of .yaml files"}}
	}
	var problems []strict.Problem
	for _, f := range parseAll(book, names, b.known) {
		if f.err != nil {
			problems = append(problems, strict.Problem{File: f.rd.file, Wrong: "the file cannot be read (" + f.err.Error() + ")"})
			continue
		}
		b.file(f.rd, f.root)
		b.sums = append(b.sums, f.rd.file+" "+f.sum)
		problems = append(problems, f.rd.problems...)
	}
	b.order()
	if len(problems) > 0 {
		return nil, strict.Sorted(problems)
	}
	return b, nil
}

// parsed is one file of a book with its shape checked.
type parsed struct {
	rd    *reader
	root  *strict.Node
	sum   string
	err   error // the file cannot be read
	fault any   // of the program
}

// parseAll parses the files at the same time, which is most of the work of
// loading; what they say is taken up in their order afterwards.
func parseAll(book fs.FS, names []string, known map[string]*figure.Def) []parsed {
	out := make([]parsed, len(names))
	var wg sync.WaitGroup
	for i, name := range names {
		f := &out[i]
		f.rd = &reader{file: name, known: known}
		wg.Go(func() {
			defer func() { f.fault = recover() }()
			var data []byte
			if data, f.err = fs.ReadFile(book, name); f.err == nil {
				f.sum = sum(data)
				if f.root = unpacked(name, f.sum); f.root == nil {
					f.root = f.rd.parse(data, fileShape)
				}
			}
		})
	}
	wg.Wait()
	for _, f := range out {
		if f.fault != nil {
			panic(f.fault) // where the caller can meet it
		}
	}
	return out
}

// LoadShop gives a new book with what a shop adds in the one file. The shop's
// demands stand beside the book's, so nothing gets looser; what would change
// nothing is refused. With any fault there is no book.
func LoadShop(book *Book, file string, data []byte) (*Book, []strict.Problem) {
	b := &Book{known: book.known, cautions: book.cautions, owed: book.owed, deferral: book.deferral,
		rules: slices.Clone(book.rules), sums: append(slices.Clone(book.sums), "(shop) "+sum(data))}
	rd := &reader{file: file, known: b.known, shop: true}
	root := rd.parse(data, shopShape(book))
	rules := root.Get("rules")
	if rules != nil && len(rd.problems) == 0 {
		for _, e := range rules.Entries {
			if i := b.index(e.Key); i >= 0 {
				b.rules[i] = rd.extend(b.rules[i], e)
				continue
			}
			b.add(rd, rd.rule(e.Key, e.KeyPos, e.Value))
		}
		if len(rules.Entries) == 0 {
			rd.bad(rules.At(), "no rules here", "write a rule, or leave the file out")
		}
	}
	b.order()
	if len(rd.problems) > 0 {
		return nil, strict.Sorted(rd.problems)
	}
	return b, nil
}

// parse reads a file into its tree and checks its shape.
func (rd *reader) parse(data []byte, shape *strict.Shape) *strict.Node {
	if len(strings.TrimSpace(string(data[:min(len(data), strict.MaxBytes)]))) == 0 {
		rd.bad(strict.Pos{Line: 1, Column: 1}, "the file is empty", "start it with rules:")
		return nil
	}
	root, problems := strict.Parse(data)
	if len(problems) == 0 {
		problems = strict.Check(root, shape)
	}
	// The words of strict are those of a bench sheet.
	words := strings.NewReplacer("the sheet", "the rulebook", "a bench sheet", "a rulebook", "firstvolt: 1", "rules:")
	for _, p := range problems {
		rd.bad(p.Pos, words.Replace(p.Wrong), words.Replace(p.Right))
	}
	return root
}

// file takes up one file of the book.
func (b *Book) file(rd *reader, root *strict.Node) {
	if len(rd.problems) > 0 {
		return // the shape is the ground that the second reading stands on
	}
	if rules := root.Get("rules"); rules != nil {
		for _, e := range rules.Entries {
			b.add(rd, rd.rule(e.Key, e.KeyPos, e.Value))
		}
	}
	if cautions := root.Get("cautions"); cautions != nil {
		for _, e := range cautions.Entries {
			b.caution(rd, e)
		}
	}
	for key, to := range map[string]*Standing{"owed": &b.owed, "deferral": &b.deferral} {
		if n := root.Get(key); n != nil {
			if len(to.Forms) > 0 {
				rd.bad(n.At(), key+" stands in two files", "keep one of them")
			}
			*to = rd.standing(n)
		}
	}
}

// add takes up a rule, unless its name is taken. Two names that differ only
// by a synonym are one.
func (b *Book) add(rd *reader, r *Rule) {
	if i := b.index(r.Name); i >= 0 {
		old := b.rules[i]
		rd.bad(r.At, fmt.Sprintf("the rule %s stands in the book already (%s:%d)", r.Name, old.File, old.At.Line), "give it another name")
		return
	}
	b.rules = append(b.rules, r)
}

func (b *Book) index(name string) int {
	canon := strict.Canon(name)
	return slices.IndexFunc(b.rules, func(r *Rule) bool { return r.canon == canon })
}

func (b *Book) order() {
	slices.SortFunc(b.rules, func(x, y *Rule) int { return cmp.Compare(x.Name, y.Name) })
	slices.Sort(b.sums)
}

// extend gives the rule with a shop's clauses added.
func (rd *reader) extend(r *Rule, e strict.Entry) *Rule {
	more := *r
	when := rd.condition(e.Value.Get("when"))
	basis := rd.basis(e.Value.Get("basis"))
	added := rd.clauses(r, e.Value)
	more.Clauses = slices.Clone(r.Clauses)
	for _, c := range added {
		c.When = append(slices.Clone(when), c.When...)
		c.Why, c.Remedy = cmp.Or(c.Why, flat(e.Value.Word("why"))), cmp.Or(c.Remedy, flat(e.Value.Word("remedy")))
		if len(c.Basis) == 0 {
			c.Basis = basis
		}
		if slices.ContainsFunc(more.Clauses, func(old Clause) bool { return old.implies(c) }) {
			rd.bad(c.At, fmt.Sprintf("the clause on %s has no effect: %s asks as much already", c.Figure, r.Name), "make it stricter or leave it out")
		}
		more.Clauses = append(more.Clauses, c)
	}
	return &more
}

// implies tells whether everything that c asks is asked by the older clause
// already, as far as that shows without knowing the facts.
func (old Clause) implies(c Clause) bool {
	if old.Figure != c.Figure || len(old.When) > 0 || old.AskedIf != "" || len(old.Limits) > 0 || len(c.Limits) > 0 {
		return false
	}
	hard := old.hard()
	all := hard.and(old.Should)
	must := c.Must == nil || old.Must != nil && c.Must.covers(hard)
	ifRead := c.IfRead == nil || hard != nil && c.IfRead.covers(hard)
	should := c.Should == nil || all != nil && c.Should.covers(all)
	return must && ifRead && should
}

// Digest is "sha256:…" over all rule files, a shop's included. It depends on
// the names of the book's files and on every byte, not on any order; where a
// shop keeps its file does not matter.
func (b *Book) Digest() string {
	return "sha256:" + sum([]byte(strings.Join(b.sums, "\n")))
}

func sum(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:])
}

// Rules gives every rule by name. They are not to be changed.
func (b *Book) Rules() []*Rule { return b.rules }

// Rule finds a rule by name, synonyms counted.
func (b *Book) Rule(name string) (*Rule, bool) {
	if i := b.index(name); i >= 0 {
		return b.rules[i], true
	}
	return nil, false
}
