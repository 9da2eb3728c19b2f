package manual

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
)

const keyHead = "| key | what it says | written |\n|---|---|---|\n"

// section is the table of one key of the sheet, with what its words are.
func section(k strict.Key) string {
	var out strings.Builder
	s := *k.Shape
	switch k.Name {
	case "readings":
		readings(&out, k)
		return out.String()
	case "supply":
		out.WriteString(regions() + "\n")
	case "wiring": // a run may be text or have keys
		fmt.Fprintf(&out, "Colors: `%s`, or two joined: `green-yellow`.\nCores of a parallel cord that are alike in color differ in their insulation: `%s`.\n\n",
			strings.Join(sheet.Colors, "`, `"), strings.Join(sheet.Marks, "`, `"))
		s = *s.List.Item
	}
	pre := ""
	if s.Map.Any != nil {
		pre, s = "NAME.", *s.Map.Any
	}
	out.WriteString(keyHead)
	rows(&out, pre, s.Map.Keys)
	return out.String()
}

// readings list the keys that every reading has once, and those of one kind
// behind them.
func readings(out *strings.Builder, k strict.Key) {
	out.WriteString(keyHead)
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
	out.WriteString("\nEach reading:\n\n" + keyHead)
	for _, key := range every {
		switch of := own[key.Name]; len(of) {
		case len(sheet.ReadingKinds):
		case len(sheet.ReadingKinds) - 1:
			not := slices.IndexFunc(sheet.ReadingKinds, func(kind string) bool { return !slices.Contains(of, kind) })
			key.Doc += " (not of " + sheet.ReadingKinds[not] + ")"
		default:
			key.Doc += " (of " + strings.Join(of, ", ") + ")"
		}
		rows(out, "", []strict.Key{key})
	}
}

// forms are how keys are written whose shape knows no more than that they are text:
// they name what stands elsewhere on the sheet.
var forms = map[string]string{
	"reads": "a value with its unit, `OL`, or `over 500 MΩ`; or by time: `{15 s: 180 MΩ, 60 s: 300 MΩ}`",
	"range": "a value with its unit", "between": "like `[plug.hot, plug.neutral]`", "across": "like `T1.primary`",
	"applied": "like `T1.primary`", "without": "like `[T1.4, tubes]`", "with": "the name of a meter", "fed-by": "the name of a meter",
	"positions": "like `{SEL: 240}`", "run": "like `F1.side -> S1 -> T1.1`", "digit": "like `0.1 Ω`", "ceiling": "like `40 MΩ`",
}

// rows lists keys; those of a map or list inside stand behind a dot.
func rows(out *strings.Builder, pre string, keys []strict.Key) {
	for _, k := range keys {
		inner := k.Shape
		if inner.List != nil && inner.Text == nil {
			inner = inner.List.Item
		}
		if inner.Map == nil || inner.Map.Case == "" {
			written, known := forms[k.Name]
			if ofMaps := inner.Map != nil && inner.Map.Any != nil && inner.Map.Any.Text == nil; !known || ofMaps {
				written = how(k.Shape) // the positions of a selector, not those in a reading
			}
			row(out, pre, k, written)
			if inner.Map != nil {
				rows(out, pre+k.Name+".", inner.Map.Keys)
			}
			continue
		}
		row(out, pre, k, "a list, each with `"+inner.Map.Case+"`")
		for _, word := range inner.Map.Order {
			rows(out, fmt.Sprintf("%s.%s ", k.Name, word), inner.Map.Cases[word].Keys)
		}
	}
}

func row(out *strings.Builder, pre string, k strict.Key, written string) {
	name := "`" + pre + k.Name + "`"
	if k.Required {
		name = "**" + name + "**"
	}
	fmt.Fprintf(out, "| %s | %s | %s |\n", name, k.Doc, written)
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

// partsTable lists the kinds of part with their terminals.
func partsTable() string {
	var out strings.Builder
	out.WriteString("Each part is `NAME: {kind: …}` with the keys of its kind; all may have a `note`.\n\n| kind | what it is | terminals |\n|---|---|---|\n")
	for _, kind := range part.Kinds() {
		fmt.Fprintf(&out, "| `%s` | %s | %s |\n", kind.Name, kind.Doc, terminals(kind))
	}
	return out.String()
}

// kindPage is one kind of part: its terminals, its keys, those of a winding.
func kindPage(kind *part.Kind) string {
	var out strings.Builder
	fmt.Fprintf(&out, "Terminals: %s.\n", terminals(kind))
	if len(kind.Keys) == 0 {
		return out.String()
	}
	out.WriteString("\n" + keyHead)
	windings := slices.IndexFunc(kind.Keys, func(k strict.Key) bool { return k.Name == "windings" })
	rows(&out, "", kind.Keys)
	if windings >= 0 {
		out.WriteString("\nA winding is `NAME: {…}`; its name begins with what it is: `" + strings.Join(part.Roles, "`, `") + "`.\n\n" + keyHead)
		rows(&out, "", kind.Keys[windings].Shape.Map.Any.Map.Keys)
	}
	return out.String()
}

// terminals lists those of a part of which the sheet says nothing but its
// kind; in some holders, materials and makes there are others.
func terminals(k *part.Kind) string {
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

func regions() string {
	out := "| region | plugs |\n|---|---|\n"
	for _, name := range handbook.Regions() {
		r, _ := handbook.Region(name)
		out += fmt.Sprintf("| `%s` | `%s` |\n", name, strings.Join(r.PlugNames(), "`, `"))
	}
	return out
}

func spellings() string {
	out := "In keys, kinds, terminals and colors these may stand for each other:\n\n"
	for _, word := range []string{"hot", "ground", "color", "grey", "aerial", "tube"} {
		out += fmt.Sprintf("- `%s`\n", strings.Join(strict.Spellings(word), "`, `"))
	}
	return out
}
