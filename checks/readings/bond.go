package readings

import (
	"fmt"
	"math"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/sheet"
)

var bondExpected = figure.Def{
	Name: "bond-expected", Room: "readings", Of: bench.Metalwork, Present: true,
	Says: "Wire joins it to the ground pin, so that an ohmmeter must see it.",
}

var bondRoom = figure.Def{
	Name: "bond-room", Room: "readings", Of: bench.Metalwork, Unit: quantity.Resistance,
	Says: "left of the resistance that the path from the ground pin may have here",
}

var bondBeyondCord = figure.Def{
	Name: "bond-beyond-cord", Room: "readings", Of: bench.Metalwork, Unit: quantity.Resistance,
	Says: "resistance from the ground pin, beyond the cord's own conductor",
}

// bondSubjects are the chassis and every body that a hand can reach.
func bondSubjects(b *bench.Bench) []figure.Subject {
	out := b.Subjects("chassis")
	for _, s := range b.Subjects("body") {
		if s.Reach != "enclosed" {
			out = append(out, s)
		}
	}
	return out
}

func computeBondExpected(b *bench.Bench) []figure.Figure {
	if !b.Sheet.HasWiring() {
		return nil // not known, so it is asked
	}
	var out []figure.Figure
	r := b.Circuit(bench.ClosedState()).Reach([]string{sheet.PlugGround}, bench.GroundPath)
	for _, s := range b.Subjects(bench.Metalwork...) {
		bonded := r.Has(s.Name)
		switch s.Kind {
		case "chassis":
			bonded = bonded && b.Wired().Bonded == "yes"
		case "body":
			bonded = bonded && s.Reach != "enclosed"
		}
		f := figure.Is(&bondExpected, s, bonded)
		f.Witness = bench.Trace(r.Path(s.Name))
		out = append(out, f)
	}
	return out
}

// bondReading tells whether the reading is one of a bond: ground pin against
// the chassis or a touchable body, over wire alone.
func bondReading(b *bench.Bench, rd *sheet.Reading, target string) extent {
	if rd.Kind != "resistance" || !joins(rd, sheet.PlugGround, target) {
		return never
	}
	if !b.Sheet.HasWiring() {
		return always
	}
	return inStates(b, rd, func(st bench.State) bool {
		return b.Circuit(st).Reach(rd.A, bench.GroundPath).Has(rd.B[0])
	})
}

// bondFound is what the readings of one bond say: of each how many ohms, or what
// it lacks.
type bondFound struct {
	rd   *sheet.Reading
	ohms quantity.Range
	cord quantity.Range // what the cord's own conductor has of it
	need *figure.Need
}

// bondsOf lists the readings of a bond; none where nobody took one.
func bondsOf(b *bench.Bench, s figure.Subject) []bondFound {
	var out []bondFound
	for _, rd := range ofKind(b, "resistance") {
		of := bondReading(b, rd, s.Name)
		if of == never {
			continue
		}
		found := bondFound{rd: rd}
		if found.ohms, found.need = bondOhms(b, rd); of == partly {
			need := unsaid(rd)
			found.need = &need
		}
		found.cord, _ = b.CordConductor()
		out = append(out, found)
	}
	return out
}

// mostLeads is the most that leads may have where a bond is read, in Ω, and
// takenThere the share of what leads and cord have that a reading must show to
// have been taken through them (both: rule of the bond).
const (
	mostLeads  = 1
	takenThere = 0.9
	cordAt     = 20 // °C
)

// bondOhms is what a reading says of a bond, or what it lacks to say anything.
func bondOhms(b *bench.Bench, rd *sheet.Reading) (quantity.Range, *figure.Need) {
	lacks := func(what, how string) (quantity.Range, *figure.Need) {
		return quantity.Range{}, &figure.Need{What: what, How: how}
	}
	r, ok, why := rd.True()
	cord, known := b.CordConductorAt(quantity.Exact(cordAt, quantity.Temperature))
	leads := quantity.Range{Dim: quantity.Resistance}
	if rd.Drop == nil && rd.With != nil {
		leads = rd.With.Leads
	}
	switch {
	case !ok:
		n := useless(rd, why)
		return quantity.Range{}, &n
	case rd.Series():
		return lacks("one reading of "+rd.Name, "a bond read by time has no one value; read it while you move the cord, and write the highest")
	case rd.Drop == nil && !rd.With.LeadsKnown:
		return lacks("the leads of "+rd.With.Name, nullLeads)
	case !(leads.High <= mostLeads):
		return lacks("a reading of "+rd.Name+" with other leads", fmt.Sprintf("leads of %s hide a bond; at most %s", leads, ohmsOf(mostLeads)))
	case !known:
		return lacks("size and length of the cord", "add size: and length: under cord:, size as 18 AWG or 0.75 mm²")
	}
	least := takenThere * (leads.Low + cord.Low)
	shown := rd.Last()
	tooLittle := !(shown.Value.High >= least) || !(r.High >= takenThere*cord.Low) // or the leads were read too high
	if !shown.OL && !shown.Over && tooLittle {
		return lacks("resistance between "+rd.Name+", read from the pin of the plug",
			fmt.Sprintf("%s was read, and leads and cord alone have %s: the reading was not taken there", shown.Value, ohmsOf(leads.Low+cord.Low)))
	}
	return r, nil
}

// bondFigures gives a figure for each reading of a bond, and one that is missing
// where there is none.
func bondFigures(b *bench.Bench, d *figure.Def, value func(figure.Subject, bondFound) figure.Figure) []figure.Figure {
	var out []figure.Figure
	for _, s := range bondSubjects(b) {
		all := bondsOf(b, s)
		for _, found := range all {
			f := value(s, found)
			f.Def, f.Of = d, s
			if found.need != nil {
				f = figure.NotKnown(d, s, *found.need)
			}
			f.At = found.rd.At
			out = append(out, f)
		}
		if len(all) == 0 {
			out = append(out, figure.NotKnown(d, s, figure.Need{
				What: fmt.Sprintf("resistance between plug.ground and %s", s.Name),
				How: "a meter that reads milliohms, its leads nulled, from the ground pin of the plug, moving the cord along its length; " +
					"or the volts that a current of 1 A drops there (drop:), the probes inside the clips"}))
		}
	}
	return out
}

// bondTrace is the path of a bond as a finger would follow it.
func bondTrace(b *bench.Bench, s figure.Subject) []string {
	return bench.Trace(b.Circuit(bench.ClosedState()).Reach([]string{sheet.PlugGround}, bench.GroundPath).Path(s.Name))
}

// computeBondRoom is what the region's own limit leaves: of the whole path, or of
// what lies beyond the cord's own conductor.
func computeBondRoom(b *bench.Bench) []figure.Figure {
	bond := b.Sheet.Region.Bond
	return bondFigures(b, &bondRoom, func(s figure.Subject, found bondFound) figure.Figure {
		length, _ := b.Sheet.CordValue("length")
		limit, path := bond.Limit(length), "the whole path"
		if !bond.Whole {
			limit, path = limit.Add(found.cord), fmt.Sprintf("the whole path, %s beyond the cord's conductor", ohmsOf(bond.Ohms))
		}
		f := figure.Figure{Range: limit.Sub(found.ohms), Witness: bondTrace(b, s), From: []figure.Basis{b.Sheet.Region.From["bond"]}}
		f.Note = fmt.Sprintf("read %s; the limit here is %s for %s", found.ohms, limit, path)
		f.Finer = finerMeter(found.rd, found.ohms)
		f.Trace = []string{fmt.Sprintf("the meter saw %s", found.ohms), fmt.Sprintf("the conductor of the cord has %s", found.cord),
			fmt.Sprintf("limit %s, less what was seen: %s to %s", limit, ohmsOf(f.Range.Low), ohmsOf(f.Range.High))}
		return f
	})
}

// computeBondBeyondCord takes the cord's own conductor off each reading.
func computeBondBeyondCord(b *bench.Bench) []figure.Figure {
	return bondFigures(b, &bondBeyondCord, func(s figure.Subject, found bondFound) figure.Figure {
		f := figure.Figure{Range: found.ohms.Sub(found.cord), Witness: bondTrace(b, s)}
		f.Note = fmt.Sprintf("read %s, of which the cord's own conductor has %s", found.ohms, found.cord)
		f.Trace, f.Finer = []string{f.Note}, finerMeter(found.rd, found.ohms)
		return f
	})
}

// finerMeter says which meter would know a bond well enough, where the one
// used has an error that is coarse against a bond: 1 % + 2 mΩ is what a
// milliohm meter of any make does.
func finerMeter(rd *sheet.Reading, r quantity.Range) *figure.Need {
	shown := rd.Last().Value.High
	half := (r.High - r.Low) / 2
	const fraction, amount = 0.01, 0.002
	fine := fraction*shown + amount
	switch {
	case rd.Last().OL || math.IsInf(half, 1) || math.IsInf(shown, 1):
		return nil
	case !(half > 5*fine):
		return &figure.Need{What: "less in that path", How: "a good meter was used, and the limit lies within its error; " +
			"clean every joint of the path to bright metal, then read again"}
	}
	return &figure.Need{What: "a finer reading of " + rd.Name + " in the place of this one, since the worst of several counts",
		How: fmt.Sprintf("the meter used is good to %s only here. An ohmmeter of 1 %% + 2 mΩ, leads nulled, knows %s to %s. "+
			"So do 1 A from a bench supply and a millivoltmeter: write that reading under drop:, with current: and fed-by:",
			quantity.Format(half, quantity.Resistance), quantity.Format(shown, quantity.Resistance), quantity.Format(fine, quantity.Resistance))}
}
