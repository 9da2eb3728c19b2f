package blank

import (
	"strings"

	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

// keyAt finds a key of the sheet by its path. "*" stands for any name (a part,
// an instrument), "kind=fuse" for the keys of that kind, and the items of a
// list need no step. ok is false where the sheet has no such key.
func keyAt(path ...string) (found strict.Key, ok bool) {
	shape := sheet.Shape()
	for _, step := range path {
		for shape != nil && shape.Map == nil && shape.List != nil {
			shape = shape.List.Item
		}
		if shape == nil || shape.Map == nil {
			return found, false
		}
		m := shape.Map
		if step == "*" {
			shape = m.Any
			continue
		}
		if _, word, isCase := strings.Cut(step, "="); isCase {
			chosen := m.Cases[word]
			if chosen == nil {
				return found, false
			}
			shape = &strict.Shape{Map: chosen}
			continue
		}
		ok = false
		for _, k := range m.Keys {
			if k.Name == step {
				found, shape, ok = k, k.Shape, true
			}
		}
		if !ok {
			return found, false
		}
	}
	return found, ok
}

// about is what a key means, with its words where they are a closed list.
func about(k strict.Key) string {
	if k.Shape != nil && k.Shape.Text != nil && len(k.Shape.Text.Words) > 1 {
		return k.Doc + ": " + strings.Join(k.Shape.Text.Words, " | ")
	}
	return k.Doc
}
