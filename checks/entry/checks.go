// Package entry says how the mains comes in: what a finger finds when it
// follows hot, neutral and ground through the wiring, in every switch position.
package entry

import "firstvolt/checks/bench"

// Checks lists the figures of this room.
var Checks = []bench.Check{}
