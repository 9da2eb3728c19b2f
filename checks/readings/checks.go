// Package readings says what was measured and looked at, with what
// uncertainty, and how it agrees with what the parts and the other readings
// predict. Limits stand in the rulebook; what current a person would feel is
// asked elsewhere, for no ohmmeter sees a capacitor.
package readings

import "firstvolt/checks/bench"

// Checks lists the figures of this room.
var Checks = []bench.Check{
	{Def: &bondExpected, Compute: computeBondExpected},
	{Def: &bondRoom, Compute: computeBondRoom},
	{Def: &bondBeyondCord, Compute: computeBondBeyondCord},
	{Def: &plugOn, Compute: computePlugOn},
	{Def: &mainsSwitch, Compute: computeMainsSwitch},
	{Def: &plugOff, Compute: computePlugOff},
	{Def: &plugToChassis, Compute: computePlugToChassis},
	{Def: &predicted, Compute: computePredicted},
	{Def: &disagreement, Compute: computeDisagreement},
	{Def: &readsMore, Compute: computeReadsMore},
	{Def: &eitherWrong, Compute: computeEitherWrong},
	{Def: &mainsInsulation, Compute: computeMainsInsulation},
	{Def: &facesPrimary, Compute: computeFacesPrimary},
	{Def: &primaryInsulation, Compute: computePrimaryInsulation},
	{Def: &offChassis, Compute: computeOffChassis},
	{Def: &chassisInsulation, Compute: computeChassisInsulation},
	{Def: &trend, Compute: computeTrend},
	{Def: &hasSeries, Compute: computeHasSeries},
	{Def: &capacitanceOff, Compute: computeCapacitance},
	{Def: &capacitanceElsewhere, Compute: computeCapacitanceElsewhere},
	{Def: &continuous, Compute: computeContinuous},
	{Def: &hasBand, Compute: computeHasBand},
	{Def: &outsideBand, Compute: computeOutsideBand},
	{Def: &hasHalves, Compute: computeHasHalves},
	{Def: &halves, Compute: computeHalves},
	{Def: &turnsToCompare, Compute: computeTurnsToCompare},
	{Def: &turnsRatio, Compute: computeTurns},
	{Def: &used, Compute: computeUsed},
	{Def: &inDate, Compute: computeInDate},
	{Def: &readBond, Compute: computeReadBond},
	{Def: &leadsKnown, Compute: computeLeadsKnown},
	{Def: &fresh, Compute: computeFresh},
	{Def: &receptacle, Compute: computeReceptacle},
	{Def: &inspectionGood, Compute: computeInspectionGood},
}
