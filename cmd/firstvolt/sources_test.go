package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"firstvolt/checks/strict"
)

// A document that a basis may name: a standard, a code, an authority's or a
// maker's paper, a handbook, a paper in a journal.
var document = regexp.MustCompile(`\b(IEC|IEV|EN|HD|ISO|UL|ANSI|CSA|NEC|46 CFR|OSHA|BS|AS|AS/NZS|NZS|JIS|SN|SEV|VDE|DIN|CEE|CEI|NEMA|ASTM|NBS|IEEE|IRE|EIA|RETMA|RMA|JCGM|ILAC|HSE|HS\(G\)|Electricity Business Act)\b|EDN|Handbook|data sheet|data book|maker|manual|handbook|trade note|code of practice`)

// Standards that were withdrawn; whoever names one says so.
var withdrawn = regexp.MustCompile(`IEC 60065|(?:IEC|EN) 60950|VDE 0701`)

// bases are every {status, source} of the rulebook and the handbook.
func bases(t *testing.T, each func(file string, at strict.Pos, status, source string)) {
	t.Helper()
	n := 0
	for _, pattern := range []string{"../../rules/rulebook/*.yaml", "../../checks/handbook/*.yaml", "../../checks/handbook/regions/*.yaml"} {
		files, _ := filepath.Glob(pattern)
		if len(files) == 0 {
			t.Fatal("no files at " + pattern)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			root, problems := strict.Parse(data)
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			var walk func(*strict.Node)
			walk = func(m *strict.Node) {
				if m.Get("status") != nil && m.Get("source") != nil {
					n++
					each(filepath.Base(file), m.At(), m.Word("status"), m.Word("source"))
				}
				for _, e := range m.Entries {
					walk(e.Value)
				}
				for _, i := range m.Items {
					walk(i)
				}
			}
			walk(root)
		}
	}
	if n < 200 {
		t.Errorf("only %d bases were found", n)
	}
}

// What was read names where; what is recalled names what; without a document
// it is common practice. What mixes read and recalled is two.
func TestBasesSayWhatTheyAre(t *testing.T) {
	bases(t, func(file string, at strict.Pos, status, source string) {
		recalled := strings.Contains(source, "recalled")
		names := document.MatchString(source)
		switch {
		case (status == "published" || status == "from-memory") && !names:
			t.Errorf("%s:%d: %s, and names no document: %s", file, at.Line, status, source)
		case status == "published" && recalled:
			t.Errorf("%s:%d: what was read and what is recalled in one: %s", file, at.Line, source)
		case status == "from-memory" && !recalled:
			t.Errorf("%s:%d: does not say that it is recalled: %s", file, at.Line, source)
		}
	})
}

func TestWithdrawnStandardsSaySo(t *testing.T) {
	bases(t, func(file string, at strict.Pos, _, source string) {
		for _, m := range withdrawn.FindAllStringIndex(source, -1) {
			if rest := source[m[1]:]; !strings.Contains(rest[:min(60, len(rest))], "withdrawn") {
				t.Errorf("%s:%d: %s is withdrawn, and this does not say so: %s", file, at.Line, source[m[0]:m[1]], source)
			}
		}
	})
}
