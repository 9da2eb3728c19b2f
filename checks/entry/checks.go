// Package entry says how the mains comes in: what a finger finds when it
// follows hot, neutral and ground through the wiring, in every switch and
// selector position. It measures nothing; ratings and readings are other rooms.
package entry

import (
	"firstvolt/checks/bench"
	"firstvolt/checks/sheet"
)

// Checks lists the figures of this room.
var Checks = []bench.Check{
	{Def: hotWithoutFuse, Compute: setOnly(computeHotWithoutFuse)},
	{Def: approvedAhead, Compute: setOnly(firstOf(approvedAhead, func(a ahead) []string { return a.approved }))},
	{Def: switchAhead, Compute: setOnly(firstOf(switchAhead, func(a ahead) []string { return a.switched }))},
	{Def: lesserSwitchAhead, Compute: setOnly(computeLesserSwitch)},
	{Def: cordPastFuse, Compute: setOnly(computeCordPastFuse)},
	{Def: switchBehind, Compute: setOnly(computeSwitchBehind)},
	{Def: hotPastSwitch, Compute: setOnly(computeHotPastSwitch)},
	{Def: sidesOpened, Compute: setOnly(computeSidesOpened)},
	{Def: sidesFused, Compute: setOnly(computeSidesFused)},
	{Def: neutralReaches, Compute: setOnly(computeNeutralReaches)},
	{Def: groundByWire, Compute: computeGroundByWire},
	{Def: bonded, Compute: computeBonded},
	{Def: hasGroundMetal, Compute: computeHasGroundMetal},
	{Def: groundContactMissing, Compute: computeGroundContactMissing},
	{Def: groundTouches, Compute: computeGroundTouches},
	{Def: groundFastened, Compute: computeGroundFastened},
	{Def: groundLongest, Compute: computeGroundLongest},
	{Def: saysIsolated, Compute: computeSaysIsolated},
	{Def: hotJoins, Compute: joins(hotJoins, sheet.PlugHot)},
	{Def: neutralJoins, Compute: joins(neutralJoins, sheet.PlugNeutral)},
	{Def: deadShort, Compute: setOnly(computeDeadShort)},
	{Def: windingShorted, Compute: setOnly(computeWindingShorted)},
	{Def: windingsDriven, Compute: setOnly(computeWindingsDriven)},
	{Def: loadAcross, Compute: setOnly(computeLoadAcross)},
	{Def: colorWrong, Compute: computeColorWrong},
	{Def: colorsMixed, Compute: computeColorsMixed},
	{Def: colorsForeign, Compute: computeColorsForeign},
	{Def: colorsOld, Compute: computeColorsOld},
	{Def: colorsUsed, Compute: computeColorsUsed},
	{Def: plugKeyed, Compute: computePlugKeyed},
	{Def: keyedExists, Compute: computeKeyedExists},
	{Def: bothWaysJoint, Compute: setOnly(computeBothWaysJoint)},
	{Def: panelHolder, Compute: computePanelHolder},
	{Def: endOnCordSide, Compute: computeEndOnCordSide},
	{Def: calledTransformer, Compute: setOnly(computeCalledTransformer)},
	{Def: calledOther, Compute: setOnly(computeCalledOther)},
	{Def: liveBonded, Compute: computeLiveBonded},
	{Def: liveOnNeutral, Compute: computeLiveOnNeutral},
	{Def: liveOnOne, Compute: computeLiveOnOne},
	{Def: supplyEarthed, Compute: computeSupplyEarthed},
	{Def: isolatedUpstream, Compute: computeIsolatedUpstream},
	{Def: touchableOnLive, Compute: computeTouchableOnLive},
	{Def: impedanceThere, Compute: computeImpedanceThere},
	{Def: impedanceParts, Compute: computeImpedanceParts},
	bench.Check{Def: impedanceCurrent, Compute: computeImpedanceCurrent}.OnSupply(),
	{Def: unmatedLive, Compute: computeUnmated},
	{Def: turnedEndangers, Compute: computeTurned},
	{Def: outletTrue, Compute: computeOutletTrue},
	{Def: metalOnLine, Compute: computeMetalOnLine},
	{Def: ownMetal, Compute: computeOwnMetal},
	{Def: shieldThroughCapacitor, Compute: computeShieldThroughCapacitor},
	{Def: partIdle, Compute: setOnly(computePartIdle)},
}
