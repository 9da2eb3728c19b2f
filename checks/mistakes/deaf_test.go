package mistakes_test

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"firstvolt/checks/handbook"
	"firstvolt/checks/sheet"
	"firstvolt/checks/strict"
	"firstvolt/rules"
)

// spot is one place of one sheet where a key of the format stands or may stand.
type spot struct {
	b     base
	at    place // of the map that holds it
	key   strict.Key
	among []string // what stands under the same key elsewhere on the sheet
}

// keyIDs lists every key of a shape, without any sheet: parts.*{fuse}.rating.
func keyIDs(s *strict.Shape, id string, out *[]string) {
	if s.List != nil {
		keyIDs(s.List.Item, id+"[]", out)
	}
	if s.Map == nil {
		return
	}
	keys := func(id string, m *strict.MapShape) {
		for _, k := range m.Keys {
			*out = append(*out, id+"."+k.Name)
			keyIDs(k.Shape, id+"."+k.Name, out)
		}
	}
	keys(id, s.Map)
	for _, c := range s.Map.Order {
		keys(id+"{"+c+"}", s.Map.Cases[c])
	}
	if s.Map.Any != nil {
		keyIDs(s.Map.Any, id+".*", out)
	}
}

// spots finds where each key of the format stands or may stand on a sheet.
func spots(b base, out map[string][]spot) {
	texts := map[string][]string{}
	var found []string
	here := map[string][]spot{}
	var walk func(s *strict.Shape, n *strict.Node, id string, at place)
	walk = func(s *strict.Shape, n *strict.Node, id string, at place) {
		switch {
		case n == nil || s == nil:
		case n.Kind == strict.List && s.List != nil:
			for i, item := range n.Items {
				walk(s.List.Item, item, id+"[]", append(slices.Clone(at), fmt.Sprintf("#%d", i)))
			}
		case n.Kind == strict.Map && s.Map != nil:
			ids := map[string]strict.Key{}
			for _, k := range s.Map.Keys {
				ids[id+"."+k.Name] = k
			}
			if c := s.Map.Cases[n.Word(s.Map.Case)]; c != nil {
				for _, k := range c.Keys {
					ids[id+"{"+n.Word(s.Map.Case)+"}."+k.Name] = k
				}
			}
			for kid, k := range ids {
				here[kid] = append(here[kid], spot{b: b, at: at, key: k})
				found = append(found, kid)
				v := n.Get(k.Name)
				texts[kid] = append(texts[kid], v.Str())
				if v == nil && k.Shape.Map != nil && len(k.Shape.Map.Keys) > 0 && k.Shape.Map.Case == "" {
					v = strict.MapNode() // its keys may stand there
				}
				walk(k.Shape, v, kid, append(slices.Clone(at), k.Name))
			}
			for _, e := range n.Entries {
				if s.Map.Any != nil && !slices.ContainsFunc(s.Map.Keys, func(k strict.Key) bool { return k.Name == e.Key }) {
					walk(s.Map.Any, e.Value, id+".*", append(slices.Clone(at), e.Key))
				}
			}
		}
	}
	walk(sheet.Shape(), b.was.s.Root, "", nil)
	for id, ss := range here {
		slices.SortFunc(ss, func(x, y spot) int { return strings.Compare(x.at.String(), y.at.String()) })
		words := slices.DeleteFunc(slices.Clone(texts[id]), func(t string) bool { return t == "" })
		slices.Sort(words)
		for _, s := range ss {
			s.among = slices.Compact(slices.Clone(words))
			out[id] = append(out[id], s)
		}
	}
}

var leadingNumber = regexp.MustCompile(`^[^0-9]*([0-9]+(?:\.[0-9]+)?)`)

// wordsWithin finds the words that a value of another form may be instead.
var wordsWithin = regexp.MustCompile(`^\^\(?([a-z|]+)\)?\$`)

// absurd are values that nobody could mean for the key: a thousand times too
// much and too little, what stands elsewhere or beside it, two exchanged, nothing.
func (s spot) absurd() []*strict.Node {
	holder := down(s.b.was.s.Root, s.at)
	n, t := holder.Get(s.key.Name), s.key.Shape.Text
	var out []*strict.Node
	text := func(words ...string) {
		for _, w := range words {
			if w != n.Str() {
				out = append(out, strict.TextNode(w))
			}
		}
	}
	if t != nil {
		is := cmp.Or(n.Str(), t.Example)
		if is == "OL" {
			is = t.Example
		}
		if m := leadingNumber.FindStringSubmatchIndex(is); m != nil && t.Type != "date" {
			v, _ := strconv.ParseFloat(is[m[2]:m[3]], 64)
			for _, times := range []float64{1000, 0.001, 30, 0.03, 4, 0.25, 1e-6} {
				text(is[:m[2]] + strconv.FormatFloat(v*times, 'f', -1, 64) + is[m[3]:])
			}
		}
		switch {
		case t.Type == "date":
			text("2020-01-01", "2035-01-01")
		case t.Type == "color":
			text(append(slices.Clone(sheet.Colors), "green-yellow")...)
		case strings.HasPrefix(t.Type, "shown-"):
			text("OL")
		case t.Type == "accuracy":
			text("99 %")
		case wordsWithin.MatchString(t.Pattern):
			text(strings.Split(wordsWithin.FindStringSubmatch(t.Pattern)[1], "|")...)
		case s.key.Name == "plug":
			text(s.b.was.s.Region.PlugNames()...)
		case s.key.Name == "region":
			for _, name := range handbook.Default().Names() {
				text(name)
			}
		case t.Parse == nil:
			text(s.among...)
			for _, e := range holder.Entries { // names of what stands beside it
				for _, o := range e.Value.Entries {
					text(o.Key)
				}
				for _, o := range e.Value.Items {
					text(o.Str())
				}
			}
			if s.key.Name == "across" {
				text(s.named()...)
			}
		}
	}
	if s.key.Name == "positions" && n == nil {
		for _, p := range s.b.was.s.Parts {
			for _, name := range p.Positions() {
				out = append(out, strict.MapNode(strict.Pair(p.Name, strict.TextNode(name))))
			}
		}
	}
	switch {
	case n == nil:
		return out
	case len(n.Entries) > 1 && s.key.Shape.Map.Any != nil:
		c := n.Clone()
		last := len(c.Entries) - 1
		c.Entries[0].Value, c.Entries[last].Value = c.Entries[last].Value, c.Entries[0].Value
		out = append(out, c)
		for _, times := range []float64{0.5, 4} {
			if m := leadingNumber.FindStringSubmatchIndex(n.Entries[last].Value.Str()); m != nil {
				o, is := n.Clone(), n.Entries[last].Value.Str()
				v, _ := strconv.ParseFloat(is[m[2]:m[3]], 64)
				o.Entries[last].Value = strict.TextNode(is[:m[2]] + strconv.FormatFloat(v*times, 'f', -1, 64) + is[m[3]:])
				out = append(out, o)
			}
		}
	case len(n.Items) == 2:
		out = append(out, strict.ListNode(n.Items[1].Clone(), n.Items[0].Clone()))
		for _, w := range []string{"chassis", "plug.ground", "plug.hot"} {
			out = append(out, strict.ListNode(n.Items[0].Clone(), strict.TextNode(w)))
		}
	}
	return append(out, nil)
}

// named are the names of the sheet's parts and windings.
func (s spot) named() []string {
	var out []string
	for _, p := range s.b.was.s.Parts {
		out = append(out, p.Name)
		for _, w := range p.Windings {
			out = append(out, p.Full(w.Name))
		}
	}
	return out
}

// with is the spot's sheet with another value there.
func (s spot) with(v *strict.Node) *strict.Node {
	c := s.b.was.s.Root.Clone()
	holder := reach(c, s.at)
	if v == nil {
		holder.Delete(s.key.Name)
		return c
	}
	if other, either := map[string]string{"across": "between", "between": "across"}[s.key.Name]; either {
		holder.Delete(other)
	}
	holder.Set(s.key.Name, v.Clone())
	return c
}

// reach is down, making the maps that are not there.
func reach(n *strict.Node, p place) *strict.Node {
	for i, step := range p {
		if down(n, p[i:i+1]) == nil {
			n.Set(step, strict.MapNode())
		}
		n = down(n, p[i:i+1])
	}
	return n
}

// worsened tells whether a finding is worse than before, one that is no pass is
// new, or the sheet is no longer cleared.
func worsened(was, is judged) bool {
	if was.Verdict == rules.Cleared && is.Verdict != rules.Cleared {
		return true
	}
	before := was.found()
	for k, f := range is.found() {
		if f.Outcome != rules.Pass && rank(f.Outcome) > rank(before[k].Outcome) {
			return true
		}
	}
	return false
}

// hears tells whether a finding comes out worse for some absurd value there.
func (s spot) hears(t *testing.T) bool {
	return slices.ContainsFunc(s.absurd(), func(v *strict.Node) bool {
		is := judgeTree(t, s.with(v))
		return is.s != nil && worsened(s.b.was, is)
	})
}

// wordsHeard are the words of a closed list that some other word there makes
// better or worse.
func (s spot) wordsHeard(t *testing.T) []string {
	var out []string
	var all []judged
	words := s.key.Shape.Text.Words
	for _, w := range words {
		all = append(all, judgeTree(t, s.with(strict.TextNode(w))))
	}
	if len(words) == 1 { // the other word is that nothing stands there
		all = append(all, judgeTree(t, s.with(nil)))
	}
	for i, one := range all[:len(words)] {
		for k, other := range all {
			if i != k && one.s != nil && other.s != nil && (worsened(one, other) || worsened(other, one)) {
				out = append(out, words[i])
				break
			}
		}
	}
	return out
}

// keyPlaces are all keys of the format with where they stand, on every sound
// sheet and on those that carry what no sound sheet has.
var keyPlaces = struct {
	sync.Once
	ids   []string
	spots map[string][]spot
}{spots: map[string][]spot{}}

// TestNoKeyIsDeaf asks of every key of the format, and of every word of its
// closed lists, that a finding of some sheet is the worse for some absurd value
// there. A key of a new kind is asked by itself. What is deaf for a reason
// stands in deafFor.
func TestNoKeyIsDeaf(t *testing.T) {
	keyIDs(sheet.Shape(), "", &keyPlaces.ids)
	all, err := soundSheets()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range all {
		s.read(t)
		spots(base{s.name, s.was}, keyPlaces.spots)
	}
	for _, b := range carriers(t) {
		spots(b, keyPlaces.spots)
	}
	var asked sync.WaitGroup
	used := sync.Map{}
	gate := make(chan bool, 2)
	for _, id := range keyPlaces.ids {
		if !*exhaustive && pick(id)%12 != 0 {
			continue
		}
		asked.Add(1)
		gate <- true
		go func() {
			defer func() { <-gate; asked.Done() }()
			for _, deaf := range deafness(t, id, keyPlaces.spots[id]) {
				if why, ok := deafFor(deaf); !ok {
					t.Errorf("%s: no finding hears it, on %d places", deaf, len(keyPlaces.spots[id]))
				} else {
					used.Store(why, true)
				}
			}
		}()
	}
	asked.Wait()
	for name := range deafKeys {
		if _, was := used.Load(name); *exhaustive && !was {
			t.Errorf("%s stands on the list of deaf keys and is heard", name)
		}
	}
}

// mostSpots is how many places are tried of one key: two of each sheet at least.
const mostSpots = 60

// deafness lists the key itself and those of its words that nothing hears.
func deafness(t *testing.T, id string, at []spot) []string {
	switch {
	case len(at) == 0:
		return []string{id}
	case at[0].key.Shape.Map != nil && len(at[0].key.Shape.Map.Keys) > 0, at[0].key.Shape.List != nil && at[0].key.Shape.List.Item.Map != nil:
		return nil // it holds keys that are asked one by one
	}
	// One of each sheet first: what one sheet does not hear another may.
	order := slices.Clone(at)
	there := func(s spot) int { // where it stands first
		if down(s.b.was.s.Root, s.at).Get(s.key.Name) != nil {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(order, func(x, y spot) int { return there(x) - there(y) })
	seen := map[string]int{}
	turn := map[string]int{}
	for _, s := range order {
		turn[s.b.name+s.at.String()] = seen[s.b.name]
		seen[s.b.name]++
	}
	slices.SortStableFunc(order, func(x, y spot) int { return turn[x.b.name+x.at.String()] - turn[y.b.name+y.at.String()] })
	order = order[:min(len(order), mostSpots)]
	if words := at[0].key.Shape.Text; words != nil && words.Words != nil {
		left := slices.Clone(words.Words)
		for _, s := range order {
			if len(left) == 0 {
				break
			}
			heard := s.wordsHeard(t)
			left = slices.DeleteFunc(left, func(w string) bool { return slices.Contains(heard, w) })
		}
		for i := range left {
			left[i] = id + "=" + left[i]
		}
		return left
	}
	if slices.ContainsFunc(order, func(s spot) bool { return s.hears(t) }) {
		return nil
	}
	return []string{id}
}
