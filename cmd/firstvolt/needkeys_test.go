package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/blank"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
)

// before a colon without a space stands a key, or a word of a sentence.
var beforeColon = regexp.MustCompile(`([A-Za-z][A-Za-z0-9-]*(?:\.[A-Za-z-]+)?):`)

// thinner take out what a sheet may lack.
var thinner = []*regexp.Regexp{
	regexp.MustCompile(`, (?:size|length|rating|accuracy|standard|speed|load|power|class|tested|earth|pole|fits|frame|secondary): [^,}\n]+`),
	regexp.MustCompile(`, (?:switches|voltage|value|test|with|digit|ceiling|range|lamp|cold|leads): [^,}\n]+|\n +(?:taken|rebuilt|receptacle): .*`),
}

// What would settle a finding is told with keys that the sheet takes, in the
// words of every region: those of the published sheets and of the blank ones,
// which know next to nothing.
func TestNeedsNameKeysThatAreTaken(t *testing.T) {
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	needs := map[string]bool{}
	take := func(s *judging.Sheet) {
		t.Helper()
		if !s.Judged() {
			t.Fatal(s.Problems, s.Faults)
		}
		for _, f := range s.Judgement.Findings {
			for _, n := range f.Needs {
				needs[n.What], needs[n.How] = true, true
			}
		}
	}
	sheets, err := filepath.Glob("../../testdata/sheets/*.yaml")
	if err != nil || len(sheets) < 20 {
		t.Fatal(sheets, err)
	}
	for i, path := range sheets {
		if i%8 != 0 && !*exhaustive {
			continue
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, less := range thinner {
			if s := judging.Bytes(book, path, less.ReplaceAll(data, nil), ""); s.Judged() {
				take(s)
			}
		}
	}
	for _, kind := range blank.Names() {
		data, err := blank.Sheet("Invented", kind, "united-kingdom")
		if err != nil {
			t.Fatal(err)
		}
		take(judging.Bytes(book, "x.yaml", data, ""))
	}
	keys := schemaKeys(t)
	found := 0
	for need := range needs {
		for _, m := range beforeColon.FindAllStringSubmatchIndex(need, -1) {
			_, key := cutSection(need[m[2]:m[3]])
			if _, ok := strict.Known(key, keys); !ok {
				continue
			}
			found++
			for _, region := range handbook.Regions() {
				r, _ := handbook.Region(region)
				said := report.NewWords(r.Words).Say(need[:m[1]])
				last := said[strings.LastIndexAny(said[:len(said)-1], " ({.")+1 : len(said)-1]
				if _, ok := strict.Known(last, []string{key}); !ok {
					t.Errorf("%s: %q ends in %q, which is no key", region, said, last)
				}
			}
		}
	}
	if found < 5 {
		t.Errorf("only %d keys were named", found)
	}
}

// schemaKeys are the keys that the schema of the sheet has, wherever they stand.
func schemaKeys(t *testing.T) (keys []string) {
	t.Helper()
	data, err := sheet.Schema()
	if err != nil {
		t.Fatal(err)
	}
	var all any
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	var walk func(any)
	walk = func(v any) {
		switch v := v.(type) {
		case []any:
			for _, x := range v {
				walk(x)
			}
		case map[string]any:
			if of, ok := v["properties"].(map[string]any); ok {
				for key := range of {
					keys = append(keys, key)
				}
			}
			for _, x := range v {
				walk(x)
			}
		}
	}
	walk(all)
	return keys
}

func cutSection(word string) (section, key string) {
	if s, k, ok := strings.Cut(word, "."); ok {
		return s, k
	}
	return "", word
}
