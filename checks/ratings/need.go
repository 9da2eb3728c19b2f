package ratings

import (
	"fmt"

	"firstvolt/checks/bench"
	"firstvolt/checks/figure"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// lacks is the need for a key of a part: "F1 voltage".
func lacks(p *part.Part, key, how string) figure.Need {
	return figure.Need{What: p.Name + " " + key, How: how}
}

// lacksHeater is the need for what tells the heater of a tube.
func lacksHeater(p *part.Part) figure.Need {
	if p.Node.Get("type") == nil {
		return lacks(p, "type", "read it off the part or its data")
	}
	return lacks(p, "heater-voltage and heater-current", "from the data of the "+p.Word("type")+", a type that firstvolt does not know")
}

// lacksLoad is the need for what hangs on an outlet.
func lacksLoad(p *part.Part) figure.Need {
	return lacks(p, "load", "the most that is ever plugged into it, in amperes or watts")
}

// nominal is the region's nominal voltage at the set, which markings are
// compared with.
func nominal(b *bench.Bench) quantity.Range {
	v, _ := b.Mains()
	return quantity.Exact(v, quantity.Voltage)
}

// toEarth is the region's nominal voltage that a conductor of the set may have
// to earth, behind whatever the bench chain puts between.
func toEarth(b *bench.Bench) quantity.Range {
	nominal, _ := b.ToEarth()
	return nominal
}

// markedOver is the figure of a part's marked voltage over the supply's.
func markedOver(b *bench.Bench, p *part.Part, supply quantity.Range) figure.Figure {
	v, ok := p.Value("voltage")
	if !ok {
		return figure.Lacking(lacks(p, "voltage", "read it off the part"))
	}
	f := figure.Over(v, supply)
	f.Trace = append(raised(b, supply), f.Trace...)
	f.At = p.Node.Get("voltage").At()
	if supply.Low < supply.High {
		f.Settle = b.EarthSettles()
	}
	return f
}

// raised says that more volts count than lie between the conductors.
func raised(b *bench.Bench, supply quantity.Range) []string {
	if !(supply.High > nominal(b).High) {
		return nil
	}
	return []string{fmt.Sprintf("between the conductors %s; turned round, the unit upstream puts %s between one of them and earth", nominal(b), quantity.Format(supply.High, quantity.Voltage))}
}
