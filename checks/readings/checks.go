// Package readings says what was measured and looked at, with what
// uncertainty, and how it agrees with what the parts and the other readings
// predict. Limits stand in the rulebook; what current a person would feel is
// asked elsewhere, for no ohmmeter sees a capacitor.
package readings

import "firstvolt/checks/bench"

// Checks lists the figures of this room.
var Checks = []bench.Check{
	{Def: &bondExpected, Compute: computeBondExpected},
	{Def: &bondBeyondCord, Compute: computeBondBeyondCord},
	{Def: &plugOn, Compute: computePlugOn},
	{Def: &mainsInsulation, Compute: computeMainsInsulation},
	{Def: &inspectionGood, Compute: computeInspectionGood},
}
