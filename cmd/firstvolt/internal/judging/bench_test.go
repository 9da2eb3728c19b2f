package judging

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
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
	Brief() // as the command runs
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
	Brief()
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := rules.Load(rules.Default(), checks.Catalogue()); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}

// grown is the sheet with a ladder of that many resistors more on its plate
// winding.
func grown(b *testing.B, elements int) []byte {
	b.Helper()
	var parts, run strings.Builder
	for i := range elements {
		fmt.Fprintf(&parts, "  RG%d: {kind: resistor, value: 10 kΩ, power: 1 W}\n", i)
		fmt.Fprintf(&run, "RG%d -> ", i)
	}
	text := string(sampleBytes(b))
	for _, r := range [][2]string{{"\nparts:\n", "\nparts:\n" + parts.String()}, {"\nwiring:\n", "\nwiring:\n  - chassis -> " + run.String() + "chassis\n"}} {
		if !strings.Contains(text, r[0]) {
			b.Fatalf("no %q", r[0])
		}
		text = strings.Replace(text, r[0], r[1], 1)
	}
	return []byte(text)
}

// BenchmarkGrowth takes sheets of more and more elements from bytes to their
// verdict, every fault included. The exponent says as which power of the
// number of elements the time grows from one size to the next.
func BenchmarkGrowth(b *testing.B) {
	book, problems, _ := Book(nil)
	if len(problems) > 0 {
		b.Fatal(problems)
	}
	var lastTime, lastSize float64
	for _, n := range []int{10, 50, 200, 1000} {
		data := grown(b, n)
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				if s := Bytes(book, "x.yaml", data, ""); !s.Judged() {
					b.Fatal(s.Problems)
				}
			}
			took, size := float64(b.Elapsed())/float64(b.N), float64(n)
			if lastSize > 0 && lastSize != size {
				b.ReportMetric(math.Log(took/lastTime)/math.Log(size/lastSize), "exponent")
			}
			lastTime, lastSize = took, size
		})
	}
}
