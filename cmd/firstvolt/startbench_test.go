package main

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// BenchmarkStart takes commands as processes of their own, each in turn with an
// empty Go program, and says how many times its least time each command's is:
// of the processor (user and system together) and on the clock. With
// -benchtime 200x each is the least of 200.
func BenchmarkStart(b *testing.B) {
	dir := b.TempDir()
	empty := filepath.Join(dir, "empty.go")
	if err := os.WriteFile(empty, []byte("package main\n\nfunc main() {}\n"), 0o644); err != nil {
		b.Fatal(err)
	}
	build := func(name string, of ...string) string {
		exe := filepath.Join(dir, name)
		if out, err := exec.Command("go", append([]string{"build", "-o", exe}, of...)...).CombinedOutput(); err != nil {
			b.Fatal(string(out))
		}
		return exe
	}
	nothing, program := build("nothing", empty), build("firstvolt", ".")
	for _, args := range [][]string{{"check", "demo/merrowdale-put-right.yaml"}, {"--version"}, {"why", "fuse-size"}, {"rulebook"}} {
		b.Run(strings.TrimLeft(args[0], "-"), func(b *testing.B) {
			least := map[string][2]time.Duration{nothing: {math.MaxInt64, math.MaxInt64}, program: {math.MaxInt64, math.MaxInt64}}
			for b.Loop() {
				for _, c := range []*exec.Cmd{exec.Command(nothing), exec.Command(program, args...)} {
					begun := time.Now()
					if err := c.Run(); err != nil {
						b.Fatal(err)
					}
					wall, work := time.Since(begun), c.ProcessState.UserTime()+c.ProcessState.SystemTime()
					old := least[c.Path]
					least[c.Path] = [2]time.Duration{min(old[0], work), min(old[1], wall)}
				}
			}
			for i, unit := range []string{"×empty-processor", "×empty-clock"} {
				b.ReportMetric(float64(least[program][i])/float64(least[nothing][i]), unit)
			}
		})
	}
}

// BenchmarkFolder judges folders of more and more sheets. The time for a sheet
// and the memory stay as they are, and the processor is at work for as many
// times the clock's time as there are cores.
func BenchmarkFolder(b *testing.B) {
	sheets, err := filepath.Glob("../../testdata/sheets/*.yaml")
	if err != nil || len(sheets) == 0 {
		b.Fatal(err)
	}
	dir := b.TempDir()
	program := filepath.Join(dir, "firstvolt")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		b.Fatal(string(out))
	}
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			shelf := b.TempDir()
			for i := range n {
				data, err := os.ReadFile(sheets[i%len(sheets)])
				if err == nil {
					err = os.WriteFile(filepath.Join(shelf, fmt.Sprintf("%05d.yaml", i)), data, 0o644)
				}
				if err != nil {
					b.Fatal(err)
				}
			}
			var work, wall time.Duration
			for b.Loop() {
				c, begun := exec.Command(program, "check", shelf), time.Now()
				c.Run() // some of the sheets are not proved, so its status is not 0
				if c.ProcessState.ExitCode() != exitUnproven {
					b.Fatal(c.ProcessState)
				}
				wall, work = wall+time.Since(begun), work+c.ProcessState.UserTime()+c.ProcessState.SystemTime()
				b.ReportMetric(mostMemory(c.ProcessState), "MB")
			}
			b.ReportMetric(wall.Seconds()*1e3/float64(n*b.N), "ms/sheet")
			b.ReportMetric(work.Seconds()/wall.Seconds(), fmt.Sprintf("cores-of-%d", runtime.NumCPU()))
		})
	}
}
