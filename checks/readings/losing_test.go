package readings_test

import (
	"regexp"
	"strings"
	"testing"

	"firstvolt/checks/sheet"
)

// key is one optional key within a flow map, with its comma.
var key = regexp.MustCompile(`, ([a-z-]+): ([^,{}\[\]]+|\[[^\[\]]*\]|\{[^{}\[\]]*\})([,}])`)

// keyLine is one optional key on a line of its own.
var keyLine = regexp.MustCompile(`(?m)^  (taken|ambient|rebuilt|receptacle|voltage|chassis|nameplate): .*\n`)

// without makes, for every optional key of the text, the text that lacks it.
// What changes the set itself or what is being read, and not what is known of
// it, is left alone.
func without(text string) map[string]string {
	out := map[string]string{}
	for _, m := range key.FindAllStringSubmatchIndex(text, -1) {
		name := text[m[2]:m[3]]
		switch name {
		case "tap", "taps", "ends", "kind", "reads", "between", "across", "applied", "measures", "construction", "positions", "pins", "jumpers", "shield":
			continue
		}
		line := 1 + strings.Count(text[:m[0]], "\n")
		out[strings.TrimSpace(strings.Split(text, "\n")[line-1])+" less "+name] = text[:m[0]] + text[m[6]:]
	}
	for _, m := range keyLine.FindAllStringIndex(text, -1) {
		out["no "+strings.TrimSpace(text[m[0]:m[1]])] = text[:m[0]] + text[m[1]:]
	}
	return out
}

// TestLosingKnowledge: taking away a key never makes a finding pass that did
// not, on a sound sheet and on the same sheet with readings gone bad.
func TestLosingKnowledge(t *testing.T) {
	sound := larkfield(t)
	texts := []string{sound}
	for _, bad := range [][][]swap{
		{edit(onLine, "9.9 Ω", "15 Ω"), edit(offLine, "OL", "9.9 Ω"), edit(megLine, "240 MΩ", "0.5 MΩ"), edit(halfB, "112 Ω", "150 Ω"), edit(turnsLine, "0.335 V", "0.533 V")},
		{edit(onLine, "9.9 Ω", "4.8 Ω"), edit(metalLine, "OL", "47 kΩ"), edit(lowLine, "over 500 MΩ", "1 MΩ"), edit(capLine, "5.4 nF", "52 nF"), edit(bondLine, "0.06 Ω", "0.6 Ω")},
		{edit(acrossLine, "9.7 Ω", "OL"), edit(plateLine, "60 s: 300 MΩ", "60 s: 15 MΩ"), more(bondLine, strings.Replace(bondLine, "0.06", "0.5", 1))},
	} {
		text := sound
		for _, s := range bad {
			text = altered(t, text, s...)
		}
		texts = append(texts, text)
	}
	tried := 0
	for _, text := range texts {
		before := judge(t, text)
		for what, less := range without(text) {
			if s, _ := sheet.Read("less.yaml", []byte(less)); s == nil {
				continue
			}
			tried++
			for name, f := range judge(t, less) {
				if old, asked := before[name]; f.Outcome == "pass" && asked && old.Outcome != "pass" {
					t.Errorf("%s: %s was %s and now passes: %s (%s)", what, name, old.Outcome, f.Says, f.Note)
				}
			}
		}
	}
	if tried < 150 {
		t.Errorf("only %d sheets tried", tried)
	}
}
