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
	earthed(bench.Check{Def: reachedDef, Compute: computeReached}),
	earthed(bench.Check{Def: soundDef, Compute: touched(soundDef, soundly(false))}).OnSupply(),
	earthed(bench.Check{Def: offDef, Compute: touched(offDef, soundly(true))}).OnSupply(),
	earthed(bench.Check{Def: faultDef, Compute: touched(faultDef, ofOther)}).OnSupply(),
	earthed(bench.Check{Def: branchTouchDef, Compute: touched(branchTouchDef, ofBranch)}).OnSupply(),
	{Def: layerDef, Compute: computeLayer},
	earthed(bench.Check{Def: guardedDef, Compute: computeGuarded}),
	earthed(bench.Check{Def: stayDef, Compute: computeStays}).OnSupply(),
	earthed(bench.Check{Def: branchDef, Compute: computeBranch}).OnSupply(),
	earthed(bench.Check{Def: servesDef, Compute: computeServes}),
	earthed(bench.Check{Def: countsDef, Compute: computeCounts}),
	earthed(bench.Check{Def: standingDef, Compute: computeStanding}).OnSupply(),
}
