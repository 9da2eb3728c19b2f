package handbook

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/quantity"
)

func TestRegionsAgreeWithPublishedTable(t *testing.T) {
	rows := published(t, "regions.txt", 7)
	var names []string
	for _, row := range rows {
		names = append(names, row[0])
		r, ok := Region(row[0])
		if !ok {
			t.Errorf("no region %s", row[0])
			continue
		}
		if r.Nominal != num(t, row[1], 0) || r.Limits != quantity.Between(num(t, row[2], 0), num(t, row[3], 0), quantity.Voltage) {
			t.Errorf("%s: %v V, %v", r.Name, r.Nominal, r.Limits)
		}
		if got := fmt.Sprintf("%g–%g", r.Frequency.Low, r.Frequency.High); got != row[4] {
			t.Errorf("%s: %s Hz, want %s", r.Name, got, row[4])
		}
		if got := strings.Join(r.Earthing, " "); got != row[5] || r.System != "neutral" {
			t.Errorf("%s: %s, %s", r.Name, got, r.System)
		}
		var plugs []string
		for _, p := range r.Plugs {
			s := fmt.Sprintf("%s:%d", p.Name, p.Poles)
			if p.Fits == "both-ways" {
				s += "*"
			}
			if p.Ground != (p.Poles == 3) {
				t.Errorf("%s: %d poles, ground %v", p.Name, p.Poles, p.Ground)
			}
			plugs = append(plugs, s)
		}
		if got := strings.Join(plugs, " "); got != row[6] {
			t.Errorf("%s: plugs %s, want %s", r.Name, got, row[6])
		}
	}
	slices.Sort(names)
	if !slices.Equal(names, Regions()) {
		t.Errorf("regions %v, published table %v", Regions(), names)
	}
}

// A colour means what its region and age make it, and may mean several things:
// red was earth in Germany, line in the United Kingdom, neutral in the
// Netherlands.
func TestColorsByRegion(t *testing.T) {
	for _, row := range published(t, "colors.txt", 3) {
		r, ok := Region(row[0])
		if !ok {
			t.Fatal(row)
		}
		met := map[string]bool{}
		for _, s := range r.Schemes {
			for _, d := range s.Duties(row[1]) {
				met[d] = true
			}
		}
		var duties []string
		for _, d := range []string{"hot", "neutral", "ground"} {
			if met[d] {
				duties = append(duties, d)
			}
		}
		if got := strings.Join(duties, " "); got != word(row[2]) {
			t.Errorf("%s in %s: %q, want %q", row[1], row[0], got, row[2])
		}
	}
}

func TestSchemesAreTheUnion(t *testing.T) {
	all := Default().Schemes()
	foreign := func(hot, neutral, ground string) []string {
		for _, s := range all {
			has := func(duty, color string) bool { return slices.Contains(s.Duties(color), duty) }
			if has("hot", hot) && has("neutral", neutral) && has("ground", ground) {
				return s.Regions
			}
		}
		return nil
	}
	for _, c := range []struct {
		colors [3]string
		want   string
	}{
		{[3]string{"brown", "blue", "green-yellow"}, "australia europe switzerland united-kingdom"},
		{[3]string{"brown", "blue", "yellow-green"}, "australia europe switzerland united-kingdom"},
		{[3]string{"red", "black", "green"}, "australia united-kingdom"},
		{[3]string{"black", "gray", "green"}, "north-america"},
		{[3]string{"black", "blue", "green"}, ""},  // a mix
		{[3]string{"white", "black", "green"}, ""}, // the right colours, exchanged
		{[3]string{"black", "white", "red"}, ""},   // a scheme that gives ground alone is never met whole
		{[3]string{"black", "grey", "red"}, "europe"},
	} {
		if got := strings.Join(foreign(c.colors[0], c.colors[1], c.colors[2]), " "); got != c.want {
			t.Errorf("%v: %q, want %q", c.colors, got, c.want)
		}
	}
	if s, _ := Region("europe"); s.Schemes[0].Regions != nil {
		t.Error("the union wrote into a region")
	}
}

func TestKeyedTwoPoleAndPlugFuse(t *testing.T) {
	for name, want := range map[string]bool{"north-america": true, "australia": true, "united-kingdom": false, "europe": false, "japan": false, "switzerland": false} {
		if r, _ := Region(name); r.KeyedTwoPole != want {
			t.Errorf("%s: keyed two-pole plug %v", name, r.KeyedTwoPole)
		}
	}
	for _, name := range Regions() {
		r, _ := Region(name)
		want := "iec-60127"
		if name == "north-america" {
			want = "ul-248-14"
		}
		if r.FuseStandard != want {
			t.Errorf("%s: %s", name, r.FuseStandard)
		}
		for _, p := range r.Plugs {
			if (p.Fuse != nil) != (p.Name == "bs-1363") {
				t.Errorf("%s: fuse %v", p.Name, p.Fuse)
			}
		}
		if w := r.Words["ground"]; w != "earth" && w != "ground" || len(r.Words) != len(RegionWords) {
			t.Errorf("%s: words %v", name, r.Words)
		}
	}
	uk, _ := Region("united-kingdom")
	p, ok := uk.Plug("bs-1363")
	if !ok || p.Advised != 3 || p.Fuse.Low != 1 || p.Fuse.High != 13 || !slices.Equal(p.Made, []float64{1, 2, 3, 5, 7, 10, 13}) {
		t.Errorf("%+v", p)
	}
	if _, ok := uk.Plug("nema-1-15"); ok {
		t.Error("a plug of another region")
	}
}

// A seventh region is one file: nothing else is touched.
const seventh = `name: far-island
words: {ground: earth, hot: live, mains: mains, receptacle: socket, cord: flex, tube: valve, aerial: aerial, color: colour}
nominal: 110 V
limits: 99 V to 121 V
frequency: 50 Hz
system: two-line
earthing: [it]
plugs:
  - {name: island-plug, poles: 2, fits: both-ways, ground: absent}
fuse-standard: iec-60127
branch-device: 10 A
residual: rcd
bond: {path: whole, limit: 0.5 Ω}
prospective: 200 A to 900 A
schemes:
  - name: pink, violet, orange
    years: always
    today: yes
    hot: [pink]
    neutral: [violet]
    ground: [orange]
    basis: {status: shop, source: invented for a test}
from:
  words: {status: shop, source: invented for a test}
  nominal: {status: shop, source: invented for a test}
  limits: {status: shop, source: invented for a test}
  frequency: {status: shop, source: invented for a test}
  system: {status: shop, source: invented for a test}
  earthing: {status: shop, source: invented for a test}
  plugs: {status: shop, source: invented for a test}
  fuse-standard: {status: shop, source: invented for a test}
  branch-device: {status: shop, source: invented for a test}
  residual: {status: shop, source: invented for a test}
  bond: {status: shop, source: invented for a test}
  prospective: {status: shop, source: invented for a test}
`

func TestSeventhRegion(t *testing.T) {
	r, problems := LoadRegion("far-island.yaml", []byte(seventh))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	book := Default().With(r)
	got, ok := book.Region("far-island")
	if !ok || got.System != "two-line" || got.Prospective == nil || got.Prospective.High != 900 || len(book.Names()) != 7 {
		t.Errorf("%+v", got)
	}
	if _, ok := Region("far-island"); ok || len(Regions()) != 6 {
		t.Error("the default book has changed")
	}
	if n := len(book.Schemes()) - len(Default().Schemes()); n != 1 {
		t.Errorf("%d more schemes", n)
	}
	var empty Book
	if more := empty.With(r); len(more.Regions) != 1 {
		t.Error("a book of one")
	}
	if NearestRegion("north-amerika") != "north-america" {
		t.Error("nearest region")
	}
}

// Every fact of every region, taken away in turn, and its basis after it, is a
// problem that names the fact and has a place.
func TestMissingFactHasItsPlace(t *testing.T) {
	texts := map[string]string{"far-island": seventh}
	for _, name := range Regions() {
		data, err := os.ReadFile(filepath.Join("regions", name+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		texts[name] = string(data)
	}
	for name, text := range texts {
		for _, fact := range append([]string{"name", "schemes", "from"}, RegionFacts...) {
			r, problems := LoadRegion("r.yaml", []byte(without(t, text, fact, 0)))
			expect(t, name+" without "+fact, r, problems, "r.yaml:1:1: the file has no "+fact)
		}
		for _, fact := range RegionFacts {
			r, problems := LoadRegion("r.yaml", []byte(without(t, text, fact, 2)))
			line := 1 + strings.Count(text[:strings.Index(text, "\nfrom:")+1], "\n")
			if fact == "words" || name != "" {
				line = lineOf(without(t, text, fact, 2), "from:")
			}
			expect(t, name+" without the basis of "+fact, r, problems, fmt.Sprintf("r.yaml:%d:1: from has no %s", line, fact))
		}
		for _, w := range RegionWords {
			broken := strings.Replace(text, "{"+w+":", "{x"+w+":", 1)
			if broken == text {
				broken = strings.Replace(text, ", "+w+":", ", x"+w+":", 1)
			}
			r, problems := LoadRegion("r.yaml", []byte(broken))
			expect(t, name+" without the word for "+w, r, problems, "words has no "+w)
		}
	}
}

func TestRegionFaults(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"limits: 99 V to 121 V", "limits: 112 V to 121 V", "r.yaml:4:9: limits do not stand round the nominal voltage"},
		{"limits: 99 V to 121 V", "limits: over 99 V", "r.yaml:4:9: limits do not stand round"},
		{"nominal: 110 V", "nominal: 100 V to 110 V", "r.yaml:3:10: nominal is not one voltage"},
		{"nominal: 110 V", "nominal: 0 V", "r.yaml:3:10: nominal is not one voltage"},
		{"nominal: 110 V", "nominal: .nan", "r.yaml:3:10: nominal: "},
		{"branch-device: 10 A", "branch-device: over 10 A", "r.yaml:11:16: branch-device has an open end"},
		{"poles: 2", "poles: 3", "r.yaml:9:32: poles and ground disagree"},
		{"poles: 2", "poles: 4", "r.yaml:9:32: \"4\" is not a word for poles"},
		{"fits: both-ways", "fits: any", "r.yaml:9:41: \"any\" is not a word for fits"},
		{"ground: absent}\n", "ground: absent}\n  - {name: island-plug, poles: 2, fits: one-way, ground: absent}\n", "r.yaml:10:12: island-plug stands here a second time"},
		{"ground: absent}", "ground: absent, fuse: over 1 A}", "r.yaml:9:74: fuse has an open end"},
		{"hot: [pink]", "hot: [pinc]", "r.yaml:19:11: hot: \"pinc\" is not a color; did you mean pink?"},
		{"hot: [pink]", "hot: [pink-red-blue]", "r.yaml:19:11: hot: \"pink-red-blue\" is not a color"},
		{"name: far-island", "name: Far Island", "r.yaml:1:7: name: \"Far Island\" is not a name"},
		{"frequency: 50 Hz", "frequency: 50", "r.yaml:5:12: frequency: the unit is missing"},
		{"frequency: 50 Hz", "frequency: 50 Hz\nfrequency: 60 Hz", "r.yaml:6:1: frequency stands here a second time"},
		{"  prospective: {status: shop, source: invented for a test}\n", "", "r.yaml:14:14: prospective has no basis"},
		{"limit: 0.5 Ω", "limit: 0.5 Ω, each: 7.5 m", "r.yaml:13:7: bond has a limit by length"},
		{"limit: 0.5 Ω", "limit: 0 Ω", "r.yaml:13:7: bond has a limit by length"},
		{"system: two-line", "system: three-line", "r.yaml:6:9: \"three-line\" is not a word for system"},
		{"residual: rcd\n", "residual: rcd\ncolour-of-sky: blue\n", "r.yaml:13:1: colour-of-sky is not a key"},
	} {
		text := strings.Replace(seventh, c.old, c.new, 1)
		if text == seventh {
			t.Fatalf("%q does not stand in the region", c.old)
		}
		r, problems := LoadRegion("r.yaml", []byte(text))
		expect(t, c.new, r, problems, c.want)
	}
	r, problems := LoadRegion("r.yaml", nil)
	expect(t, "an empty file", r, problems, "r.yaml:1:1: the file is empty")
}

func expect(t *testing.T, what string, r *RegionData, problems any, want string) {
	t.Helper()
	if r != nil {
		t.Errorf("%s: a region all the same", what)
	}
	if got := fmt.Sprint(problems); !strings.Contains(got, want) {
		t.Errorf("%s: %s, want %s", what, got, want)
	}
}

// without cuts the key at that indent, and what it owns, out of a text.
func without(t *testing.T, text, key string, indent int) string {
	t.Helper()
	var out []string
	cutting, cut := false, false
	pad := strings.Repeat(" ", indent)
	inFrom := indent == 0
	for _, line := range strings.Split(text, "\n") {
		inFrom = inFrom || line == "from:"
		if inFrom && strings.HasPrefix(line, pad+key+":") {
			cutting, cut = true, true
			continue
		}
		if cutting && strings.HasPrefix(line, pad+" ") {
			continue
		}
		cutting = false
		out = append(out, line)
	}
	if !cut {
		t.Fatalf("no %s to cut", key)
	}
	return strings.Join(out, "\n")
}

func lineOf(text, line string) int {
	return slices.Index(strings.Split(text, "\n"), line) + 1
}
