package handbook

import "testing"

// BenchmarkLoad reads every file of the handbook, which a run does at most once.
func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		entries, err := files.ReadDir("regions")
		if err != nil {
			b.Fatal(err)
		}
		for _, e := range entries {
			data, err := files.ReadFile("regions/" + e.Name())
			if err != nil {
				b.Fatal(err)
			}
			if _, problems := LoadRegion(e.Name(), data); len(problems) > 0 {
				b.Fatal(problems)
			}
		}
		for _, open := range []func() table{wireTable, fuseTable, residualTable, capacitorTable, tubeTable, effectTable, windingTable} {
			open()
		}
	}
}
