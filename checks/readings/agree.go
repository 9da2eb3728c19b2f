package readings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"firstvolt/checks/bench"
	"firstvolt/checks/circuit"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

// The allowance between a prediction and a reading: an ohm or a tenth of the
// prediction, whichever is more; and the megohm below which a reading shows a
// path where none is drawn (both: rule of the ohmmeter model).
const (
	allowOhms  = 1
	allowShare = 0.1
	megohm     = 1e6
)

// commonMeter is the error of a hand meter of tenths of an ohm, 1 % + 3 digits
// (common practice). So much of the error of the meters that read the windings
// belongs to a prediction; what is coarser makes it only less certain, so that
// no bad meter ever excuses a reading.
func commonMeter(ohms float64) float64 { return 0.01*ohms + 0.3 }

func allowance(prediction float64) float64 { return math.Max(allowOhms, allowShare*prediction) }

// agreement is how far a reading lies outside what everything else predicts,
// in units of the allowance.
type agreement struct {
	r       quantity.Range
	missing []figure.Need
	unasked bool          // nothing predicts it, or a path of unknown value
	unread  []figure.Need // what would predict it: readings that nobody took
	note    string
	trace   []string
}

// countless is the distance beyond which nobody is helped by its number: a
// reading of another order is of another circuit.
const countless = 1000

// figureOf makes the figure of an agreement.
func (a agreement) figureOf(d *figure.Def, s figure.Subject, rd *sheet.Reading) figure.Figure {
	if a.r.Low >= countless {
		a.r = quantity.Range{Low: countless, High: math.Inf(1), Dim: quantity.Number}
	}
	f := figure.Number(d, s, a.r)
	if len(a.missing) > 0 {
		f = figure.NotKnown(d, s, a.missing...)
	}
	f.Note, f.Trace, f.At = a.note, a.trace, rd.At
	return f
}

// owed makes the figure of a reading that a rule names: where its path is of
// unknown value it is not known, as what nobody read may be anything.
func (a agreement) owed(d *figure.Def, s figure.Subject, rd *sheet.Reading) figure.Figure {
	if len(a.missing) == 0 && a.unasked && len(a.unread) > 0 {
		a.missing = a.unread
	}
	return a.figureOf(d, s, rd)
}

// agree compares a reading with its prediction in every state it may have
// been taken in. The low end of the answer is what is certain of the distance,
// the high end what is possible; both only move apart where anything is known
// less well.
func agree(b *bench.Bench, rd *sheet.Reading) agreement {
	r, ok, why := rd.True()
	if !ok {
		return agreement{missing: []figure.Need{useless(rd, why)}}
	}
	if !b.Sheet.HasWiring() {
		return agreement{unasked: true, r: quantity.Exact(0, quantity.Number), note: "without wiring on the sheet nothing predicts this reading"}
	}
	predictions, err := b.Predict(rd)
	if err != nil {
		return agreement{missing: []figure.Need{{What: "a prediction of " + rd.Name, How: err.Error()}}}
	}
	a := agreement{r: quantity.Range{Low: math.Inf(1), High: 0, Dim: quantity.Number}, trace: []string{fmt.Sprintf("the meter saw %s", r)}}
	differ := false
	for i, p := range predictions {
		d := one(b, rd, r, p)
		differ = differ || i > 0 && (d.r != a.r || d.unasked != a.unasked)
		a.r.Low, a.r.High = math.Min(a.r.Low, d.r.Low), math.Max(a.r.High, d.r.High)
		a.missing = append(a.missing, d.missing...)
		a.unread = append(a.unread, d.unread...)
		a.unasked = a.unasked || d.unasked
		if i == 0 || differ {
			a.trace = append(a.trace, d.trace...)
		}
		if i == 0 {
			a.note = d.note
		}
	}
	if differ {
		a.note = strings.TrimPrefix(a.note+"; how the switches stood is not told, so every position counts", "; ")
	}
	return a
}

// one compares reading and prediction in one state.
func one(b *bench.Bench, rd *sheet.Reading, r quantity.Range, p bench.Prediction) agreement {
	switch {
	case p.Open:
		return apart(b, rd, r, p)
	case unknownPath(p):
		if needs := pathNeeds(b, p); len(needs) > 0 {
			return agreement{missing: needs}
		}
		return unpredicted(b, rd, r, p)
	}
	a := agreement{r: quantity.Range{Dim: quantity.Number}}
	gap := math.Max(0, math.Max(p.Wide.Low-r.High, r.Low-p.Wide.High))
	a.r.Low = gap / allowance(p.Wide.High)
	hull := p.Low.Hull(p.High)
	least := math.Max(hull.Low, p.High.Low-2*commonMeter(p.High.Low))
	most := math.Min(hull.High, p.Low.High+2*commonMeter(p.Low.High))
	worst := math.Max(0, math.Max(least-r.Low, r.High-most))
	small := allowance(p.Low.Low)
	a.r.High = math.Max(a.r.Low, worst/small)
	a.note = fmt.Sprintf("predicted %s, read %s", hull, r)
	a.trace = []string{
		fmt.Sprintf("predicted with windings at the low end of their readings %s, at the high end %s", p.Low, p.High),
		fmt.Sprintf("allowance: the larger of %s and a tenth: %s", ohmsOf(allowOhms), ohmsOf(small)),
		fmt.Sprintf("farthest outside: %s", ohmsOf(worst))}
	return a
}

// unknownPath tells whether something of unknown value carries the meter's
// current, alone or beside what is known.
func unknownPath(p bench.Prediction) bool {
	return p.Unknown || slices.ContainsFunc(p.Path, boundless)
}

// boundless tells an element of unknown value that makes a reading beside it
// unknown too. A fuse of unknown cold resistance does not: the prediction holds
// both its ends.
func boundless(e *circuit.Element) bool {
	return (e.Conducts == circuit.Conducting || e.Conducts == circuit.OneWay) && math.IsInf(e.R.High, 1)
}

// pathNeeds are the keys that would make an unknown path known. The cord is
// asked for where it alone is what is not known.
func pathNeeds(b *bench.Bench, p bench.Prediction) []figure.Need {
	var needs []figure.Need
	for _, n := range p.Needs {
		needs = append(needs, figure.Need{What: n, How: "add it to the part; the resistance of this path hangs on it"})
	}
	for _, e := range p.Path {
		q := bench.PartOfElement(e)
		if q == nil || !q.Is(part.Fuses) || !math.IsInf(e.R.High, 1) {
			continue
		}
		for _, key := range []string{"rating", "standard"} {
			if q.Node.Get(key) == nil {
				needs = append(needs, figure.Need{What: q.Name + " " + key, How: "add it to the fuse; its cold resistance hangs on it"})
			}
		}
	}
	inside := slices.ContainsFunc(p.Path, func(e *circuit.Element) bool { return boundless(e) && e.Owner != "" })
	if _, known := b.CordConductor(); !known && !inside {
		needs = append(needs, figure.Need{What: "size and length of the cord", How: "add size: and length: under cord:"})
	}
	return needs
}

// apart judges a reading where no conducting path joins the probes: it is to
// show a megohm at least. What an arrester, varistor or neon may explain
// proves no fault, but nothing good either.
func apart(b *bench.Bench, rd *sheet.Reading, r quantity.Range, p bench.Prediction) agreement {
	a := agreement{r: quantity.Range{Low: 0, High: math.Inf(1), Dim: quantity.Number}}
	if r.High > 0 {
		a.r.Low = megohm / r.High
	}
	if r.Low > 0 {
		a.r.High = megohm / r.Low
	}
	a.note = "nothing on the sheet conducts between these probes"
	a.trace = []string{"no conducting path: 1 MΩ over the reading"}
	if names := striking(b.Circuit(p.State), rd); len(names) > 0 && !(a.r.High <= 1) {
		a.r.Low = 0
		a.note = fmt.Sprintf("%s may conduct here: read again with it lifted (without: [%s])", strings.Join(names, ", "), strings.Join(names, ", "))
	}
	return a
}

// striking lists the arresters, varistors and neons that may carry current
// between the probes of a reading.
func striking(c *circuit.Circuit, rd *sheet.Reading) []string {
	through := func(e *circuit.Element) bool { return bench.Conductors(e) || e.Law == circuit.Striking }
	from, to := c.Reach(rd.A, through), c.Reach(rd.B, through)
	if !slices.ContainsFunc(rd.B, from.Has) {
		return nil
	}
	var names []string
	for _, e := range c.Elements() {
		if e.Law == circuit.Striking && from.Has(e.A) && to.Has(e.A) && !slices.Contains(names, e.Owner) {
			names = append(names, e.Owner)
		}
	}
	return names
}

// unpredicted judges a reading through a path of unknown value: it cannot lie
// below what the known parts alone have, and where the path conducts for
// certain it cannot show a megohm.
func unpredicted(b *bench.Bench, rd *sheet.Reading, r quantity.Range, p bench.Prediction) agreement {
	a := agreement{unasked: true, unread: unread(b, p), r: quantity.Range{Dim: quantity.Number},
		note: "nothing else on the sheet predicts this reading; it was taken", trace: []string{fmt.Sprintf("known parts of the path alone: %s", p.Wide)}}
	for _, q := range b.Sheet.Readings {
		if ok, why := q.Proves(); !ok && q != rd && windingIn(b, q, p.Path) {
			a.missing = append(a.missing, useless(q, why))
		}
	}
	gap := math.Max(0, p.Wide.Low-r.High) / allowance(p.Wide.Low)
	a.r.Low, a.r.High = gap, gap
	if !math.IsInf(p.Wide.High, 1) {
		// What is unknown lies beside what is known: together they are never more than that.
		a.r.Low = math.Max(gap, math.Max(0, r.Low-p.Wide.High)/allowance(p.Wide.High))
		a.r.High = math.Max(gap, math.Max(0, r.High-p.Wide.High)/allowance(p.Wide.High))
	}
	a.unasked = !(a.r.High > 1)
	c := b.Circuit(p.State)
	reached := c.Reach(rd.A, func(e *circuit.Element) bool {
		return e.Conducts == circuit.Wire || e.Conducts == circuit.Joint || e.Conducts == circuit.Conducting
	})
	open := megohm + p.Wide.Low
	if !slices.ContainsFunc(rd.B, reached.Has) || !(r.High >= open) {
		return a
	}
	a.r.High = math.Inf(1)
	if r.Low >= open {
		a.r.Low = math.Max(r.Low/open, 2)
		a.note = "a conducting path is drawn here, and the meter saw none"
		a.unasked = false
	}
	return a
}

// unread are the readings that would tell what a path of unknown value has: of
// windings, and of parts that no key tells the ohms of. What lets current through
// one way only has no ohms: the other way round the meter does not see it.
func unread(b *bench.Bench, p bench.Prediction) []figure.Need {
	ends := slices.Clone(p.Unread)
	var needs []figure.Need
	for _, e := range p.Path {
		q := bench.PartOfElement(e)
		switch {
		case q == nil || !boundless(e) || e.Law == circuit.Winding:
		case e.Conducts == circuit.OneWay || e.Law == circuit.Electrolytic:
			needs = append(needs, figure.Need{What: "the red lead on the other node",
				How: fmt.Sprintf("the same reading with the two nodes the other way round under between:, so that no current passes %s", q.Name)})
		default:
			ends = append(ends, [2]string{e.A, e.B})
		}
	}
	for _, e := range ends {
		needs = append(needs, figure.Need{What: fmt.Sprintf("resistance between %s and %s", e[0], e[1]),
			How: "an ohmmeter on the part alone, with what lies across it switched off or lifted (without:)"})
	}
	return needs
}

// windingIn tells whether a reading is of a winding that carries current on
// the path.
func windingIn(b *bench.Bench, rd *sheet.Reading, path []*circuit.Element) bool {
	w, _, _, ok := b.Direct(rd)
	return ok && slices.ContainsFunc(path, func(e *circuit.Element) bool {
		return e.Law == circuit.Winding && w.Part.HasSection(w.Winding, e.Name)
	})
}
