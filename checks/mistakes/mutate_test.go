package mistakes_test

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"slices"
	"strings"
	"testing"

	"go/importer"
	"go/parser"
)

// mutant is one change of the program's source. All changes stand in one build;
// the environment of a process says which one is on, and none is without it.
type mutant struct {
	file string
	line int
	says string
	at   []insert // with %d for the mutant's number
}

// insert puts text in the place of the bytes from at to end of a file.
type insert struct {
	at, end int
	text    string
	closes  bool // stands behind what ends here, before what begins
	span    int  // of the node: the outer opens first and closes last
	order   int  // of the finding: the outer is found first
}

// switchboard is the package that the changed source imports.
const switchboard = `package mutant

import (
	"cmp"
	"os"
	"strconv"
)

var on, _ = strconv.Atoi(os.Getenv("FIRSTVOLT_MUTANT"))

type number interface{ ~int | ~float64 | ~complex128 }

func On(id int) bool { return on == id }

func And(id int, a bool, b func() bool) bool {
	if on == id {
		return a || b()
	}
	return a && b()
}

func Or(id int, a bool, b func() bool) bool {
	if on == id {
		return a && b()
	}
	return a || b()
}

// The orders take or leave out the bound itself.
func Less[T cmp.Ordered](id int, a, b T) bool        { return a < b || on == id && a == b }
func LessEqual[T cmp.Ordered](id int, a, b T) bool   { return a < b || on != id && a == b }
func Greater[T cmp.Ordered](id int, a, b T) bool      { return a > b || on == id && a == b }
func GreaterEqual[T cmp.Ordered](id int, a, b T) bool { return a > b || on != id && a == b }

func Plus[T number](id int, a, b T) T   { if on == id { return a - b }; return a + b }
func Minus[T number](id int, a, b T) T  { if on == id { return a + b }; return a - b }
func Times[T number](id int, a, b T) T  { if on == id { return a / b }; return a * b }
func Over[T number](id int, a, b T) T   { if on == id { return a * b }; return a / b }
func Pick[T any](id int, a, b T) T      { if on == id { return b }; return a }
func Count(id, n int) int               { if on == id { return n + 1 }; return n }
func Size(id int, x float64) float64 {
	if on != id {
		return x
	}
	if x == 0 {
		return 0.1
	}
	return x * 1.1
}
`

// mutator finds what can be changed in one file.
type mutator struct {
	fset  *token.FileSet
	info  *types.Info
	file  *ast.File
	name  string
	found []mutant
}

// operators that a function of the switchboard stands for, and what they become.
var operators = map[token.Token][2]string{
	token.LAND: {"And", "||"}, token.LOR: {"Or", "&&"},
	token.LSS: {"Less", "<="}, token.LEQ: {"LessEqual", "<"}, token.GTR: {"Greater", ">="}, token.GEQ: {"GreaterEqual", ">"},
	token.ADD: {"Plus", "-"}, token.SUB: {"Minus", "+"}, token.MUL: {"Times", "/"}, token.QUO: {"Over", "*"},
}

func (m *mutator) offset(p token.Pos) int { return m.fset.Position(p).Offset }

func (m *mutator) add(n ast.Node, says string, at ...insert) {
	for i := range at {
		at[i].span, at[i].order = m.offset(n.End())-m.offset(n.Pos()), len(m.found)
	}
	m.found = append(m.found, mutant{m.name, m.fset.Position(n.Pos()).Line, says, at})
}

// around puts text before and behind a node.
func (m *mutator) around(n ast.Node, says, before, behind string) {
	from, to := m.offset(n.Pos()), m.offset(n.End())
	m.add(n, says, insert{at: from, end: from, text: before}, insert{at: to, end: to, text: behind, closes: true})
}

// basic is the name of an expression's type where it is one of the language's
// own, else "".
func (m *mutator) basic(e ast.Expr) string {
	if b, ok := m.info.Types[e].Type.(*types.Basic); ok {
		return b.Name()
	}
	return ""
}

// constants is what stands where only a constant may, or is one: it is moved as
// a whole or not at all.
func (m *mutator) constants(e ast.Expr) bool {
	v := m.info.Types[e]
	if v.Value == nil {
		return false
	}
	if v.Value.Kind() == constant.Int || v.Value.Kind() == constant.Float {
		switch m.basic(e) {
		case "int":
			m.around(e, "one more than "+v.Value.String(), "mutant.Count(%d, ", ")")
		case "float64":
			m.around(e, "a tenth more than "+v.Value.String(), "mutant.Size(%d, ", ")")
		}
	}
	return true
}

func (m *mutator) binary(e *ast.BinaryExpr) {
	if e.Op == token.EQL || e.Op == token.NEQ {
		m.around(e, "opposite of "+e.Op.String(), "(mutant.On(%d) != (", "))")
		return
	}
	op, ok := operators[e.Op]
	kind := m.basic(e)
	arithmetic := slices.Contains([]string{"Plus", "Minus", "Times", "Over"}, op[0])
	if !ok || arithmetic && !slices.Contains([]string{"int", "float64", "complex128"}, kind) {
		return
	}
	// A literal operand takes the type of the other.
	of, end := "", ")"
	if arithmetic {
		of = "[" + kind + "]"
	}
	between := ", "
	if op[0] == "And" || op[0] == "Or" {
		between, end = ", func() bool { return ", "})"
	}
	from, to, sign := m.offset(e.Pos()), m.offset(e.End()), m.offset(e.OpPos)
	m.add(e, e.Op.String()+" to "+op[1], insert{at: from, end: from, text: "mutant." + op[0] + of + "(%d, "},
		insert{at: sign, end: sign + len(e.Op.String()), text: between}, insert{at: to, end: to, text: end, closes: true})
}

// ends exchanges the two ends of a range that is read.
func (m *mutator) ends(e *ast.SelectorExpr, src []byte) {
	other := map[string]string{"Low": "High", "High": "Low"}[e.Sel.Name]
	if other == "" || !strings.HasSuffix(types.TypeString(m.info.Types[e.X].Type, nil), "quantity.Range") {
		return
	}
	x := strings.ReplaceAll(string(src[m.offset(e.X.Pos()):m.offset(e.X.End())]), "%", "%%")
	m.around(e, e.Sel.Name+" to "+other, "mutant.Pick(%d, ", ", "+x+"."+other+")")
}

// drops leaves a statement out of those of a block. A way out may be left out
// only where something follows.
func (m *mutator) drops(list []ast.Stmt, waysOut bool) {
	for _, s := range list {
		switch s := s.(type) {
		case *ast.ExprStmt, *ast.IncDecStmt:
		case *ast.AssignStmt:
			if s.Tok == token.DEFINE {
				continue
			}
		case *ast.ReturnStmt, *ast.BranchStmt:
			if !waysOut {
				continue
			}
		default:
			continue
		}
		m.around(s, "statement dropped", "if !mutant.On(%d) { ", " }")
	}
}

// find lists every change of the file.
func (m *mutator) find(src []byte) {
	var left func(n ast.Node) bool // what may not be touched, then the rest
	left = func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GenDecl:
			return n.Tok == token.VAR
		case *ast.ArrayType, *ast.FuncType, *ast.StructType, *ast.InterfaceType, *ast.LabeledStmt:
			return false
		case *ast.KeyValueExpr:
			ast.Inspect(n.Value, left)
			return false
		case *ast.AssignStmt: // what is assigned to stays
			for _, e := range n.Rhs {
				ast.Inspect(e, left)
			}
			return false
		case *ast.IncDecStmt:
			return false
		case *ast.UnaryExpr:
			if n.Op == token.AND {
				return false
			}
		case *ast.IfStmt:
			m.around(n.Cond, "condition negated", "mutant.On(%d) != (", ")")
			m.drops(n.Body.List, n.Else == nil)
		case *ast.ForStmt:
			m.drops(n.Body.List, true)
		case *ast.RangeStmt:
			m.drops(n.Body.List, true)
		case *ast.FuncDecl:
			if n.Body == nil {
				return false
			}
			m.drops(n.Body.List, false)
		case *ast.CaseClause:
			m.drops(n.Body, false)
		}
		e, ok := n.(ast.Expr)
		if !ok {
			return true
		}
		if m.constants(e) {
			return false
		}
		switch e := e.(type) {
		case *ast.BinaryExpr:
			m.binary(e)
		case *ast.SelectorExpr:
			m.ends(e, src)
		}
		return true
	}
	ast.Inspect(m.file, left)
}

// mutated writes the source with the mutants in it, numbered from first.
func mutated(src []byte, pkgEnd int, chosen map[int]mutant) []byte {
	all := []insert{{at: pkgEnd, end: pkgEnd, text: `; import "firstvolt/checks/mutant"`}}
	for id, m := range chosen {
		for _, in := range m.at {
			in.text = strings.ReplaceAll(strings.Replace(in.text, "%d", fmt.Sprint(id), 1), "%%", "%")
			all = append(all, in)
		}
	}
	slices.SortStableFunc(all, func(a, b insert) int {
		switch {
		case a.at != b.at:
			return a.at - b.at
		case a.closes != b.closes:
			if a.closes {
				return -1
			}
			return 1
		case a.closes:
			return cmp.Or(a.span-b.span, b.order-a.order)
		}
		return cmp.Or(b.span-a.span, a.order-b.order)
	})
	var out []byte
	last := 0
	for _, in := range all {
		out = append(append(out, src[last:in.at]...), in.text...)
		last = in.end
	}
	return append(out, src[last:]...)
}

// parsed reads and checks the types of the files of one package.
func parsed(path string, sources map[string][]byte, imports types.Importer) (*token.FileSet, map[string]*ast.File, *types.Info, error) {
	fset := token.NewFileSet()
	files := map[string]*ast.File{}
	var list []*ast.File
	for name, src := range sources {
		f, err := parser.ParseFile(fset, name, src, parser.SkipObjectResolution)
		if err != nil {
			return nil, nil, nil, err
		}
		files[name] = f
		list = append(list, f)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	_, err := (&types.Config{Importer: imports}).Check(path, fset, list, info)
	return fset, files, info, err
}

// TestMutate holds the changes of a few lines to be those that are meant, and
// the source with all of them in it to be Go.
func TestMutate(t *testing.T) {
	for src, want := range map[string][]string{
		"func f(a, b bool) bool { return a && b }":                {"&& to ||"},
		"func f(a, b float64) bool { return a < b*2 }":            {"< to <=", "* to /", "a tenth more than 2"},
		"func f(a int) int { if a == 3 { return 1 }; return a }":  {"condition negated", "statement dropped", "opposite of ==", "one more than 3", "one more than 1"},
		"func f(s string) string { s += s; return s + s }":        {"statement dropped"},
		"func f(a []int) (n int) { for range a { n++ }; return }": {"statement dropped"},
		"const k = 3; var _ [k]int":                               nil,
	} {
		whole := []byte("package p\n" + src)
		fset, files, info, err := parsed("p", map[string][]byte{"p.go": whole}, importer.Default())
		if err != nil {
			t.Fatal(src, err)
		}
		m := &mutator{fset: fset, info: info, file: files["p.go"], name: "p.go"}
		m.find(whole)
		var said []string
		chosen := map[int]mutant{}
		for i, c := range m.found {
			said = append(said, c.says)
			chosen[i+1] = c
		}
		if !slices.Equal(said, want) {
			t.Errorf("%s: %v, want %v", src, said, want)
		}
		if _, err := parser.ParseFile(token.NewFileSet(), "p.go", mutated(whole, len("package p"), chosen), 0); err != nil {
			t.Errorf("%s: %v\n%s", src, err, mutated(whole, len("package p"), chosen))
		}
	}
}
