package strict

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// words that YAML would make something else of, or that need quotes.
var oddTexts = []string{
	"01", "1.10", "6E5", "80", "2026-11-20", "yes", "no", "true", "null", "Null", "~", ".nan", ".inf", "0x1F", "1:30",
	"<<", "- a", "-", "?", "? x", "a: b", "a:b", "a #b", "#a", "a#b", ": x", "x:", "> 500 MΩ", "over 500 MΩ", "| x", "* a", "& a", "! a", "% a", "@ a", "` a",
	"[a", "a]", "{a", "a}", "a, b", "'a'", `"a"`, `a "b" c`, "a'b", `back\slash`, "it's", "=", "---", "...", "--- a", "%YAML 1.2",
	"plug.hot -> F1.end", "plug.hot + plug.neutral", "0.9 % + 2 digits", "22 °C", "-5 °C", "0.75 mm²", "4.7 µF", "a  b", "é", "日本", "1\u00a0A",
}

func genNode(depth int) *rapid.Generator[*Node] {
	return rapid.Custom(func(t *rapid.T) *Node {
		text := rapid.OneOf(rapid.SampledFrom(oddTexts), rapid.StringMatching(`[ -~ΩµÄ-ü]{1,30}`).Filter(func(s string) bool { return strings.TrimSpace(s) != "" }))
		kind := rapid.IntRange(0, 3).Draw(t, "kind")
		if depth == 0 {
			kind = 0
		}
		switch kind {
		case 1:
			n := MapNode()
			for _, k := range rapid.SliceOfNDistinct(text, 0, 4, rapid.ID[string]).Draw(t, "keys") {
				n.Set(k, genNode(depth-1).Draw(t, "value"))
			}
			return n
		case 2:
			return ListNode(rapid.SliceOfN(genNode(depth-1), 0, 4).Draw(t, "items")...)
		case 3:
			lines := rapid.SliceOfN(rapid.OneOf(text, rapid.SampledFrom([]string{"", "  indented", "# no comment", "\ttab", "trailing "})), 1, 4).Draw(t, "lines")
			s := strings.Join(lines, "\n") + rapid.SampledFrom([]string{"", "\n", "\n\n"}).Draw(t, "end")
			if strings.TrimSpace(s) == "" {
				s = "x" + s
			}
			return &Node{Kind: Text, Text: s, Block: true}
		}
		return TextNode(text.Draw(t, "text"))
	})
}

func TestWriteThenParseGivesTheSameTree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := MapNode(Pair("sheet", genNode(4).Draw(t, "tree")))
		out := Write(n)
		got, problems := Parse(out)
		if len(problems) > 0 {
			t.Fatalf("%v\nwritten as:\n%s", problems, out)
		}
		if !got.Same(n) {
			t.Fatalf("read back otherwise:\n%s\nagain:\n%s", out, Write(got))
		}
	})
}

func TestWriteKeepsTheExampleSheets(t *testing.T) {
	files, _ := filepath.Glob("../../testdata/sheets/*.yaml")
	if len(files) == 0 {
		t.Fatal("no sheets to write")
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		n, problems := Parse(data)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		again, problems := Parse(Write(n))
		if len(problems) > 0 || !again.Same(n) {
			t.Errorf("%s is not the same after writing: %v", f, problems)
		}
	}
}

func TestWriteStyle(t *testing.T) {
	n := MapNode(
		Pair("firstvolt", TextNode("1")),
		Pair("set", MapNode(Pair("name", TextNode("a: b")), Pair("note", TextNode("one\ntwo\n")))),
		Pair("wiring", ListNode(
			TextNode("plug.hot -> F1.end"),
			MapNode(Pair("run", TextNode("F1.side -> chassis")), Pair("color", TextNode("black"))))),
		Pair("ends", ListNode(TextNode("1"), TextNode("2"))),
		Pair("lamp", TextNode("> 5 W")),
		Pair("none", ListNode()),
	)
	want := `firstvolt: 1
set:
  name: "a: b"
  note: |2+
    one
    two
wiring:
  - plug.hot -> F1.end
  - {run: F1.side -> chassis, color: black}
ends: [1, 2]
lamp: "> 5 W"
none: []
`
	if got := string(Write(n)); got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}

func TestEditing(t *testing.T) {
	n := MapNode(Pair("a", TextNode("1")), Pair("b", ListNode(TextNode("2"))))
	c := n.Clone()
	c.Set("a", TextNode("9"))
	c.Get("b").Items[0].Text = "8"
	c.Set("c", TextNode("7"))
	if n.Word("a") != "1" || n.Get("b").Items[0].Text != "2" || n.Get("c") != nil {
		t.Error("altering a clone altered the original")
	}
	if !c.Delete("c") || c.Delete("c") || c.Get("c") != nil {
		t.Error("Delete does not take the key away once")
	}
	if n.Same(c) || !n.Same(n.Clone()) {
		t.Error("Same is wrong")
	}
	var none *Node
	none.Set("a", n)
	if none.Delete("a") || none.Clone() != nil || !none.Same(nil) || none.Same(n) {
		t.Error("a nil node does not behave as an empty one")
	}
}
