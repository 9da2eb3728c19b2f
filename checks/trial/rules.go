package trial

import (
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// RulesOn is a rulebook of that one file with those rules alone that ask
// nothing but the figures named: a room's tests judge by them, whatever else the
// file asks of other rooms.
func RulesOn(t testing.TB, file string, figures []string) fs.FS {
	t.Helper()
	rule, asked := regexp.MustCompile(`(?m)^(?:  \S|\S)`), regexp.MustCompile(`\b(?:figure|asked_if): *([a-z0-9-]+)`)
	text := read(t, filepath.Join(path(t), "..", "rules", "rulebook", file))
	var out strings.Builder
	starts := append(rule.FindAllStringIndex(text, -1), []int{len(text)})
	for i, at := range starts[:len(starts)-1] {
		one := text[at[0]:starts[i+1][0]]
		other := slices.ContainsFunc(asked.FindAllStringSubmatch(one, -1), func(m []string) bool { return !slices.Contains(figures, m[1]) })
		if !other {
			out.WriteString(one)
		}
	}
	return fstest.MapFS{file: {Data: []byte(out.String())}}
}
