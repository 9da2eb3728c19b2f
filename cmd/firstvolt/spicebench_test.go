package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"firstvolt/checks/faults"
	"firstvolt/checks/trial"
	"firstvolt/cmd/firstvolt/internal/judging"
)

// BenchmarkCases takes one set's cases through the program, its whole table
// from a sheet just read, and some of them through ngspice: all decks in one
// process, and a process for each deck, as anyone would run a single one. It
// prints the time for a case of each, and how many times the program's it is. It
// judges nothing: that of ngspice is mostly the start of its process, which
// differs from machine to machine.
func BenchmarkCases(b *testing.B) {
	trial.Spice(b)
	const path = "../../testdata/sheets/steinwald-super-61.yaml"
	var cases []faults.Case
	ours := 0.0
	each := func(b *testing.B, n int) float64 {
		took := float64(b.Elapsed().Nanoseconds()) / float64(b.N) / float64(n)
		b.ReportMetric(took/1e3, "µs/case")
		b.ReportMetric(0, "ns/op") // of a whole table: says nothing beside the others
		if ours > 0 {
			b.ReportMetric(took/ours, "times")
		}
		return took
	}
	b.Run("program", func(b *testing.B) {
		for b.Loop() {
			b.StopTimer()
			s := judging.Read(path)
			if s.Bench == nil {
				b.Fatal(s.Problems)
			}
			b.StartTimer()
			var err error
			if cases, err = faults.Table(s.Bench); err != nil {
				b.Fatal(err)
			}
		}
		ours = each(b, len(cases))
	})
	decks := someDecks(b, path, cases, 120)
	b.Run("ngspice-one-process", func(b *testing.B) {
		for b.Loop() {
			inOneProcess(b, decks)
		}
		each(b, len(decks))
	})
	b.Run("ngspice-process-each", func(b *testing.B) {
		spice, dir := trial.Spice(b), b.TempDir()
		for b.Loop() {
			for _, deck := range decks {
				file := filepath.Join(dir, "deck.cir")
				if err := os.WriteFile(file, []byte(deck), 0o600); err != nil {
					b.Fatal(err)
				}
				if out, err := exec.Command(spice, "-b", file).CombinedOutput(); err != nil {
					b.Fatalf("%v\n%s", err, out)
				}
			}
		}
		each(b, len(decks))
	})
}

// someDecks are the decks of about n of the cases, spread over the table.
func someDecks(b *testing.B, path string, cases []faults.Case, n int) []string {
	b.Helper()
	s := judging.Read(path)
	var decks []string
	for i := 0; i < len(cases); i += max(1, len(cases)/n) {
		if cases[i].Fault.Kind == faults.Unplugged {
			continue
		}
		m, err := faults.MainsOf(s.Bench, cases[i].Which)
		if err != nil {
			b.Fatal(err)
		}
		deck, err := m.Deck("a set")
		if err != nil {
			b.Fatal(err)
		}
		decks = append(decks, deck)
	}
	return decks
}
