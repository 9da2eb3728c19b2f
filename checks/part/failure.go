package part

import "fmt"

// Failure is one way in which a part fails, as what it changes inside: two
// terminals that it joins, or an element that it takes out.
type Failure struct {
	Way     Way
	A, B    string // the terminals it joins, of a contact those it lies between; of a pin A alone
	Element string // that it takes out, or the contact that sticks
	Pole    int    // of a switch, from 1
}

// Way is how a part fails.
type Way uint8

// The ways to fail.
const (
	Short        Way = iota + 1 // from end to end
	Inside                      // from one electrode to another
	Open                        // an element is out
	Parted                      // a pin makes no contact
	Bridged                     // a fuse replaced by wire
	Stuck                       // a pole that no longer moves, as it stands
	ContactStuck                // a contact of a selector that no longer moves, as it stands
	ToFrame                     // insulation to the frame
	ToCase                      // line to the case
	Across                      // line to line
	Insulated                   // windings and their insulation: Windings tell which
)

// Failures are the ways in which the part fails.
func (p *Part) Failures() []Failure {
	if p.Kind.Failures == nil {
		return nil
	}
	return p.Kind.Failures(p)
}

// fails are failures that are the same for every part of a kind.
func fails(f ...Failure) func(*Part) []Failure { return func(*Part) []Failure { return f } }

// shortsOrOpens are the failures of a part of two ends.
func shortsOrOpens(p *Part) []Failure {
	a, b, _ := p.Kind.Through(p)
	return []Failure{{Way: Short, A: a, B: b}, {Way: Open, Element: p.Name}}
}

// heaterFails are those of a heater.
func heaterFails(p *Part) []Failure {
	return []Failure{{Way: Inside, A: "h1", B: "cathode"}, {Way: Open, Element: p.Name + " heater"}}
}

func rectifierFails(p *Part) []Failure {
	if p.Word("of") != "" {
		return shortsOrOpens(p)
	}
	out := heaterFails(p)
	for _, plate := range []string{"plate", "plate-1", "plate-2"} {
		for _, k := range []string{"cathode", "h1"} {
			out = append(out, Failure{Way: Inside, A: plate, B: k})
		}
	}
	return out
}

func polesStick(p *Part) (out []Failure) {
	t := p.Terminals()
	for i := 0; i+1 < len(t); i += 2 {
		out = append(out, Failure{Way: Stuck, A: t[i], B: t[i+1], Element: fmt.Sprintf("%s %s-%s", p.Name, t[i], t[i+1]), Pole: i/2 + 1})
	}
	return out
}

func contactsStick(p *Part) (out []Failure) {
	seen := map[[2]string]bool{}
	for _, pos := range p.Positions() {
		for _, pair := range p.Joined(pos) {
			if !seen[pair] {
				seen[pair] = true
				out = append(out, Failure{Way: ContactStuck, A: pair[0], B: pair[1], Element: fmt.Sprintf("%s %s-%s", p.Name, pair[0], pair[1])})
			}
		}
	}
	return out
}

func pinsPart(p *Part) (out []Failure) {
	for _, pin := range p.Pins() {
		out = append(out, Failure{Way: Parted, A: pin, Element: p.Name + " " + pin})
	}
	return out
}
