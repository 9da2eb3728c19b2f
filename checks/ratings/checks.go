// Package ratings says how the parts of the mains entry are rated beside what
// the supply and the set ask of them: fuse, switch, cord, safety capacitors,
// primary and outlet. It compares marks with the supply and the nameplate;
// what a part does in a fault is asked elsewhere.
package ratings

import (
	"slices"

	"firstvolt/checks/bench"
)

// Checks lists the figures of this room.
var Checks = append(marks, []bench.Check{
	{Def: onMainsDef, Compute: onMains},
	bench.Check{Def: fuseVoltageDef, Compute: fuseVoltage}.OnSupply(),
	{Def: fuseAllowedDef, Compute: fuseAllowed},
	{Def: fuseOverRunningDef, Compute: fuseOverRunning},
	{Def: fuseStepsDef, Compute: fuseSteps},
	{Def: fuseLoadDef, Compute: fuseLoad},
	bench.Check{Def: switchVoltsDef, Compute: switchVolts}.OnSupply(),
	{Def: switchAmpsDef, Compute: switchAmps},
	{Def: switchFuseDef, Compute: switchFuse},
	bridges(bridgesLineDef, func(p place) bool { return p.line }),
	bridges(bridgesChassisDef, func(p place) bool { return p.chassis }),
	bridges(bridgesHandDef, func(p place) bool { return p.accessible }),
	bridges(bridgesMainsDef, func(p place) bool { return p.line || p.chassis || p.accessible }),
	classed(lineClassDef, classFor("line")).OnSupply(),
	classed(chassisClassDef, classForChassis).OnSupply(),
	classed(handClassDef, classForHand).OnSupply(),
	{Def: fuseDelayDef, Compute: fuseDelay},
	bench.Check{Def: fuseBreakingDef, Compute: fuseBreaking}.OnSupply(),
	{Def: cordLoadDef, Compute: cordLoad},
	{Def: cordFuseDef, Compute: cordFuse},
	{Def: runSizedDef, Compute: runSized},
	{Def: runFuseDef, Compute: runFuse},
	{Def: groundSizedDef, Compute: groundSized},
	{Def: groundSizeDef, Compute: groundSize},
	{Def: cordDoubleDef, Compute: cordDouble},
	{Def: plugFusedDef, Compute: plugFused},
	{Def: plugFuseCordDef, Compute: plugFuseCord},
	{Def: plugFuseAdvisedDef, Compute: plugFuseAdvised},
	bench.Check{Def: capacitorVoltsDef, Compute: capacitorVolts}.OnSupply(),
	{Def: leakageAskedDef, Compute: leakageAsked},
	bench.Check{Def: leakageDef, Compute: leakage}.OnSupply(),
	{Def: acrossPinsDef, Compute: acrossPinsCheck},
	bench.Check{Def: unbledDef, Compute: unbled}.OnSupply(),
	{Def: varistorLineDef, Compute: varistorLine},
	{Def: varistorAheadDef, Compute: varistorAhead},
	{Def: suppressorOnDef, Compute: suppressorOn},
	bench.Check{Def: suppressorVoltsDef, Compute: suppressorVolts}.OnSupply(),
	{Def: windingOnLineDef, Compute: windingOnLine},
	bench.Check{Def: windingVoltsDef, Compute: windingVolts(windingVoltsDef, highestArriving)}.OnSupply(),
	bench.Check{Def: windingHighestDef, Compute: windingVolts(windingHighestDef, highestVolts)}.OnSupply(),
	{Def: supplyUnsaidDef, Compute: supplyUnsaid},
	{Def: tappedDef, Compute: tapped},
	bench.Check{Def: tapAboveDef, Compute: tapAbove}.OnSupply(),
	bench.Check{Def: tapBetterDef, Compute: tapBetter}.OnSupply(),
	{Def: positionOffDef, Compute: positionOff},
	{Def: selectorShortsDef, Compute: selectorShorts},
	{Def: sectionsDef, Compute: sectionsOnLine},
	{Def: inPhaseDef, Compute: inPhase},
	{Def: ironDef, Compute: iron},
	bench.Check{Def: fluxDef, Compute: flux(fluxDef, highestArriving)}.OnSupply(),
	bench.Check{Def: fluxHighestDef, Compute: flux(fluxHighestDef, highestVolts)}.OnSupply(),
	{Def: outletDef, Compute: outletLoads},
}...)

// marks are the figures of what parts bear.
var marks = slices.Concat(borneChecks(borneMarks[0]), borneChecks(borneMarks[1]), borneChecks(borneMarks[2]))
