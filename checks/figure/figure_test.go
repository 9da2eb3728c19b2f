package figure

import (
	"testing"

	"firstvolt/checks/quantity"
)

var (
	number   = &Def{Name: "ohms", Of: []string{"fuse"}, Says: "its resistance", Unit: quantity.Resistance}
	presence = &Def{Name: "there", Of: []string{"fuse"}, Says: "it is there", Present: true}
	subject  = Subject{Name: "F1", Kind: "fuse"}
)

// Exactly one of three holds: a range, present or absent, missing.
func TestOneOfThree(t *testing.T) {
	r := quantity.Exact(2, quantity.Resistance)
	if f := Number(number, subject, r); !f.Known() || f.Present != nil || f.Range != r || f.Def != number || f.Of != subject {
		t.Errorf("a number: %+v", f)
	}
	for _, is := range []bool{true, false} {
		if f := Is(presence, subject, is); !f.Known() || f.Present == nil || *f.Present != is {
			t.Errorf("present %v: %+v", is, f)
		}
	}
	need := Need{What: "a reading", How: "an ohmmeter"}
	if f := NotKnown(number, subject, need); f.Known() || f.Present != nil || len(f.Missing) != 1 || f.Missing[0] != need {
		t.Errorf("missing: %+v", f)
	}
	// Nothing said of what would supply it: the figure's own sentence stands for it.
	if f := NotKnown(number, subject); f.Known() || f.Missing[0].What != number.Says {
		t.Errorf("missing without a need: %+v", f)
	}
}

// Each presence is its own: altering one does not reach into another.
func TestPresenceIsNotShared(t *testing.T) {
	a, b := Is(presence, subject, true), Is(presence, subject, true)
	*a.Present = false
	if !*b.Present {
		t.Error("two figures share one answer")
	}
}

func TestFactKnown(t *testing.T) {
	volts := quantity.Exact(120, quantity.Voltage)
	for want, facts := range map[bool][]Fact{true: {{Word: "yes"}, {Range: &volts}}, false: {{}}} {
		for _, f := range facts {
			if f.Known() != want {
				t.Errorf("%+v known: %v", f, !want)
			}
		}
	}
}
