package pattern

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Every expression in the program is right, though it is compiled late, and
// none is compiled at the start.
func TestExpressionsAreRightAndLate(t *testing.T) {
	found := 0
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		for _, decl := range file.Decls {
			vars, ok := decl.(*ast.GenDecl)
			if !ok {
				continue
			}
			ast.Inspect(vars, func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok || len(call.Args) != 1 {
					return true
				}
				switch name(call.Fun) {
				case "regexp.MustCompile":
					t.Errorf("%s compiles an expression at every start; pattern.Of does when it is asked", path)
				case "pattern.Of":
					found++
					if lit, ok := call.Args[0].(*ast.BasicLit); ok {
						if expr, err := strconv.Unquote(lit.Value); err != nil {
							t.Error(path, err)
						} else if _, err := regexp.Compile(expr); err != nil {
							t.Error(path, err)
						}
					}
				}
				return true
			})
		}
		return nil
	})
	if err != nil || found < 30 {
		t.Fatal(found, err)
	}
}

func name(e ast.Expr) string {
	if s, ok := e.(*ast.SelectorExpr); ok {
		if x, ok := s.X.(*ast.Ident); ok {
			return x.Name + "." + s.Sel.Name
		}
	}
	return ""
}
