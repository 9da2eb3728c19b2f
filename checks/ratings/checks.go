// Package ratings says how the parts of the mains entry are rated beside what
// the supply and the set ask of them: fuse, switch, cord, safety capacitors,
// primary and outlet. It compares marks with the supply and the nameplate;
// what a part does in a fault is asked elsewhere.
package ratings

import "firstvolt/checks/bench"

// Checks lists the figures of this room.
var Checks = []bench.Check{
	{Def: onMainsDef, Compute: onMains},
	{Def: fuseVoltageDef, Compute: fuseVoltage},
	{Def: fuseOverRunningDef, Compute: fuseOverRunning},
	{Def: fuseStepsDef, Compute: fuseSteps},
	{Def: fuseLoadDef, Compute: fuseLoad},
	{Def: switchVoltsDef, Compute: switchVolts},
	{Def: switchAmpsDef, Compute: switchAmps},
	{Def: switchFuseDef, Compute: switchFuse},
	bridges(bridgesLineDef, func(p place) bool { return p.line }),
	bridges(bridgesChassisDef, func(p place) bool { return p.chassis }),
	bridges(bridgesHandDef, func(p place) bool { return p.accessible }),
	bridges(bridgesMainsDef, func(p place) bool { return p.line || p.chassis || p.accessible }),
	classed(lineClassDef, classFor("line")),
	classed(chassisClassDef, classFor("basic")),
	classed(handClassDef, classForHand),
	{Def: fuseDelayDef, Compute: fuseDelay},
	{Def: fuseBreakingDef, Compute: fuseBreaking},
	{Def: cordLoadDef, Compute: cordLoad},
	{Def: cordFuseDef, Compute: cordFuse},
	{Def: cordDoubleDef, Compute: cordDouble},
	{Def: plugFusedDef, Compute: plugFused},
	{Def: plugFuseCordDef, Compute: plugFuseCord},
	{Def: plugFuseAdvisedDef, Compute: plugFuseAdvised},
	{Def: capacitorVoltsDef, Compute: capacitorVolts},
	{Def: leakageAskedDef, Compute: leakageAsked},
	{Def: leakageDef, Compute: leakage},
	{Def: acrossPinsDef, Compute: acrossPinsCheck},
	{Def: unbledDef, Compute: unbled},
	{Def: varistorLineDef, Compute: varistorLine},
	{Def: varistorAheadDef, Compute: varistorAhead},
	{Def: windingOnLineDef, Compute: windingOnLine},
	{Def: windingVoltsDef, Compute: windingVolts},
	{Def: tappedDef, Compute: tapped},
	{Def: tapRatioDef, Compute: tapRatio},
	{Def: tapNearerDef, Compute: tapNearer},
	{Def: selectorShortsDef, Compute: selectorShorts},
	{Def: sectionsDef, Compute: sectionsOnLine},
	{Def: inPhaseDef, Compute: inPhase},
	{Def: ironDef, Compute: iron},
	{Def: fluxDef, Compute: flux},
	{Def: outletDef, Compute: outletLoads},
}
