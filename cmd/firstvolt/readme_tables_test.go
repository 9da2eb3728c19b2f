package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
	"firstvolt/rules"
)

// tables are the parts of the README that are made from the program.
func tables(t *testing.T) map[string]string {
	t.Helper()
	return map[string]string{"verdicts": verdictTable(), "not judged": notJudgedYet(t), "commands": commandTable(), "keys": keyTables()}
}

func verdictTable() string {
	out := "| verdict of `check` | means | exit status |\n|---|---|---|\n"
	for _, r := range []struct {
		word, means string
		status      int
	}{
		{report.Verdict(rules.Cleared), "of what the stage asks nothing fails, and nothing required is open", exitCleared},
		{report.Verdict(rules.Hold), "something fails: no voltage", exitHold},
		{report.Verdict(rules.Open), "nothing fails, but something required is not known or not proved: no voltage yet", exitUnproven},
		{"UNREADABLE", "the sheet has slips, or the command was not understood; nothing was judged", exitUsage},
		{"", "a fault of this program; nothing that it printed counts", exitFault},
	} {
		word := "none"
		if r.word != "" {
			word = "`" + r.word + "`"
		}
		out += fmt.Sprintf("| %s | %s | %d |\n", word, r.means, r.status)
	}
	return out + "\nOf several sheets the worst counts: 70, 3, 1, 2, 0. **A status counts only with a verdict printed**: a program\nthat was ended from outside, or died of memory, has a status too. Under the verdict stands each finding: `FAIL`,\n`UNPROVEN`, `CAUTION` (advice, what should be better, a reading that nobody owes and nobody took), `PASS`;\nand whether it is a matter of shock, of fire or of damage to the set.\n"
}

// meant says what each group of rules is about, for those that may be missing.
var meant = map[string]string{
	"high-tension": "rectifier, filter capacitors and what they feed",
	"faults":       "what each single part does when it fails short or open",
}

// notJudgedYet asks the program: the whole example is judged at every stage.
func notJudgedYet(t *testing.T) string {
	t.Helper()
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	data, err := os.ReadFile(larkfield)
	if err != nil {
		t.Fatal(err)
	}
	var groups []string
	rail := false
	for _, stage := range rules.Stages {
		j := judging.Bytes(book, larkfield, data, stage).Judgement
		for _, g := range j.NotJudged {
			if !slices.Contains(groups, g) {
				groups = append(groups, g)
			}
		}
		rail = rail || len(j.Reasons) > 0 && stage == "rail"
	}
	if len(groups) == 0 {
		return "Every group of rules is judged.\n"
	}
	out := "**Not judged yet:**\n\n"
	for _, g := range rules.Groups {
		if slices.Contains(groups, g) {
			if meant[g] == "" {
				t.Errorf("the README does not know what the group %s is about", g)
			}
			out += fmt.Sprintf("- %s: %s\n", strings.ReplaceAll(g, "-", " "), meant[g])
		}
	}
	if rail {
		out += "\nThe first line of every judgement names them. Until they are judged no set is cleared at the rail,\nand none at all but a transformer set whose chassis is bonded.\n"
	}
	return out
}

func commandTable() string {
	out := "| command | what it does |\n|---|---|\n"
	for _, c := range application(nil, nil).Commands {
		if !c.Hidden {
			out += fmt.Sprintf("| `firstvolt %s` | %s |\n", strings.TrimSpace(c.Name+" "+c.ArgsUsage), c.Usage)
		}
	}
	return out
}

// keyTables list every key of the sheet, section by section.
func keyTables() string {
	var out strings.Builder
	for _, k := range sheet.Shape().Map.Keys {
		if k.Shape.Map == nil && k.Shape.List == nil {
			continue
		}
		if k.Name == "parts" {
			partTables(&out, k)
			continue
		}
		fmt.Fprintf(&out, "### %s: %s\n\n", k.Name, k.Doc)
		if k.Name == "supply" {
			fmt.Fprintf(&out, "%s\n", regionTable())
		}
		s := *k.Shape
		if k.Name == "readings" {
			readingTables(&out, k)
			continue
		}
		if k.Name == "wiring" {
			fmt.Fprintf(&out, "Colors: `%s`, or two joined: `green-yellow`.\nCores of a parallel cord that are alike in color differ in their insulation: `%s`.\n\n",
				strings.Join(sheet.Colors, "`, `"), strings.Join(sheet.Marks, "`, `"))
		}
		if k.Name == "wiring" { // a run may be text or have keys
			s = *s.List.Item
		}
		var pre string
		if s.Map.Any != nil {
			pre, s = "NAME.", *s.Map.Any
		}
		out.WriteString("| key | what it says | written |\n|---|---|---|\n")
		rows(&out, pre, s.Map.Keys)
		out.WriteString("\n")
	}
	out.WriteString("### One and the same\n\nIn keys, kinds, terminals and colors these may stand for each other:\n\n")
	for _, word := range []string{"hot", "ground", "color", "grey", "aerial", "tube"} {
		fmt.Fprintf(&out, "- `%s`\n", strings.Join(strict.Spellings(word), "`, `"))
	}
	return out.String()
}

// readingTables list the keys that every reading has once, and those of one
// kind behind them.
func readingTables(out *strings.Builder, k strict.Key) {
	out.WriteString("| key | what it says | written |\n|---|---|---|\n")
	var every []strict.Key
	own := map[string][]string{}
	for _, key := range k.Shape.Map.Keys {
		if !slices.Contains(sheet.ReadingKinds, key.Name) {
			rows(out, "", []strict.Key{key})
			continue
		}
		fmt.Fprintf(out, "| `%s` | %s | a list of readings |\n", key.Name, key.Doc)
		for _, inner := range key.Shape.List.Item.Map.Keys {
			if own[inner.Name] == nil {
				every = append(every, inner)
			}
			own[inner.Name] = append(own[inner.Name], key.Name)
		}
	}
	out.WriteString("\nEach reading:\n\n| key | what it says | written |\n|---|---|---|\n")
	for _, key := range every {
		if of := own[key.Name]; len(of) < len(sheet.ReadingKinds) {
			key.Doc += " (of " + strings.Join(of, ", ") + ")"
		}
		if key.Name == "reads" || key.Name == "range" {
			text := "a value with its unit, `OL`, or `over 500 MΩ`; or by time: `{15 s: 180 MΩ, 60 s: 300 MΩ}`"
			if key.Name == "range" {
				text = "a value with its unit"
			}
			name := "`" + key.Name + "`"
			if key.Required {
				name = "**" + name + "**"
			}
			fmt.Fprintf(out, "| %s | %s | %s |\n", name, key.Doc, text)
			continue
		}
		rows(out, "", []strict.Key{key})
	}
	out.WriteString("\n")
}

// rows lists keys; those of a map or list inside stand behind a dot.
func rows(out *strings.Builder, pre string, keys []strict.Key) {
	for _, k := range keys {
		name := "`" + pre + k.Name + "`"
		if k.Required {
			name = "**" + name + "**"
		}
		inner := k.Shape
		list := inner.List != nil && inner.Text == nil
		if list {
			inner = inner.List.Item
		}
		written := how(k.Shape)
		if inner.Map != nil && inner.Map.Case != "" {
			fmt.Fprintf(out, "| %s | %s | a list, each with `%s` |\n", name, k.Doc, inner.Map.Case)
			for _, word := range inner.Map.Order {
				rows(out, fmt.Sprintf("%s.%s ", k.Name, word), inner.Map.Cases[word].Keys)
			}
			continue
		}
		fmt.Fprintf(out, "| %s | %s | %s |\n", name, k.Doc, written)
		if inner.Map != nil {
			rows(out, pre+k.Name+".", inner.Map.Keys)
		}
	}
}

// how says how the value of a key is written.
func how(s *strict.Shape) string {
	var ways []string
	if t := s.Text; t != nil {
		switch {
		case t.Words != nil:
			ways = append(ways, "`"+strings.Join(t.Words, "`, `")+"`")
		case t.Note, t.Type == "text" && t.Example == "free text":
			ways = append(ways, "text")
		case t.Example != "":
			ways = append(ways, "like `"+t.Example+"`")
		}
	}
	switch {
	case s.List != nil && s.List.Item.Text != nil && s.List.Item.Map == nil:
		ways = append(ways, "a list: "+how(s.List.Item))
	case s.List != nil:
		ways = append(ways, "a list")
	}
	switch m := s.Map; {
	case m != nil && m.Any != nil && m.Any.Text != nil:
		ways = append(ways, "`{NAME: …}`, each "+how(m.Any))
	case m != nil && m.Any != nil:
		ways = append(ways, "`{NAME: {…}}`")
	case m != nil:
		ways = append(ways, "keys")
	}
	return strings.ReplaceAll(strings.Join(ways, "; or "), "|", "\\|")
}

// partTables list the kinds of part with their terminals and keys.
func partTables(out *strings.Builder, k strict.Key) {
	fmt.Fprintf(out, "### %s: %s\n\nEach part is `NAME: {kind: …}` with the keys of its kind; all may have a `note`.\n\n", k.Name, k.Doc)
	out.WriteString("| kind | what it is | terminals | its keys |\n|---|---|---|---|\n")
	for _, kind := range part.Kinds() {
		var keys []string
		for _, key := range kind.Keys {
			text := "`" + key.Name + "` " + key.Doc
			if key.Shape.Text != nil && key.Shape.Text.Words != nil {
				text += " (" + how(key.Shape) + ")"
			}
			keys = append(keys, text)
		}
		fmt.Fprintf(out, "| `%s` | %s | %s | %s |\n", kind.Name, kind.Doc, terminalsOf(kind), strings.Join(keys, "; "))
	}
	w := part.KindOf("transformer")
	for _, key := range w.Keys {
		if key.Name == "windings" {
			out.WriteString("\nA winding is `NAME: {…}`; its name begins with what it is: `" + strings.Join(part.Roles, "`, `") + "`.\n\n| key | what it says | written |\n|---|---|---|\n")
			rows(out, "", key.Shape.Map.Any.Map.Keys)
		}
	}
	out.WriteString("\n")
}

// terminalsOf lists the terminals of a part of which the sheet says nothing
// but its kind; in some holders, materials and makes there are others.
func terminalsOf(k *part.Kind) string {
	bare := func(entries ...strict.Entry) []string {
		n := strict.MapNode(append([]strict.Entry{strict.Pair("kind", strict.TextNode(k.Name))}, entries...)...)
		return k.Terminals(&part.Part{Name: "X", Kind: k, Node: n})
	}
	word := func(key, v string) strict.Entry { return strict.Pair(key, strict.TextNode(v)) }
	code := func(t []string) string { return "`" + strings.Join(t, "` `") + "`" }
	switch k.Name {
	case "fuse":
		return code(bare()) + "; in a panel or touch-proof holder " + code(bare(word("holder", "panel")))
	case "switch":
		return code(bare(word("poles", "1"))) + "; of a second pole `3` `4`, and so on"
	case "rectifier":
		return code(bare(word("type", "5Y3"))) + "; of silicon or selenium " + code(bare(word("of", "silicon")))
	}
	t := bare()
	switch {
	case t == nil:
		return "none: its name is the node"
	case len(t) == 0:
		return "those you name"
	}
	return code(t)
}

func regionTable() string {
	out := "| region | plugs |\n|---|---|\n"
	for _, name := range handbook.Regions() {
		r, _ := handbook.Region(name)
		out += fmt.Sprintf("| `%s` | `%s` |\n", name, strings.Join(r.PlugNames(), "`, `"))
	}
	return out
}
