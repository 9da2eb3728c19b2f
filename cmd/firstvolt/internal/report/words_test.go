package report

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

func TestWordsOfTheRegion(t *testing.T) {
	uk, ok := handbook.Region("united-kingdom")
	if !ok {
		t.Fatal("no such region")
	}
	na, ok := handbook.Region("north-america")
	if !ok {
		t.Fatal("no such region")
	}
	for _, c := range []struct{ text, uk, na string }{
		{"Ground the chassis; hot meets the fuse.", "Earth the chassis; live meets the fuse.", "Ground the chassis; hot meets the fuse."},
		{"plug.ground → chassis, plug.hot → S1.1", "plug.earth → chassis, plug.live → S1.1", "plug.ground → chassis, plug.hot → S1.1"},
		{"a good earth at the valves", "a good earth at the valves", "a good ground at the tubes"},
		{"tubes out, the grounded cord", "valves out, the earthed flex", "tubes out, the grounded cord"},
		// Names of rules, inspections, plugs and files are no trade words.
		{"see hot-meets-fuse-first and cord-jacket", "see hot-meets-fuse-first and cord-jacket", "see hot-meets-fuse-first and cord-jacket"},
		{"sets/hot.yaml", "sets/hot.yaml", "sets/hot.yaml"},
		// What is to be bought is the region's; a device on the sheet stays what it is.
		{"a tested GFCI/RCD upstream of the GFCI", "a tested RCD upstream of the GFCI", "a tested GFCI upstream of the GFCI"},
		// hot as a temperature stays.
		{"several times its hot current", "several times its hot current", "several times its hot current"},
		{"it runs hot", "it runs hot", "it runs hot"},
		{"while hot", "while hot", "while hot"},
		{"while hot and neutral are exchanged", "while live and neutral are exchanged", "while hot and neutral are exchanged"},
		// A part that the sheet calls by a trade word keeps its name.
		{"tube: a tube", "tube: a tube", "tube: a tube"},
	} {
		keep := []string{}
		if c.text == "tube: a tube" {
			keep = append(keep, "tube")
		}
		if got := NewWords(spoken(uk), keep...).Say(c.text); got != c.uk {
			t.Errorf("united-kingdom: %q, want %q", got, c.uk)
		}
		if got := NewWords(spoken(na), keep...).Say(c.text); got != c.na {
			t.Errorf("north-america: %q, want %q", got, c.na)
		}
	}
	if got := (Words{}).Say("ground"); got != "ground" {
		t.Errorf("no region: %q", got)
	}
}

// The article follows the region's word.
func TestArticleOfTheRegionsWord(t *testing.T) {
	for region, want := range map[string]string{
		"united-kingdom": "A live wire, an earthed lead, an aerial; a valve, not an hour.",
		"australia":      "An active wire, an earthed lead, an aerial; a valve, not an hour.",
		"north-america":  "A hot wire, a grounded lead, an antenna; a tube, not an hour.",
	} {
		r, ok := handbook.Region(region)
		if !ok {
			t.Fatal("no such region")
		}
		if got := NewWords(r.Words).Say("A hot wire, an earthed lead, an aerial; a tube, not an hour."); got != want {
			t.Errorf("%s: %q, want %q", region, got, want)
		}
	}
}

func TestSentence(t *testing.T) {
	w := NewWords(nil, "lamp")
	for text, want := range map[string]string{
		"the switch is first": "The switch is first.",
		"lamp is on no run":   "lamp is on no run.",
		"plug.hot meets S1":   "plug.hot meets S1.",
		"C1: no class":        "C1: no class.",
		"really?":             "Really?",
		"":                    "",
	} {
		if got := w.sentence(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// A key that is named in passing is one that the sheet takes in every region's
// words, and so is a pin of the plug: a person writes what is printed.
func TestKeysStayKeys(t *testing.T) {
	known := keysOf(sheet.Shape(), map[*strict.Shape]bool{})
	if len(known) < 100 {
		t.Fatal(known)
	}
	sections := map[string]bool{"": true, "supply.": true, "set.": true, "cord.": true, "nameplate.": true}
	for _, region := range handbook.Regions() {
		r, _ := handbook.Region(region)
		w := NewWords(spoken(r))
		for _, key := range known {
			for section := range sections {
				for _, text := range []string{"add %: to the link", "under %:", "%: tested", "add length: and %:", "leave out %:, or say it", "key %:", "(%: x)"} {
					said := w.sentence(strings.ReplaceAll(text, "%", section+key))
					want := regexp.QuoteMeta(strings.ReplaceAll(text, "%", "@"))
					m := regexp.MustCompile("(?i)^" + strings.ReplaceAll(want, "@", "(?:"+section+")(\\S*)")).FindStringSubmatch(said)
					if m == nil {
						t.Fatalf("%s: %q", region, said)
					}
					if _, ok := strict.Known(strings.ToLower(m[1][:1])+m[1][1:], []string{key}); !ok {
						t.Errorf("%s: %q is no key", region, said)
					}
				}
			}
		}
		for _, pin := range sheet.PlugPins {
			_, said, _ := strings.Cut(w.Say("plug."+pin), ".")
			if _, ok := strict.Known(said, []string{pin}); !ok {
				t.Errorf("%s: plug.%s is no pin", region, said)
			}
		}
	}
	r, _ := handbook.Region("united-kingdom")
	for text, want := range map[string]string{ // where it is no key
		"pull the plug out of the receptacle: it stays live": "pull the plug out of the socket: it stays live",
		"the cord: 3 conductors":                             "the flex: 3 conductors",
	} {
		if got := NewWords(spoken(r)).Say(text); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// keysOf are the keys of the sheet, wherever they stand.
func keysOf(s *strict.Shape, seen map[*strict.Shape]bool) (out []string) {
	if s == nil || seen[s] {
		return nil
	}
	seen[s] = true
	if s.List != nil {
		out = append(out, keysOf(s.List.Item, seen)...)
	}
	var of func(m *strict.MapShape)
	of = func(m *strict.MapShape) {
		if m == nil {
			return
		}
		out = append(out, keysOf(m.Any, seen)...)
		for _, k := range m.Keys {
			out = append(append(out, k.Name), keysOf(k.Shape, seen)...)
		}
		for _, c := range m.Cases {
			of(c)
		}
	}
	of(s.Map)
	slices.Sort(out)
	return slices.Compact(out)
}
