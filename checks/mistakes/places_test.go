package mistakes_test

import (
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"
	"strings"

	"firstvolt/checks/strict"
)

// place is a way down a tree: keys, and "#3" for an item of a list.
type place []string

func (p place) String() string { return strings.Join(p, ".") }

func (p place) under(keys ...string) bool {
	return len(p) >= len(keys) && slices.Equal(p[:len(keys)], keys)
}

// down is the node at a place.
func down(n *strict.Node, p place) *strict.Node {
	for _, step := range p {
		if i, ok := strings.CutPrefix(step, "#"); ok {
			k, _ := strconv.Atoi(i)
			n = n.Items[k]
			continue
		}
		n = n.Get(step)
	}
	return n
}

// places lists every key of the tree and every item of its lists.
func places(n *strict.Node) []place {
	var out []place
	var walk func(n *strict.Node, at place)
	walk = func(n *strict.Node, at place) {
		for _, e := range n.Entries {
			p := append(slices.Clone(at), e.Key)
			out = append(out, p)
			walk(e.Value, p)
		}
		for i, item := range n.Items {
			p := append(slices.Clone(at), fmt.Sprintf("#%d", i))
			out = append(out, p)
			walk(item, p)
		}
	}
	walk(n, nil)
	return out
}

func pick(text string) uint32 {
	h := fnv.New32a()
	h.Write([]byte(text))
	return h.Sum32()
}
