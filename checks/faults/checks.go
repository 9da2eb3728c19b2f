// Package faults solves the mains circuit of a set on the bench, sound and with
// every single fault: what a person would feel who touches metal of it, what
// opens, and when. It sets no limit on what may be felt but those that the
// handbook publishes, and says nothing of direct current, of rectified or
// striking parts beyond that they are not solved here, nor of the charge that
// is left between the pins of a plug, which ratings ask for.
package faults

import (
	"firstvolt/checks/bench"
)

// Checks lists the figures of this room.
var Checks = []bench.Check{
	{Def: reachedDef, Compute: computeReached},
	bench.Check{Def: soundDef, Compute: touched(soundDef, soundly(false))}.OnSupply(),
	bench.Check{Def: offDef, Compute: touched(offDef, soundly(true))}.OnSupply(),
	bench.Check{Def: faultDef, Compute: touched(faultDef, ofOther)}.OnSupply(),
	bench.Check{Def: branchTouchDef, Compute: touched(branchTouchDef, ofBranch)}.OnSupply(),
	{Def: layerDef, Compute: computeLayer},
	{Def: guardedDef, Compute: computeGuarded},
	bench.Check{Def: stayDef, Compute: computeStays}.OnSupply(),
	bench.Check{Def: branchDef, Compute: computeBranch}.OnSupply(),
	{Def: servesDef, Compute: computeServes},
	{Def: countsDef, Compute: computeCounts},
	bench.Check{Def: standingDef, Compute: computeStanding}.OnSupply(),
}
