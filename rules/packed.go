package rules

import (
	"embed"
	"strings"

	"firstvolt/checks/strict"
)

// Reading the YAML of the rulebook would take longer than judging a sheet, so
// the trees of its files stand here too, packed. Each begins with the sum of the
// file that it was made of; for any other bytes than those the YAML is read, so
// an old tree costs time and never says anything. TestPackedIsTheBook makes them
// anew with -update.
//
//go:embed packed/*.tree
var packed embed.FS

// unpacked is the tree of a file of the book with that sum, nil where none is
// kept.
func unpacked(file, sum string) *strict.Node {
	data, err := packed.ReadFile(packedName(file))
	if err != nil {
		return nil
	}
	tree, same := strings.CutPrefix(string(data), sum)
	if !same {
		return nil
	}
	root, ok := strict.Unpack(tree)
	if !ok {
		return nil
	}
	return root
}

func packedName(file string) string { return "packed/" + strings.TrimSuffix(file, ".yaml") + ".tree" }
