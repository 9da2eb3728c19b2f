package ratings

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
)

// classed computes whether the class of each capacitor fits a role. An
// electrolytic has no such class and fits none.
func classed(name, says string, of []string, fits func(*bench.Bench, *part.Part, place) (bool, figure.Basis, []figure.Need)) bench.Check {
	return bench.EachPart(figure.Def{Name: name, Of: of, Present: true, Says: says}, func(b *bench.Bench, p *part.Part) figure.Figure {
		pl := places(b)[p]
		ok, basis, needs := fits(b, p, pl)
		f := figure.So(ok)
		if len(needs) > 0 {
			f = figure.Lacking(needs...)
		}
		f.Witness, f.From, f.Note = pl.witness, []figure.Basis{basis}, classWords(p, pl)
		if n := p.Node.Get("class"); n != nil {
			f.At = n.At()
		}
		return f
	}).OnSupply()
}

// classes are the figures of what the class of a capacitor may bridge.
var classes = []bench.Check{
	classed("class-for-line", "its safety class may bridge line conductors at this supply.", capacitors, classFor("line")),
	classed("class-for-chassis", "its safety class may bridge line and bonded metal at this supply.", capacitors, classForChassis),
	classed("class-for-hand", "its safety class may stand between line and a hand at this supply.", holds, classForHand),
}

func classWords(p *part.Part, pl place) string {
	if p.Is(part.Filters) {
		return "what is inside " + p.Name + " lies between the line and metal that nothing bonds"
	}
	words := fmt.Sprintf("%s is of class %s", p.Name, p.Word("class"))
	if p.Word("class") == "" {
		words = fmt.Sprintf("%s has no class on the sheet", p.Name)
	}
	if pl.second != nil {
		words += fmt.Sprintf("; it stands in series with %s, class %s", pl.second.Name, pl.second.Word("class"))
	}
	return words
}

// classFits is the class of one capacitor by itself: between line conductors at
// what lies between these, to metal at what a conductor has to earth.
func classFits(b *bench.Bench, p *part.Part, role string) (bool, figure.Basis, []figure.Need) {
	class, volts := p.Word("class"), toEarth(b)
	if role == "line" {
		volts = nominal(b)
	}
	fits, basis := handbook.ClassFits(class, role, volts.High)
	if class == "" && p.Is(part.Nonpolar) && !(role == "line" && tooSmall(p, volts)) {
		return false, basis, []figure.Need{lacks(p, "class", "the X or Y mark on its body. A body without a mark is class: none, and such a capacitor may not be here")}
	}
	if need := b.ToEarthNeed(); !fits && need != nil {
		if low, _ := handbook.ClassFits(class, role, volts.Low); low {
			return false, basis, []figure.Need{*need}
		}
	}
	return fits, basis, nil
}

func classFor(role string) func(*bench.Bench, *part.Part, place) (bool, figure.Basis, []figure.Need) {
	return func(b *bench.Bench, p *part.Part, _ place) (bool, figure.Basis, []figure.Need) {
		return classFits(b, p, role)
	}
}

// classForChassis takes a capacitor that may stand between line and bonded
// metal. One across the line or a contact may, while a double-pole switch is
// open, be in series with one that goes to the chassis: that one keeps them apart.
func classForChassis(b *bench.Bench, p *part.Part, at place) (bool, figure.Basis, []figure.Need) {
	fits, basis, needs := classFits(b, p, "basic")
	if fits || at.second == nil || !at.line {
		return fits, basis, needs
	}
	if other, otherBasis, otherNeeds := classFits(b, at.second, "basic"); other || len(otherNeeds) > 0 {
		return other, otherBasis, append(needs, otherNeeds...)
	}
	return false, basis, needs
}

// classForHand takes one capacitor that counts as reinforced, either of two in
// series, or two equal ones that do so together.
func classForHand(b *bench.Bench, p *part.Part, at place) (bool, figure.Basis, []figure.Need) {
	if p.Is(part.Filters) {
		_, basis := handbook.ClassFits("Y2", "reinforced", toEarth(b).High)
		return false, basis, []figure.Need{{What: "of which class the capacitors inside " + p.Name + " are", How: "no label says that they are Y1: bond the metal that its case is on, or take the filter out"}}
	}
	fits, basis, needs := classFits(b, p, "reinforced")
	second := at.second
	if fits || second == nil {
		return fits, basis, needs
	}
	other, otherBasis, otherNeeds := classFits(b, second, "reinforced")
	if other {
		return true, otherBasis, nil
	}
	if needs = append(needs, otherNeeds...); len(needs) > 0 {
		return false, basis, needs
	}
	pair, pairBasis := handbook.PairFits(p.Word("class"))
	own, _ := handbook.ClassFits(p.Word("class"), "basic", toEarth(b).High)
	if !pair || !own || p.Word("class") != second.Word("class") {
		return false, pairBasis, nil
	}
	for _, key := range []string{"value", "voltage"} {
		x, okX := p.Value(key)
		y, okY := second.Value(key)
		if !okX {
			needs = append(needs, lacks(p, key, "two in series must be alike"))
		}
		if !okY {
			needs = append(needs, lacks(second, key, "two in series must be alike"))
		}
		if okX && okY && x != y {
			return false, pairBasis, nil
		}
	}
	return true, pairBasis, needs
}
