package handbook

import (
	"math"
	"slices"

	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// CapacitorClass is one class of safety capacitor.
type CapacitorClass struct {
	Class   string         // X1 … Y4
	Impulse float64        // V, the impulse test of 1 µF and less; 0: none
	Shrinks figure.Basis   // why over 1 µF the impulse divides by √(C/µF); empty where it does not
	Rated   quantity.Range // V, the rated voltages of the class
	Mains   float64        // V, highest nominal mains it serves; +Inf: its own rating decides
	Bridges []string       // line, basic, reinforced
	Basis   figure.Basis
}

type capacitors struct {
	classes []CapacitorClass
	pairs   map[string]figure.Basis
	none    figure.Basis
}

// classNames are the classes of the format.
var classNames = []string{"X1", "X2", "X3", "Y1", "Y2", "Y3", "Y4"}

func capacitorTable() table {
	volts := of(quantity.Voltage)
	return open("capacitor.yaml",
		must("classes", rowsOf(must("class", words(classNames...)), may("impulse", volts), may("shrinks", plain), may("rated", volts), may("mains", volts),
			must("bridges", listOf(words("line", "basic", "reinforced"))))),
		must("pairs", rowsOf(must("class", words(classNames...)))))
}

var theCapacitors = sync1(func() *capacitors {
	t := capacitorTable()
	c := &capacitors{pairs: map[string]figure.Basis{}, none: t.from["none"]}
	for _, n := range t.rows("classes") {
		k := CapacitorClass{
			Class: n.Word("class"), Impulse: high(n, "impulse", 0), Shrinks: t.from[n.Word("shrinks")],
			Rated: quantity.Unknown(quantity.Voltage), Mains: high(n, "mains", math.Inf(1)), Basis: t.basis(n),
		}
		if r, ok := span(n, "rated"); ok {
			k.Rated = r
		}
		k.Bridges = texts(n.Get("bridges"))
		c.classes = append(c.classes, k)
	}
	for _, n := range t.rows("pairs") {
		c.pairs[n.Word("class")] = t.basis(n)
	}
	return c
})

// Class finds a class of safety capacitor by its name.
func Class(name string) (CapacitorClass, bool) {
	for _, k := range theCapacitors().classes {
		if k.Class == name {
			return k, true
		}
	}
	return CapacitorClass{}, false
}

// ClassFits tells whether one capacitor of the class may stand in the role
// (line, basic, reinforced) on mains of that nominal voltage in V, and whose
// word that is. No class, an unknown class and an unknown voltage fit nowhere.
func ClassFits(class, role string, mains float64) (bool, figure.Basis) {
	k, ok := Class(class)
	if !ok {
		return false, theCapacitors().none
	}
	return slices.Contains(k.Bridges, role) && mains > 0 && mains <= k.Mains, k.Basis
}

// PairFits tells whether two capacitors of the class, of one type and value,
// in series count as reinforced insulation.
func PairFits(class string) (bool, figure.Basis) {
	basis, ok := theCapacitors().pairs[class]
	if !ok {
		return false, theCapacitors().none
	}
	return true, basis
}

// ImpulseTest is the impulse in V that a capacitor of the class and farads has
// been tested with; 0 for a class that is not impulse tested.
func ImpulseTest(class string, farads float64) (float64, bool) {
	k, ok := Class(class)
	if !ok || !(farads > 0) {
		return 0, false
	}
	if k.Shrinks.Source != "" && farads > 1e-6 {
		return k.Impulse / math.Sqrt(farads*1e6), true
	}
	return k.Impulse, true
}
