package sheet

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"firstvolt/checks/strict"

	"gopkg.in/yaml.v3"
)

const example = "../../testdata/sheets/larkfield-six-forty.yaml"

func sheets(tb testing.TB) map[string][]byte {
	tb.Helper()
	files, err := filepath.Glob("../../testdata/sheets/*.yaml")
	if err != nil || len(files) == 0 {
		tb.Fatalf("no sheets: %v", err)
	}
	out := map[string][]byte{}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			tb.Fatal(err)
		}
		out[f] = data
	}
	return out
}

func TestSheetsReadAndWriteBack(t *testing.T) {
	for file, data := range sheets(t) {
		s, problems := Read(file, data)
		if len(problems) > 0 {
			t.Errorf("%v", problems)
			continue
		}
		again, problems := Read(file, strict.Write(s.Root))
		if len(problems) > 0 {
			t.Errorf("%s written back: %v", file, problems)
			continue
		}
		if !sameSheet(s, again) {
			t.Errorf("%s reads otherwise after writing", file)
		}
	}
}

// sameSheet compares what two sheets say, places aside.
func sameSheet(a, b *Sheet) bool {
	if !a.Root.Same(b.Root) || a.Name != b.Name || a.Region != b.Region || len(a.Parts) != len(b.Parts) || len(a.Wires) != len(b.Wires) ||
		len(a.Readings) != len(b.Readings) || len(a.Upstream) != len(b.Upstream) || !reflect.DeepEqual(keysOf(a.Instruments), keysOf(b.Instruments)) {
		return false
	}
	for i, w := range a.Wires {
		x, y := *w, *b.Wires[i]
		x.At, y.At = strict.Pos{}, strict.Pos{}
		if x != y {
			return false
		}
	}
	for i, r := range a.Readings {
		o := b.Readings[i]
		if r.Name != o.Name || r.Kind != o.Kind || len(r.Shown) != len(o.Shown) || r.Last().Display != o.Last().Display ||
			!reflect.DeepEqual([][]string{r.A, r.B, r.Lifted, r.Without}, [][]string{o.A, o.B, o.Lifted, o.Without}) {
			return false
		}
	}
	return true
}

func keysOf(m map[string]*Instrument) map[string]bool {
	out := map[string]bool{}
	for k := range m {
		out[k] = true
	}
	return out
}

func TestExampleSheet(t *testing.T) {
	s, problems := Read(example, sheets(t)[example])
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if s.Name != "Larkfield Six-Forty" || s.Construction != "transformer" || s.Rebuilt != "2026-11-18" || s.Region.Name != "north-america" ||
		s.Plug.Name != "nema-5-15" || s.FirstPower != "heaters" || s.Taken != "2026-11-20" || s.Ambient.Low != 22 || len(s.Upstream) != 3 || !s.UpstreamKnown {
		t.Errorf("the head is read as %+v", s)
	}
	var wires []string
	for _, w := range s.Wires {
		wires = append(wires, w.A+" "+w.B)
	}
	want := []string{"plug.hot F1.end", "F1.side S1.1", "S1.2 T1.1", "plug.neutral T1.2", "plug.ground chassis", "S1.2 C1.1", "C1.2 chassis", "T1.4 chassis"}
	if !reflect.DeepEqual(wires, want) {
		t.Errorf("wires: %q, want %q", wires, want)
	}
	if w := s.Wires[4]; w.Color != "green" || w.Joint != "own-screw" || w.Slack != "longest" {
		t.Errorf("the ground wire: %+v", w)
	}
	r := s.Readings[8]
	if r.Name != "T1.primary – T1.plate" || !reflect.DeepEqual(r.Lifted, []string{"T1.4"}) || len(r.Shown) != 3 || r.Last().Value.Low != 300e6 || r.Test.Low != 500 {
		t.Errorf("the insulation reading: %+v", r)
	}
}

// A sheet with nothing but what must be there reads.
func TestLeastSheetReads(t *testing.T) {
	for _, text := range []string{head, head + "wiring: []\nparts: {F1: {kind: fuse}, A1: {kind: autotransformer}, T1: {kind: transformer}, S1: {kind: selector}, J1: {kind: connector}}\n",
		"---\n" + head, "# first\n" + head + "# last", strings.ReplaceAll(head, "\n", "\r\n"), "\ufeff" + head, head + "...\n"} {
		if s, problems := Read("x.yaml", []byte(text)); s == nil {
			t.Errorf("%q: %v", text, problems)
		}
	}
	// Every key that must be there is missed when it is gone, and no other.
	full := sheets(t)[example]
	s, _ := Read(example, full)
	must := map[string]bool{"firstvolt": true, "set": true, "supply": true}
	for _, e := range s.Root.Entries {
		root, _ := strict.Parse(full)
		root.Delete(e.Key)
		_, problems := Read("x.yaml", strict.Write(root))
		missed := false
		for _, p := range problems {
			missed = missed || strings.Contains(p.Wrong, "has no "+e.Key)
		}
		if missed != must[e.Key] {
			t.Errorf("without %s: %v", e.Key, problems)
		}
	}
}

// What may be dropped inside a map leaves a sheet that reads; what must be
// there is reported at the key that owns the map.
func TestDroppingOptionalKeys(t *testing.T) {
	for path, required := range map[string]bool{
		"set.name": true, "set.construction": true, "set.serial": false, "set.nameplate": false, "set.chassis": false, "set.rebuilt": false,
		"supply.region": true, "supply.plug": true, "supply.voltage": false, "supply.upstream": false, "supply.receptacle": false,
		"cord.conductors": false, "cord.inlet": false, "parts.F1.kind": true, "parts.F1.rating": false, "parts.F1.standard": false,
		"parts.T1.windings.primary.ends": true, "parts.T1.windings.primary.voltage": false, "parts.T1.windings.plate.voltage": false,
		"instruments.dmm.accuracy": false, "instruments.dmm.measures": false, "instruments.dmm.digit": false, "readings.taken": false, "readings.ambient": false,
		"inspection.clearances": false, "first-power.stage": false,
	} {
		root, _ := strict.Parse(sheets(t)[example])
		keys := strings.Split(path, ".")
		n := root
		for _, k := range keys[:len(keys)-1] {
			n = n.Get(k)
		}
		if !n.Delete(keys[len(keys)-1]) {
			t.Fatalf("%s is not on the sheet", path)
		}
		s, problems := Read("x.yaml", strict.Write(root))
		if required != (s == nil) {
			t.Errorf("without %s: %v", path, problems)
		}
	}
}

// One spelling or the other, the sheet is the same after reading.
func TestSynonyms(t *testing.T) {
	one := head + `parts:
  V1: {kind: tube, type: 6V6}
  P1: {kind: outlet}
  B1: {kind: body}
  L1: {kind: filter}
wiring:
  - {run: plug.hot -> V1 -> P1.hot, color: grey-green}
  - {run: plug.ground -> P1.ground, color: green}
  - L1.line-in -> B1
readings:
  resistance:
    - {between: [plug.ground, plug.hot], without: [tubes], reads: OL}
`
	two := strings.NewReplacer("kind: tube", "kind: valve", "plug.hot", "plug.live", "P1.hot", "P1.line", "plug.ground", "plug.earth", "P1.ground", "P1.earth",
		"color: grey", "colour: gray", "color:", "colour:", "line-in", "live-in", "[tubes]", "[valves]").Replace(one)
	if one == two {
		t.Fatal("the two texts are one")
	}
	s1, p1 := Read("a", []byte(one))
	s2, p2 := Read("b", []byte(two))
	if s1 == nil || s2 == nil {
		t.Fatal(p1, p2)
	}
	for i, w := range s1.Wires {
		x, y := *w, *s2.Wires[i]
		x.At, y.At, x.Run, y.Run = strict.Pos{}, strict.Pos{}, "", ""
		if x != y {
			t.Errorf("%+v and %+v", x, y)
		}
	}
	if s2.Part("V1").Kind.Name != "tube" || s2.Wires[0].A != "plug.hot" || s2.Wires[0].Color != "grey-green" || s2.Readings[0].Name != "plug.ground – plug.hot" || len(s2.Readings[0].Without) != 1 {
		t.Errorf("read as %+v, %+v", s2.Wires[0], s2.Readings[0])
	}
}

// Reading a sheet beside what the library alone takes for the same text.
func BenchmarkRead(b *testing.B) {
	data := sheets(b)[example]
	b.Run("sheet", func(b *testing.B) {
		b.SetBytes(int64(len(data)))
		for b.Loop() {
			if s, problems := Read(example, data); s == nil {
				b.Fatal(problems)
			}
		}
	})
	b.Run("yaml-only", func(b *testing.B) {
		b.SetBytes(int64(len(data)))
		for b.Loop() {
			var v any
			if err := yaml.Unmarshal(data, &v); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func FuzzRead(f *testing.F) {
	for _, pattern := range []string{"../../testdata/sheets/*.yaml", "../../testdata/bad/*.yaml"} {
		files, _ := filepath.Glob(pattern)
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, problems := Read("x.yaml", data)
		again, problemsAgain := Read("x.yaml", data)
		if (s == nil) != (again == nil) || !reflect.DeepEqual(problems, problemsAgain) {
			t.Fatalf("it reads otherwise the second time: %v and %v", problems, problemsAgain)
		}
		if (s == nil) != (len(problems) > 0) {
			t.Fatal("neither a sheet nor a fault, or both")
		}
		lines := strings.Split(strings.ReplaceAll(strings.TrimPrefix(string(data), "\ufeff"), "\r\n", "\n"), "\n")
		for _, p := range problems {
			if p.Line < 1 || p.Line > len(lines) || p.Column < 1 || p.Column > len([]rune(lines[p.Line-1]))+1 {
				t.Fatalf("%s lies outside the text", p)
			}
			if p.Wrong == "" || p.Right == "" || strings.ContainsAny(p.String(), "\x1b\n\r\u202e") {
				t.Fatalf("%q is not fit to be shown", p.String())
			}
		}
		if s == nil {
			return
		}
		written := strict.Write(s.Root)
		back, problems := Read("x.yaml", written)
		if back == nil || !sameSheet(s, back) {
			t.Fatalf("written back it reads otherwise (%v):\n%s", problems, written)
		}
	})
}
