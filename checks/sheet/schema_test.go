package sheet

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"firstvolt/checks/quantity"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"
)

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	text, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("sheet.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("sheet.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// generic is the text as an editor's YAML reader has it: with numbers, and
// with days as the text they are.
func generic(t *testing.T, data []byte) (any, error) {
	t.Helper()
	var n yaml.Node
	if err := yaml.Unmarshal(data, &n); err != nil {
		return nil, err
	}
	var plain func(*yaml.Node)
	plain = func(n *yaml.Node) {
		if n.Tag == "!!timestamp" {
			n.Tag = "!!str"
		}
		for i, c := range n.Content {
			if n.Kind == yaml.MappingNode && i%2 == 0 && c.Kind == yaml.ScalarNode && c.Tag != "!!merge" {
				c.Tag = "!!str" // JSON knows no other keys
			}
			plain(c)
		}
	}
	plain(&n)
	var v any
	err := n.Decode(&v)
	return v, err
}

func TestSchemaTakesTheSheets(t *testing.T) {
	s := compiled(t)
	for file, data := range sheets(t) {
		v, err := generic(t, data)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Validate(v); err != nil {
			t.Errorf("%s: %v", file, err)
		}
	}
}

// What the schema cannot see: what depends on another place of the sheet or on
// the text before YAML has read it.
var unseen = map[string]bool{
	"bare-over-flow": true, "braces-forgotten-without-space": true, "comments": true, "directive": true, "marks": true, "old-line-ends": true,
	"plug-of-another-region": true, "region-and-plug": true, "runs": true, "second-document": true, "series-string": true, "several-lines": true,
	"unknown-things": true, "unwired": true,
}

func TestSchemaRefusesBadSheets(t *testing.T) {
	s := compiled(t)
	files, _ := filepath.Glob("../../testdata/bad/*.yaml")
	seen := 0
	for _, file := range files {
		name := filepath.Base(file)
		name = name[:len(name)-len(".yaml")]
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		v, err := generic(t, data)
		if err != nil {
			continue // no YAML: nothing for a schema
		}
		refused := s.Validate(v) != nil
		if refused == unseen[name] {
			t.Errorf("%s: refused %v, unseen %v", name, refused, unseen[name])
		}
		if refused {
			seen++
		}
	}
	if seen < 15 {
		t.Errorf("the schema refuses only %d of the bad sheets", seen)
	}
}

// The least sheet and every synonym pass, so that an editor does not mark what
// reading takes.
func TestSchemaTakesWhatReads(t *testing.T) {
	s := compiled(t)
	for _, text := range []string{head,
		head + "parts: {V1: {kind: valve, type: 6V6}, F1: {kind: fuse, breaking: 1500 A}, S1: {kind: selector, positions: {117: [[1, 2]]}, set: 117}}\n",
		head + "cord: {third: ground, size: 18 AWG, conductors: 3}\nwiring: [{run: plug.hot -> chassis, colour: gray-green}]\n",
		head + "cord: {inlet-fits: both-ways}\nparts: {X1: {kind: outlet, earth: none}, L1: {kind: speaker, impedance: 4 Ω}}\nwiring: [{run: plug.hot -> chassis, color: ribbed}]\n",
		head + "readings: {resistance: [{across: X, reads: OL}, {between: [1, 2], reads: {15 s: \"> 1 MΩ\", 60 s: O.L}}]}\n",
		head + "first-power: {shelf: [40 W], seen: [{step: 1, line: 40 V}, {live: 50 V}]}\n",
	} {
		v, err := generic(t, []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Validate(v); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
}

func TestSchemaIsSteady(t *testing.T) {
	a, _ := Schema()
	b, _ := Schema()
	if !bytes.Equal(a, b) || !bytes.Contains(a, []byte(quantity.Voltage.Example())) {
		t.Error("the schema comes out otherwise the second time, or lacks its examples")
	}
}
