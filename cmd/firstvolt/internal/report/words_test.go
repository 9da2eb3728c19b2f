package report

import (
	"testing"

	"firstvolt/checks/handbook"
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
