package handbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"firstvolt/checks/figure"
	"firstvolt/checks/pattern"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
)

// RegionData is the supply of one region as its file states it.
type RegionData struct {
	Name         string
	Words        map[string]string // the region's word for ground, hot, mains, receptacle, cord, tube, aerial
	Nominal      float64           // V at the receptacle
	Limits       quantity.Range    // V at the receptacle, lowest to highest lasting
	Frequency    quantity.Range    // Hz
	System       string            // neutral | two-line: what the two conductors are
	Earthing     []string          // tn, tt, it, none: any of them may be meant where a sheet does not say
	Plugs        []Plug            // in the order of the file, then those of no list
	KeyedTwoPole bool              // some two-pole plug goes in one way only
	FuseStandard string            // ul-248-14 | iec-60127: of a fuse sold there
	BranchDevice quantity.Range    // A, what guards the receptacle circuit
	Residual     string            // gfci | rcd: the residual device usual there
	Prospective  *quantity.Range   // A, short-circuit current at a receptacle; nil: not known
	Bond         Bond              // what the path of ground may have in service
	Schemes      []Scheme          // cord colours, newest first
	From         map[string]figure.Basis
}

// Plug is one plug of a region.
type Plug struct {
	Name    string
	Poles   int             // contacts, the ground contact counted: 2 or 3
	Fits    string          // one-way | both-ways
	Ground  bool            // it has a ground contact
	Fuse    *quantity.Range // A, what may be fitted where nobody looked; nil: the plug has no fuse
	Made    []float64       // A, ratings made for it, rising
	Advised float64         // A, the rating for a radio; 0 without fuse
	Basis   figure.Basis
}

// otherPlugs are for what no region's list has, in every region: nothing is
// known of such a plug but whether it has a ground contact.
var otherPlugs = []Plug{
	{Name: "two-pole-other", Poles: 2, Fits: "both-ways", Basis: unlisted},
	{Name: "earthed-other", Poles: 3, Fits: "both-ways", Ground: true, Basis: unlisted},
}

var unlisted = figure.Basis{Status: figure.CommonPractice, Source: "a plug that no list has counts as one that goes in both ways"}

// Listed tells whether a list of the region's plugs has it: one that has not is
// two-pole-other or earthed-other.
func (p Plug) Listed() bool {
	return !slices.ContainsFunc(otherPlugs, func(o Plug) bool { return o.Name == p.Name })
}

// Scheme is one published colour scheme of cord conductors. A duty that the
// source gives no colour for has none, so such a scheme is never met whole.
type Scheme struct {
	Name                 string
	Years                string // where and when it was used
	Today                bool   // cords in these colours are made today
	Hot, Neutral, Ground []string
	Regions              []string // filled by Book.Schemes
	Basis                figure.Basis
}

// RegionFacts are the facts that every region file must state, each with a
// basis of the same name under from.
var RegionFacts = []string{"words", "nominal", "limits", "frequency", "system", "earthing", "plugs", "fuse-standard", "branch-device", "residual", "bond"}

// RegionWords are the words that a region says its own way.
var RegionWords = []string{"ground", "hot", "mains", "receptacle", "cord", "tube", "aerial", "color"}

// Colors are the colour words of a sheet; two may be joined by a hyphen.
var Colors = []string{"black", "white", "red", "green", "blue", "brown", "grey", "yellow", "orange", "violet", "pink"}

// Marks tell the cores of a parallel cord apart where they are alike in color:
// one has a rib along its insulation, the other is plain.
var Marks = []string{"ribbed", "plain"}

// Plug finds a plug of the region by its name.
func (r *RegionData) Plug(name string) (Plug, bool) {
	for _, p := range r.Plugs {
		if p.Name == name {
			return p, true
		}
	}
	return Plug{}, false
}

// PlugNames are the names of the region's plugs in the order of its file.
func (r *RegionData) PlugNames() []string {
	var names []string
	for _, p := range r.Plugs {
		names = append(names, p.Name)
	}
	return names
}

// Duties are the duties (hot, neutral, ground) that the scheme gives a colour.
func (s Scheme) Duties(color string) []string {
	var out []string
	for _, d := range []struct {
		duty   string
		colors []string
	}{{"hot", s.Hot}, {"neutral", s.Neutral}, {"ground", s.Ground}} {
		if slices.ContainsFunc(d.colors, func(c string) bool { return SameColor(c, color) }) {
			out = append(out, d.duty)
		}
	}
	return out
}

// SameColor compares two colour words; of two joined the order is free.
func SameColor(a, b string) bool {
	x, y := strings.Split(strict.Canon(a), "-"), strings.Split(strict.Canon(b), "-")
	slices.Sort(x)
	slices.Sort(y)
	return slices.Equal(x, y)
}

var regionName = pattern.Of(`^[a-z]+(-[a-z]+)*$`)

func nameOf(text string) (any, error) {
	if !regionName().MatchString(text) {
		return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is not a name", text), Right: "small letters and hyphens, like north-america"}
	}
	return text, nil
}

func colorOf(text string) (any, error) {
	parts := strings.Split(text, "-")
	if slices.Contains(Marks, text) {
		return text, nil
	}
	for _, p := range parts {
		if _, ok := strict.Known(p, Colors); !ok || len(parts) > 2 {
			return nil, &strict.Fault{Wrong: fmt.Sprintf("%q is not a color", text), Right: strict.Suggest(p, Colors, "one of: "+strings.Join(Colors, ", ")+", or two joined by -")}
		}
	}
	return text, nil
}

// earthings are the systems of earthing; one may stand alone, several in a list.
var earthings = []string{"tn", "tt", "it", "none"}

var regionShape = sync1(func() *strict.Shape {
	var say []strict.Key
	for _, w := range RegionWords {
		say = append(say, must(w, plain))
	}
	colors := listOf(&strict.Shape{Text: &strict.TextShape{Parse: colorOf}})
	fact := map[string]*strict.Shape{
		"words":     object(say...),
		"nominal":   of(quantity.Voltage),
		"limits":    of(quantity.Voltage),
		"frequency": of(quantity.Frequency),
		"system":    words("neutral", "two-line"),
		"earthing":  {Text: &strict.TextShape{Words: earthings}, List: &strict.ListShape{Min: 1, Item: words(earthings...)}},
		"plugs": {List: &strict.ListShape{Min: 1, Item: object(
			must("name", plain), must("poles", words("2", "3")), must("fits", words("one-way", "both-ways")), must("ground", words("present", "absent")),
			may("fuse", of(quantity.Current)), may("advised", of(quantity.Current)), may("made", listOf(of(quantity.Current))), may("basis", basisShape))}},
		"fuse-standard": words("ul-248-14", "iec-60127"),
		"branch-device": of(quantity.Current),
		"residual":      words("gfci", "rcd"),
		"bond":          bondShape,
	}
	keys := []strict.Key{must("name", &strict.Shape{Text: &strict.TextShape{Parse: nameOf}})}
	from := []strict.Key{may("prospective", basisShape)}
	for _, f := range RegionFacts {
		keys = append(keys, must(f, fact[f]))
		from = append(from, must(f, basisShape))
	}
	keys = append(keys, may("prospective", of(quantity.Current)),
		must("schemes", &strict.Shape{List: &strict.ListShape{Min: 1, Item: object(
			must("name", plain), must("years", plain), must("today", words("yes", "no")), must("hot", colors), must("neutral", colors), must("ground", colors),
			must("basis", basisShape))}}),
		must("from", object(from...)))
	return object(keys...)
})

// LoadRegion reads one region file. A fact that is missing, or stands there
// without its basis, is a problem with its place; the region is nil then.
func LoadRegion(file string, data []byte) (*RegionData, []strict.Problem) {
	root, problems := strict.Parse(data)
	if root == nil || len(problems) > 0 {
		return nil, placed(file, problems)
	}
	if problems = strict.Check(root, regionShape()); len(problems) == 0 {
		problems = inconsistent(root)
	}
	if len(problems) > 0 {
		return nil, placed(file, problems)
	}
	r := &RegionData{
		Name: root.Word("name"), Words: map[string]string{}, Nominal: high(root, "nominal", math.NaN()),
		System: root.Word("system"), Earthing: oneOrMore(root.Get("earthing")), FuseStandard: root.Word("fuse-standard"), Residual: root.Word("residual"),
		From: map[string]figure.Basis{},
	}
	for _, e := range root.Get("words").Entries {
		r.Words[e.Key] = e.Value.Text
	}
	r.Bond = bondOf(root.Get("bond"))
	r.Limits, _ = span(root, "limits")
	r.Frequency, _ = span(root, "frequency")
	r.BranchDevice, _ = span(root, "branch-device")
	if p, ok := span(root, "prospective"); ok {
		r.Prospective = &p
	}
	for _, n := range root.Get("plugs").Items {
		p := Plug{Name: n.Word("name"), Poles: int(n.Word("poles")[0] - '0'), Fits: n.Word("fits"), Ground: n.Word("ground") == "present", Made: values(n.Get("made")), Advised: high(n, "advised", 0)}
		if f, ok := span(n, "fuse"); ok {
			p.Fuse = &f
		}
		p.Basis = basisOf(root.Get("from").Get("plugs"))
		if own := n.Get("basis"); own != nil {
			p.Basis = basisOf(own)
		}
		r.Plugs = append(r.Plugs, p)
		r.KeyedTwoPole = r.KeyedTwoPole || p.Poles == 2 && p.Fits == "one-way"
	}
	r.Plugs = append(r.Plugs, otherPlugs...)
	for _, n := range root.Get("schemes").Items {
		r.Schemes = append(r.Schemes, Scheme{
			Name: n.Word("name"), Years: n.Word("years"), Today: n.Word("today") == "yes", Basis: basisOf(n.Get("basis")),
			Hot: texts(n.Get("hot")), Neutral: texts(n.Get("neutral")), Ground: texts(n.Get("ground")),
		})
	}
	for _, e := range root.Get("from").Entries {
		r.From[e.Key] = basisOf(e.Value)
	}
	return r, nil
}

// oneOrMore are the words of a list, or one that stands alone.
func oneOrMore(n *strict.Node) []string {
	if n.Kind == strict.Text {
		return []string{n.Text}
	}
	return texts(n)
}

// inconsistent finds what is well formed and cannot be so.
func inconsistent(root *strict.Node) []strict.Problem {
	var out []strict.Problem
	bad := func(n *strict.Node, wrong, right string) {
		out = append(out, strict.Problem{Pos: n.At(), Wrong: wrong, Right: right})
	}
	nominal, _ := span(root, "nominal")
	limits, _ := span(root, "limits")
	if !(nominal.Low == nominal.High && nominal.Low > 0) {
		bad(root.Get("nominal"), "nominal is not one voltage", "write the one that appliances are marked with")
	} else if !(limits.Bounded() && limits.Low > 0 && limits.Low <= nominal.Low && nominal.High <= limits.High) {
		bad(root.Get("limits"), "limits do not stand round the nominal voltage", "write LOWEST V to HIGHEST V at the receptacle")
	}
	for _, key := range []string{"frequency", "branch-device", "prospective"} {
		if r, ok := span(root, key); ok && !(r.Bounded() && r.Low > 0) {
			bad(root.Get(key), key+" has an open end", "write both ends")
		}
	}
	if root.Get("prospective") != nil && root.Get("from").Get("prospective") == nil {
		bad(root.Get("prospective"), "prospective has no basis", "add it under from")
	}
	if n := root.Get("bond"); !bondOf(n).whole(n) {
		bad(n, "bond has a limit by length of cord that is not whole", "write path and limit, and either none or all of cord-to, each, more and most")
	}
	seen := map[string]bool{}
	for _, o := range otherPlugs {
		seen[o.Name] = true // every region has it without a row
	}
	for _, p := range root.Get("plugs").Items {
		if seen[p.Word("name")] {
			bad(p.Get("name"), p.Word("name")+" stands here a second time", "keep one of them")
		}
		seen[p.Word("name")] = true
		if (p.Word("poles") == "3") != (p.Word("ground") == "present") {
			bad(p.Get("poles"), "poles and ground disagree", "a plug of 2 poles has ground: absent, one of 3 has ground: present")
		}
		if f, ok := span(p, "fuse"); ok && !(f.Bounded() && f.Low > 0) {
			bad(p.Get("fuse"), "fuse has an open end", "write the smallest and the largest that may be fitted")
		}
	}
	return out
}
