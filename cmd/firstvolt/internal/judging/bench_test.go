package judging

import (
	"os"
	"testing"

	"gopkg.in/yaml.v3"

	"firstvolt/checks"
	"firstvolt/rules"
)

// The sheet of the benchmarks: a whole transformer set.
const sample = "../../demo/merrowdale-put-right.yaml"

func sampleBytes(b *testing.B) []byte {
	b.Helper()
	data, err := os.ReadFile(sample)
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	return data
}

// BenchmarkPlainYAML only parses the sheet, into maps and lists of anything:
// what the reading of any YAML file costs at least.
func BenchmarkPlainYAML(b *testing.B) {
	data := sampleBytes(b)
	for b.Loop() {
		var v any
		if err := yaml.Unmarshal(data, &v); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkReadAndJudge takes the sheet from bytes to its verdict, with the
// rulebook loaded.
func BenchmarkReadAndJudge(b *testing.B) {
	data := sampleBytes(b)
	book, problems, _ := Book(nil)
	if len(problems) > 0 {
		b.Fatal(problems)
	}
	for b.Loop() {
		if s := Bytes(book, "x.yaml", data, ""); !s.Judged() || s.Judgement.Verdict != rules.Cleared {
			b.Fatal(s.Problems, s.Judgement.Verdict)
		}
	}
}

// BenchmarkRulebook loads the program's rulebook, which a call of check does once.
func BenchmarkRulebook(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := rules.Load(rules.Default(), checks.Catalogue()); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}
