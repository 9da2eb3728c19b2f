// Package ratings says how the parts of the mains entry are rated beside what
// the supply and the set ask of them.
package ratings

import "firstvolt/checks/bench"

// Checks lists the figures of this room.
var Checks = []bench.Check{}
