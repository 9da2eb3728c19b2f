// Package pattern makes regular expressions that are compiled when they are
// first asked: a command that is over in a moment needs few of them.
package pattern

import (
	"regexp"
	"sync"
)

// Of gives the pattern with that expression, which must be right.
func Of(expr string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
}
