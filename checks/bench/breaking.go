package bench

import (
	"firstvolt/checks/figure"
	"firstvolt/checks/handbook"
	"firstvolt/checks/part"
	"firstvolt/checks/quantity"
)

// Breaks is the current in A that a fuse interrupts at so many volts: stamped
// on it (of no basis then), or by its standard and body. lack is the key that
// leaves it unknown: not there, or of a fuse for less than the volts, or of one
// whose standard states nothing for it.
func Breaks(p *part.Part, volts float64) (amps quantity.Range, basis figure.Basis, lack string) {
	if marked, ok := p.Value("voltage"); !ok || marked.Low < volts {
		return amps, basis, "voltage"
	}
	if stamped, ok := p.Value("breaking"); ok {
		return stamped, basis, ""
	}
	rating, ok := p.Value("rating")
	if !ok {
		return amps, basis, "rating"
	}
	if p.Word("standard") == "" {
		return amps, basis, "standard"
	}
	class := p.Word("breaking")
	if class == "" {
		class = p.Word("body")
	}
	low, basis, okLow := handbook.BreakingCapacity(p.Word("standard"), class, rating.Low, volts)
	high, _, okHigh := handbook.BreakingCapacity(p.Word("standard"), class, rating.High, volts)
	if !okLow || !okHigh {
		return amps, figure.Basis{}, "breaking"
	}
	return quantity.Between(low, high, quantity.Current), basis, ""
}
