package strict

import (
	"reflect"
	"testing"
)

func packedSample(t *testing.T) (*Node, string) {
	t.Helper()
	root, problems := Parse([]byte("a:\n  b: [1, \"two\", three Ω]\n  c: |\n    a block\n    of text\nd: []\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return root, string(Pack(root))
}

// What is packed comes out as it was, places and marks with it.
func TestUnpackGivesWhatWasPacked(t *testing.T) {
	root, packed := packedSample(t)
	if got, ok := Unpack(packed); !ok || !reflect.DeepEqual(got, root) {
		t.Errorf("%v: %+v, want %+v", ok, got, root)
	}
}

// No piece of a packed tree, nor more than one, is taken for a tree.
func TestUnpackTakesNothingElse(t *testing.T) {
	_, packed := packedSample(t)
	for i := range packed {
		if _, ok := Unpack(packed[:i]); ok {
			t.Errorf("the first %d bytes are taken", i)
		}
	}
	for _, text := range []string{packed + "x", "\x01\x01\x01\xff\xff\xff\xff\xff\xff\xff\xff\xff", "\x02\x01\x01\xff\xff\x7f"} {
		if _, ok := Unpack(text); ok {
			t.Errorf("%q is taken", text)
		}
	}
}
