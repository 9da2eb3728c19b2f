package trial

import (
	"fmt"
	"strings"
	"testing"
)

// caught is a test that ends at its first Fatal and keeps what it said.
type caught struct {
	testing.TB
	said string
}

func (c *caught) Helper()                      {}
func (c *caught) Fatal(args ...any)            { c.Fatalf("%s", fmt.Sprintln(args...)) }
func (c *caught) Fatalf(f string, args ...any) { c.said = fmt.Sprintf(f, args...); panic(c) }

func fails(t *testing.T, f func(testing.TB)) string {
	c := &caught{TB: t}
	func() {
		defer func() {
			if r := recover(); r != nil && r != any(c) {
				panic(r)
			}
		}()
		f(c)
	}()
	return c.said
}

func TestAltered(t *testing.T) {
	if got := Altered(t, "a b c", "b", "d e", "e", "f"); got != "a d f c" {
		t.Errorf("%q", got)
	}
	for _, text := range []string{"a c", "a b b"} {
		if said := fails(t, func(t testing.TB) { Altered(t, text, "b", "d") }); !strings.Contains(said, "not once") {
			t.Errorf("%q was altered: %s", text, said)
		}
	}
}

func TestOpens(t *testing.T) {
	all := Sheets(t)
	if Sheet(t, "larkfield-six-forty") != all["larkfield-six-forty"] || len(all) < 2 {
		t.Error("a sheet alone and among all differ")
	}
	if rows := Rows(t, "copper.txt", 2); len(rows[0]) != 2 {
		t.Errorf("%v", rows[0])
	}
	for name, f := range map[string]func(testing.TB){
		"no such sheet": func(t testing.TB) { Sheet(t, "nobody") }, "no such table": func(t testing.TB) { Rows(t, "none.txt", 2) },
		"other columns": func(t testing.TB) { Rows(t, "copper.txt", 3) },
	} {
		if fails(t, f) == "" {
			t.Error(name + " was opened")
		}
	}
}
