package mistakes_test

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"go/importer"
	"go/parser"
	"go/token"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"firstvolt/checks/strict"
)

var (
	mutants  = flag.Int("count-of", 300, "changes of the program that TestMutants samples")
	mutantOf = flag.String("of", "entry ratings readings faults mains rules", "rooms that TestMutants changes")
	number   = flag.Int("number", 0, "the one mutant that TestMutants tries, of those that the seed samples")
	against  = flag.String("against", "", "folder of sheets and of what came of them: TestMutants is judging there as a mutant")
)

const mutatedSheets = 500

// TestMutants changes the program in as many places as asked, one at a time:
// operators, conditions, statements, constants, the ends of ranges. Whoever is
// not told from the program by what comes of 500 altered sheets must be told by
// the tests of its package, or by those that judge sheets. Survivors are listed
// with file, line and change, apart from those that say the same in other words. It builds and runs for many minutes, and so wants
// -exhaustive; without it a few changes are only made, and their source is read.
func TestMutants(t *testing.T) {
	if *against != "" {
		judgeAs(t)
		return
	}
	n := *mutants
	if !*exhaustive {
		n = min(n, 20)
	}
	dir := t.TempDir()
	chosen := writeMutants(t, dir, n)
	if !*exhaustive {
		reads(t, dir)
		return
	}
	judge := filepath.Join(dir, "judge.test")
	build(t, dir, ".", judge)
	writeSheets(t, filepath.Join(dir, "sheets"))
	if out, ok := run(judge, ".", 0, "-test.run", "TestMutants$", "-against", filepath.Join(dir, "sheets")); !ok || strings.Contains(out, wordsAlone) {
		t.Fatalf("not even without a change: %s", out)
	}
	t.Logf("%d mutants with seed %d", len(chosen), *seed)
	work := make(chan int)
	var group sync.WaitGroup
	var lock sync.Mutex
	built := map[string]*tests{}
	killed := map[string]int{}
	for range max(1, runtime.GOMAXPROCS(0)) {
		group.Go(func() {
			for id := range work {
				by := killer(t, dir, judge, id, chosen[id], built, &lock)
				lock.Lock()
				killed[by]++
				lock.Unlock()
				switch m := chosen[id]; by {
				case wordsAlone:
					t.Logf("in words alone, and no test tells, %d: %s:%d: %s", id, m.file, m.line, m.says)
				case "":
					t.Errorf("survivor %d: %s:%d: %s", id, m.file, m.line, m.says)
				}
			}
		})
	}
	for id := range chosen {
		if id > 0 && (*number == 0 || id == *number) {
			work <- id
		}
	}
	close(work)
	group.Wait()
	t.Logf("killed by: %v", killed)
}

// wordsAlone is a mutant that judges all sheets as the program does and says it
// otherwise.
const wordsAlone = "words alone"

// tests are those of a package in one binary; where they fail without a change
// they tell nothing.
type tests struct {
	once sync.Once
	pass bool
}

// killer is what tells a mutant from the program: the sheets, or the tests of a
// package; "" is none.
func killer(t *testing.T, dir, judge string, id int, m mutant, built map[string]*tests, lock *sync.Mutex) string {
	said, ok := run(judge, ".", id, "-test.run", "TestMutants$", "-against", filepath.Join(dir, "sheets"))
	if !ok {
		return "sheets"
	}
	own := filepath.Dir(m.file)
	for _, pkg := range slices.Compact([]string{own, "../../rules", ".."}) {
		binary := filepath.Join(dir, strings.NewReplacer("/", "_", ".", "_").Replace(pkg)+".test")
		lock.Lock()
		own := built[binary]
		if own == nil {
			own = new(tests)
			built[binary] = own
		}
		lock.Unlock()
		own.once.Do(func() {
			build(t, dir, pkg, binary)
			var out string
			if out, own.pass = run(binary, pkg, 0); !own.pass {
				t.Errorf("%s fails without a change: %s", pkg, out)
			}
		})
		if _, ok := run(binary, pkg, id); own.pass && !ok {
			return pkg
		}
	}
	if strings.Contains(said, wordsAlone) {
		return wordsAlone
	}
	return ""
}

// run runs a test binary in the folder of its package as one mutant.
func run(binary, folder string, id int, args ...string) (out string, ok bool) {
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Minute) // one that never ends is found out too
	defer cancel()
	c := exec.CommandContext(ctx, binary, append([]string{"-test.failfast"}, args...)...)
	c.Dir, c.Env = folder, append(os.Environ(), fmt.Sprint("FIRSTVOLT_MUTANT=", id), "GOMAXPROCS=1", "GOMEMLIMIT=1GiB")
	said, err := c.CombinedOutput()
	return string(said), err == nil
}

// reads holds the sources in a folder to be Go.
func reads(t *testing.T, dir string) {
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil || len(names) < 2 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		if _, err := parser.ParseFile(token.NewFileSet(), name, nil, 0); err != nil {
			t.Error(err)
		}
	}
}

func build(t *testing.T, dir, pkg, binary string) {
	c := exec.Command("go", "test", "-c", "-vet=off", "-overlay", filepath.Join(dir, "overlay.json"), "-o", binary, pkg)
	if out, err := c.CombinedOutput(); err != nil {
		t.Errorf("%s does not build: %v\n%s", pkg, err, out)
	}
}

// exported opens what the compiler knows of each package that the rooms import.
func exported(t *testing.T) func(path string) (io.ReadCloser, error) {
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}}={{.Export}}", "firstvolt/checks", "firstvolt/rules").Output()
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, line := range strings.Fields(string(out)) {
		path, file, _ := strings.Cut(line, "=")
		files[path] = file
	}
	return func(path string) (io.ReadCloser, error) { return os.Open(files[path]) }
}

// writeMutants samples the changes of the rooms and writes the sources that hold
// them, with the overlay that puts them in the place of the program's.
func writeMutants(t *testing.T, dir string, n int) map[int]mutant {
	t.Helper()
	lookup := exported(t)
	var all []mutant
	sources, ends := map[string][]byte{}, map[string]int{}
	for _, room := range strings.Fields(*mutantOf) {
		folder := "../" + room
		if room == "rules" {
			folder = "../../rules"
		}
		names, _ := filepath.Glob(folder + "/*.go")
		own := map[string][]byte{}
		for _, name := range names {
			if src, err := os.ReadFile(name); err == nil && !strings.HasSuffix(name, "_test.go") {
				own[name], sources[name] = src, src
			}
		}
		if len(own) == 0 {
			t.Logf("no room %s", room)
			continue
		}
		path := "firstvolt/checks/" + room
		if room == "rules" {
			path = "firstvolt/rules"
		}
		fset, files, info, err := parsed(path, own, importer.ForCompiler(token.NewFileSet(), "gc", lookup))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			if f := files[name]; f != nil {
				m := &mutator{fset: fset, info: info, file: f, name: name}
				m.find(own[name])
				all = append(all, m.found...)
				ends[name] = fset.Position(f.Name.End()).Offset
			}
		}
	}
	rand.New(rand.NewPCG(*seed, 1)).Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	t.Logf("%d places to change", len(all))
	chosen, byFile := map[int]mutant{}, map[string]map[int]mutant{}
	for i, m := range all[:min(n, len(all))] {
		chosen[i+1] = m
		if byFile[m.file] == nil {
			byFile[m.file] = map[int]mutant{}
		}
		byFile[m.file][i+1] = m
	}
	writeOverlay(t, dir, sources, ends, byFile)
	return chosen
}

func writeOverlay(t *testing.T, dir string, sources map[string][]byte, ends map[string]int, byFile map[string]map[int]mutant) {
	replace := map[string]string{}
	put := func(name string, src []byte) {
		full, err := filepath.Abs(name)
		to := filepath.Join(dir, fmt.Sprintf("%d.go", len(replace)))
		if err == nil {
			err = os.WriteFile(to, src, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
		replace[full] = to
	}
	put("../mutant/mutant.go", []byte(switchboard))
	for name, ms := range byFile {
		put(name, mutated(sources[name], ends[name], ms))
	}
	list, _ := json.Marshal(map[string]any{"Replace": replace})
	if err := os.WriteFile(filepath.Join(dir, "overlay.json"), list, 0o644); err != nil {
		t.Fatal(err)
	}
}

// writeSheets writes altered sheets, sampled from the slips and losses of all
// sound sheets, and what comes of each.
func writeSheets(t *testing.T, dir string) {
	all, err := soundSheets()
	if err != nil {
		t.Fatal(err)
	}
	var trees []func() *strict.Node
	for _, s := range all {
		s.read(t)
		trees = append(trees, func() *strict.Node { return s.s.Root.Clone() })
		for _, k := range s.all() {
			for _, m := range k.slips {
				trees = append(trees, m.Tree)
			}
		}
		for _, l := range s.was.losses() {
			trees = append(trees, func() *strict.Node { return lose(s.s.Root, l) })
		}
	}
	rng := rand.New(rand.NewPCG(*seed, 2))
	rng.Shuffle(len(trees), func(i, j int) { trees[i], trees[j] = trees[j], trees[i] })
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	for i, tree := range trees[:mutatedSheets] {
		text := strict.Write(tree())
		out, words := outcomes(t, text)
		for ext, data := range map[string][]byte{".yaml": text, ".out": out, ".words": words} {
			if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%03d%s", i, ext)), data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// outcomes is all that comes of a sheet but the words, and the words.
func outcomes(t *testing.T, text []byte) (out, words []byte) {
	j := judge(t, text)
	out = fmt.Appendln(out, j.Verdict, len(j.problems), j.Reasons, j.NotJudged)
	for _, f := range j.Findings {
		out = fmt.Appendln(out, f.Rule, f.Subject.Kind, f.Subject.Name, f.Outcome)
		said, err := json.Marshal(f)
		if err != nil {
			t.Fatal(err)
		}
		words = append(words, said...)
	}
	return out, words
}

// judgeAs judges the sheets of a folder, as the mutant that the environment
// names, up to the first of which something else comes.
func judgeAs(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(*against, "*.yaml"))
	if err != nil || len(names) != mutatedSheets {
		t.Fatal(len(names), err)
	}
	other := false
	for _, name := range names {
		of := func(ext string) []byte {
			data, err := os.ReadFile(strings.TrimSuffix(name, ".yaml") + ext)
			if err != nil {
				t.Fatal(err)
			}
			return data
		}
		got, words := outcomes(t, of(".yaml"))
		if want := of(".out"); !bytes.Equal(got, want) {
			t.Fatalf("%s\n%s\nwant\n%s", name, got, want)
		}
		other = other || !bytes.Equal(words, of(".words"))
	}
	if other {
		fmt.Println(wordsAlone) // a test that passes logs nothing
	}
}
