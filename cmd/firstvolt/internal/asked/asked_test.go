package asked

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/mains"
	"firstvolt/cmd/firstvolt/internal/judging"
)

func wordsOf(t *testing.T, sheet string) (*judging.Sheet, *Words) {
	t.Helper()
	s := judging.Read("../../../../testdata/sheets/" + sheet + ".yaml")
	if s.Bench == nil {
		t.Fatal(s.Problems, s.Faults)
	}
	w, err := Of(s)
	if err != nil {
		t.Fatal(err)
	}
	return s, w
}

// A name is found however its spaces, dashes and capitals are typed, in the
// region's words and in the program's.
func TestFind(t *testing.T) {
	w := &Words{}
	var names []name[string]
	for _, n := range []string{"C1 shorted", "C1 open", "plug.hot – F1.1 wire parted", "A1 1 open", "A 11 open"} {
		add(w, &names, n, n)
	}
	names[2].forms = append(names[2].forms, "plug.live – F1.1 wire parted")
	for typed, want := range map[string]string{
		"C1 shorted": "C1 shorted", "c1 SHORTED": "C1 shorted", "plug.hot - F1.1 wire parted": "plug.hot – F1.1 wire parted",
		"plug.hot-F1.1 wire parted": "plug.hot – F1.1 wire parted", "plug.live – F1.1\n    wire parted": "plug.hot – F1.1 wire parted",
		"C1": "", "": "", "A 11 open": "A 11 open", "a11 open": "",
	} {
		got, err := find(typed, "fault", names, "see the list")
		var e *Error
		if got != want || (err == nil) != (want != "") || err != nil && (!errors.As(err, &e) || e.Hint == "") {
			t.Errorf("%q: %q, %v", typed, got, err)
		}
	}
	if _, err := find[string]("x", "latent fault", nil, ""); err == nil {
		t.Error("found among nothing")
	}
}

// A position that the trade calls otherwise leads to what it means, never to
// what its letters are like: on is closed, though "S1 on" looks like S1 open.
func TestPositionsAsSaid(t *testing.T) {
	_, w := wordsOf(t, "larkfield-six-forty")
	for said, want := range map[string]string{
		"on": "closed", "off": "open", "made": "closed", "broken": "open", "ein": "closed", "aus": "open",
		"AN": "closed", "zu": "closed", "offen": "open", "geschlossen": "closed", "shut": "closed",
	} {
		for _, typed := range []string{"S1 " + said, "s1  " + said} {
			_, _, _, err := w.One(Typed{Switches: &typed})
			var e *Error
			if !errors.As(err, &e) || e.Hint != "did you mean S1 "+want+"?" {
				t.Errorf("%q: %+v", typed, err)
			}
		}
	}
	for _, typed := range []string{"S1 o", "S1 op", "S1 opn", "S1 in", "S1 of", "S1 up", "S1", "S1 ope", "S1 one", "S1 onn", "S1 true", "S9 on"} {
		_, _, _, err := w.One(Typed{Switches: &typed})
		var e *Error
		if !errors.As(err, &e) || strings.Contains(e.Hint, "did you mean S1 open") != slices.Contains([]string{"S1 opn", "S1 ope"}, typed) {
			t.Errorf("%q: %+v", typed, e)
		}
	}
	for typed, want := range map[string]string{"earth broken": "did you mean ground open?", "S1 pole 1 stuck on": "did you mean S1 pole 1 stuck closed?", "s1 pole 1 stuck off": "did you mean S1 pole 1 stuck open?"} {
		_, _, _, err := w.One(Typed{Fault: &typed})
		var e *Error
		if !errors.As(err, &e) || e.Hint != want {
			t.Errorf("%q: %+v", typed, e)
		}
	}
}

func TestOfPart(t *testing.T) {
	for fault, want := range map[string]bool{
		"T1 primary shorted": true, "T1.1 insulation to chassis leaking": true, "S1.2 – T1.1 wire parted": true, "S1.2 insulation to T1.5 broken down": true,
		"T10 open": false, "T10.1 wire touches chassis": false, "neutral open": false, "": false,
	} {
		if of(fault, "T1") != want {
			t.Errorf("%q: not %t", fault, want)
		}
	}
	for fault, want := range map[faults.Fault][2]bool{
		{Kind: faults.WindingShorted, Of: "T1", Winding: "primary"}: {true, true},
		{Kind: faults.Leaking, Of: "T1.1", Metal: "chassis"}:        {true, false},
		{Kind: faults.WireParted, Of: "S1.2", Metal: "T1.1"}:        {true, false},
		{Kind: faults.BrokenDown, Of: "S1.2", Metal: "T1.5"}:        {true, false},
		{Kind: faults.Open, Of: "T10"}:                              {false, false},
		{Kind: faults.WireTouches, Of: "T10.1", Metal: "chassis"}:   {false, false},
		{Kind: faults.NeutralOpen}:                                  {false, false},
		{}:                                                          {false, false},
	} {
		if about, itself := fault.About("T1"); about != want[0] || itself != want[1] {
			t.Errorf("%s: %t, %t, not %v", fault, about, itself, want)
		}
	}
}

func TestTouches(t *testing.T) {
	chassis, tuner := mains.Touch{Held: "chassis"}, mains.Touch{Held: "Tuner"}
	both, turned := mains.Touch{Held: "chassis", Other: "Tuner"}, mains.Touch{Held: "Tuner", Other: "chassis"}
	for _, c := range []struct {
		held, asked mains.Touch
		want        bool
	}{
		{chassis, chassis, true}, {both, chassis, true}, {both, tuner, true}, {both, turned, true},
		{chassis, both, false}, {both, mains.Touch{Held: "chassis", Other: "Knob"}, false}, {tuner, chassis, false}, {mains.Touch{}, chassis, false},
	} {
		if touches(c.held, c.asked) != c.want {
			t.Errorf("%q for %q: not %t", c.held, c.asked, c.want)
		}
	}
}

// What is not typed is sound, switched on, the first way round and without
// lamp; of several switches one may be named where that is enough.
func TestOne(t *testing.T) {
	_, w := wordsOf(t, "furkastein-truhe")
	text := func(s string) *string { return &s }
	for _, c := range []struct {
		typed            Typed
		switches, latent string
		wrong, hint      string // pieces of an error
	}{
		{typed: Typed{}, switches: "S1 closed, S2 closed"},
		{typed: Typed{Latent: text("earth open")}, switches: "S1 closed, S2 closed", latent: "ground open"},
		{typed: Typed{Switches: text("s2 OPEN, S1 closed")}, switches: "S1 closed, S2 open"},
		{typed: Typed{Switches: text("S2 open")}, switches: "S1 closed, S2 open"},
		{typed: Typed{Switches: text("S2 open, s1 open"), Fault: text("S1 pole 1 stuck closed")}, switches: "S1 open, S2 open"},
		{typed: Typed{Switches: text("S2 open, S2 closed")}, wrong: "no case has all of this: nothing at fault, no latent fault, S2 open, S2 closed", hint: "there is one with --switches"},
		{typed: Typed{Switches: text("S3 open")}, wrong: `no position "S3 open"`, hint: "did you mean S"},
		{typed: Typed{Fault: text("S2 pole 1 stuck closed")}, wrong: "S1 closed, S2 closed", hint: `add --switches "S1 open, S2 open", or --switches "S1 closed, S2 open"`},
		{typed: Typed{Fault: text("S2 pole 1 stuck closed"), Latent: text("earth open")}, wrong: "earth open not noticed before", hint: "add --switches"},
		{typed: Typed{Fault: text("earth open"), Latent: text("earth open")}, wrong: "no case", hint: `there is one with --latent "nothing"`},
		{typed: Typed{Fault: text("s2 welded")}, wrong: `no fault "s2 welded"`, hint: "one of: "},
		{typed: Typed{Fault: text("s2 welded")}, wrong: `no fault "s2 welded"`, hint: "S2 pole 1 stuck open"},
		{typed: Typed{Fault: text("bogus")}, wrong: "no fault", hint: "--all"},
		{typed: Typed{Fault: text("plug pulled")}, wrong: "no mains circuit", hint: "--fault"},
		{typed: Typed{Touches: text("F1")}, wrong: "no metal within reach", hint: "chassis"},
	} {
		l, _, _, err := w.One(c.typed)
		if c.wrong == "" {
			if err != nil || l.Switches() != c.switches || l.Latent.None() != (c.latent == "") || c.latent != "" && l.Latent.String() != c.latent || l.Limiter {
				t.Errorf("%+v: %+v, %v", c.typed, l.Which, err)
			}
			continue
		}
		var e *Error
		if !errors.As(err, &e) || !strings.Contains(e.Wrong, c.wrong) || !strings.Contains(e.Hint, c.hint) {
			t.Errorf("want %s\n%s\ngot %+v", c.wrong, c.hint, err)
			if e != nil {
				t.Error(e.Hint)
			}
		}
	}
}

// A position is named by any part of it, as far as that goes the one that stands
// on the sheet.
func TestPartOfAPosition(t *testing.T) {
	_, w := wordsOf(t, "veldhoven-grand")
	text := func(s string) *string { return &s }
	for typed, want := range map[string]string{
		"exchanged": "exchanged", "socket exchanged": "exchanged", "as wired": "as wired", "turned at the plug": "as wired, turned at the plug",
		"socket exchanged, turned at the plug": "exchanged, turned at the plug", "as wired, exchanged": "",
	} {
		yes := true
		l, _, _, err := w.One(Typed{Orientation: text(typed), Limiter: &yes})
		if err == nil && l.Orientation() != want || (err != nil) != (want == "") {
			t.Errorf("%q: %q, %v", typed, l.Orientation(), err)
		}
	}
	if l, _, _, err := w.One(Typed{}); err != nil || l.Orientation() != "as wired" || l.Open > 0 {
		t.Errorf("%+v, %v", l.Which, err)
	}
}

// A table is narrowed to what has all that was typed, and to nothing else.
func TestSome(t *testing.T) {
	s, w := wordsOf(t, "larkfield-six-forty")
	cases, err := faults.Table(s.Bench)
	if err != nil {
		t.Fatal(err)
	}
	text := func(s string) *string { return &s }
	yes := true
	ground, neutral := faults.Fault{Kind: faults.GroundOpen}, faults.Fault{Kind: faults.NeutralOpen}
	for _, c := range []struct {
		typed Typed
		fits  func(faults.Which) bool
	}{
		{Typed{}, func(faults.Which) bool { return true }},
		{Typed{Fault: text("ground open")}, func(w faults.Which) bool { return w.Fault == ground || w.Latent == ground }},
		{Typed{Fault: text("ground open"), Latent: text("none")}, func(w faults.Which) bool { return w.Fault == ground && w.Latent.None() }},
		{Typed{Fault: text("neutral open"), Latent: text("ground open")}, func(w faults.Which) bool { return w.Fault == neutral && w.Latent == ground }},
		{Typed{Fault: text("ground open"), Latent: text("neutral open")}, func(w faults.Which) bool { return w.Fault == neutral && w.Latent == ground }},
		{Typed{Fault: text("nothing at fault")}, func(w faults.Which) bool { return w.Fault.None() }},
		{Typed{Latent: text("residual device dead"), Limiter: &yes}, func(w faults.Which) bool { return w.Latent.Kind == faults.DeviceDead && w.Limiter }},
		{Typed{Part: text("C1"), Switches: text("S1 open")}, func(w faults.Which) bool {
			return w.Switches() == "S1 open" && (strings.Contains(w.Fault.String(), "C1") || strings.Contains(w.Latent.String(), "C1"))
		}},
	} {
		got, only, err := w.Some(c.typed, cases)
		if err != nil || len(got) == 0 || len(only.Says) > len(only.Means) {
			t.Fatalf("%+v: %d, %v, %v", c.typed, len(got), only, err)
		}
		n := 0
		for _, x := range cases {
			if c.fits(x.Which) {
				if n >= len(got) || !reflect.DeepEqual(got[n], x) {
					t.Fatalf("%+v: %+v is missing", c.typed, x)
				}
				n++
			}
		}
		if n != len(got) {
			t.Errorf("%+v: %d cases, want %d", c.typed, len(got), n)
		}
	}
	if got, _, err := w.Some(Typed{Fault: text("plug pulled")}, cases); err == nil {
		t.Error(got)
	}
}
