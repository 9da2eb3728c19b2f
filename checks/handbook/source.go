package handbook

import (
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
)

// Source is what is taken of a mains circuit where no sheet says it: ranges
// whose dangerous end is for the asker to choose.
type Source struct {
	Conductor    quantity.Range // Ω, one conductor between service and receptacle
	Installation quantity.Range // Ω, earth electrode of a TT installation
	Service      quantity.Range // Ω, earth electrode of the service
	Impedance    quantity.Range // Ω, neutral to earth of an IT system
	Isolator     quantity.Range // F, winding to winding of an isolating transformer
	Winding      quantity.Range // F, primary to core and other windings of a set's transformer
	Stray        quantity.Range // F, wiring to metal beside it
	Filter       quantity.Range // Ω, one winding of a mains filter
	Added        quantity.Range // share that no-load volts may lie above loaded ones
	Leakage      quantity.Range // leakage reactance, share of rated impedance
	// From says where each is from: by conductor, installation, service,
	// impedance, isolator, winding, stray, filter, transformer.
	From map[string]figure.Basis
}

func sourceTable() table {
	ohms, farads, share := of(quantity.Resistance), of(quantity.Capacitance), of(quantity.Fraction)
	return open("source.yaml",
		must("conductor", rowsOf(must("resistance", ohms))),
		must("electrodes", rowsOf(must("of", words("installation", "service", "impedance")), must("resistance", ohms))),
		must("capacitance", rowsOf(must("of", words("isolator", "winding", "stray")), must("value", farads))),
		must("filter", rowsOf(must("resistance", ohms))),
		must("transformer", rowsOf(must("added", share), must("leakage", share))))
}

var theSource = sync1(func() *Source {
	t := sourceTable()
	s := &Source{From: map[string]figure.Basis{}}
	for _, key := range []string{"conductor", "electrodes", "capacitance", "filter", "transformer"} {
		for _, n := range t.rows(key) {
			of := n.Word("of")
			if of == "" {
				of = key
			}
			s.From[of] = t.basis(n)
			r, _ := span(n, "resistance")
			c, _ := span(n, "value")
			switch key + " " + n.Word("of") {
			case "conductor ":
				s.Conductor = r
			case "electrodes installation":
				s.Installation = r
			case "electrodes service":
				s.Service = r
			case "electrodes impedance":
				s.Impedance = r
			case "capacitance isolator":
				s.Isolator = c
			case "capacitance winding":
				s.Winding = c
			case "capacitance stray":
				s.Stray = c
			case "filter ":
				s.Filter = r
			case "transformer ":
				s.Added, _ = span(n, "added")
				s.Leakage, _ = span(n, "leakage")
			}
		}
	}
	return s
})

// MainsSource is what is taken of the supply and of parts whose inside no
// sheet describes.
func MainsSource() Source { return *theSource() }
