package part

// Trait is something that a kind of part is or does. Whoever asks about kinds asks
// for traits; a new kind says here which of them it has, and is asked with the rest.
type Trait uint64

// Is tells whether a part has one of the traits.
func (p *Part) Is(t Trait) bool { return p.Kind.Traits&t != 0 }

// Where a part stands in the mains entry: one of them is true of every kind.
const (
	Contact  Trait = 1 << iota // joins like a wire while it is closed
	InLine                     // stands in a line conductor and leaves it nearly all of its volts
	Load                       // uses what the line feeds
	Bridge                     // lies between two points and passes no direct current
	Resister                   // a load or in line, as its ohms are
	Exposed                    // metal or an outlet: nothing of it is between two points
)

// Places are the traits of which each kind has one.
const Places = Contact | InLine | Load | Bridge | Resister | Exposed

// What a part does: at least one of them is true of every kind.
const (
	Fuses        Trait = Exposed << (iota + 1) // opens by heat and stays open
	Switches                                   // opened and closed by hand
	Selects                                    // joins what its position says
	Mates                                      // comes apart by hand, and maybe goes together turned
	Ties                                       // holds wires together
	Nonpolar                                   // a capacitor either way round
	Polar                                      // a capacitor one way round
	Filters                                    // coils in both lines, capacitors to line and case
	Clamps                                     // passes more the higher the volts
	Sparks                                     // strikes and then passes all
	Glows                                      // strikes and passes what its resistor lets through
	Lights                                     // a filament for light
	Ballasts                                   // holds the current of a string
	LimitsInrush                               // resists while it is cold
	Resists                                    // a resistance of its own
	Adjusts                                    // a resistance with a wiper
	Chokes                                     // a coil that smooths
	Excites                                    // a coil that magnetizes a loudspeaker
	MainsCore                                  // windings on a core, the line on one of them
	OutputCore                                 // windings on a core for sound
	TappedCore                                 // one winding on a core, line and load on its taps
	Rectifies                                  // passes one way
	Amplifies                                  // a tube with a grid
	Sounds                                     // a voice coil
	Turns                                      // a motor
	Feeds                                      // feeds another unit
	Metal                                      // metal that a hand may reach
	deeds        = iota
)

// How it is built.
const (
	// PlugsIn: it comes out of a socket or holder by hand (Part.PlugsIn for one part).
	PlugsIn Trait = Metal << (iota + 1)
	// OhmsUntold: its resistance no key, or often none, tells; a reading over it alone does.
	OhmsUntold
	// OnLine: a set that is fed without a transformer has one hanging on the line.
	OnLine
	// BearsVolts, BearsWatts, BearsAmps: what it can bear is marked so.
	BearsVolts
	BearsWatts
	BearsAmps
)

// Sets of traits that are asked together.
const (
	Deeds       = (Fuses<<deeds - 1) &^ (Fuses - 1)
	Capacitors  = Nonpolar | Polar
	HoldsCharge = Capacitors | Filters
	Suppresses  = Clamps | Sparks
	Strikes     = Suppresses | Glows
	Track       = Resists | Adjusts
	Tubes       = Amplifies | Rectifies
	Supplies    = MainsCore | TappedCore // a core that the line is on
	Isolates    = MainsCore | OutputCore // windings that only a core couples
	Cores       = Supplies | OutputCore  // windings on a core
)

// PlugsIn tells whether the part comes out of a socket or holder, so that a probe
// on its terminal touches the socket. A rectifier of metal is wired in.
func (p *Part) PlugsIn() bool { return p.Is(PlugsIn) && p.Word("of") == "" }

// GroundTerminal is the terminal that ground must reach: the contact that an outlet
// has for it, the metal of a case or frame. ok is false where the part has none.
func (p *Part) GroundTerminal() (string, bool) {
	if p.Kind.Ground == "" {
		return "", false
	}
	return p.Terminal(p.Kind.Ground)
}

// Named lists the names of the kinds that have one of the traits.
func Named(t Trait) (names []string) {
	for _, k := range kinds {
		if k.Traits&t != 0 {
			names = append(names, k.Name)
		}
	}
	return names
}
