// Package readings says what was measured and looked at, with what
// uncertainty, and how it agrees with what the parts and the other readings
// predict.
package readings

import "firstvolt/checks/bench"

// Checks lists the figures of this room.
var Checks = []bench.Check{}
