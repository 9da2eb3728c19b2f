// Package ratings says how the parts of the mains entry are rated beside what
// the supply and the set ask of them: fuse, switch, cord, safety capacitors,
// primary and outlet. It compares marks with the supply and the nameplate;
// what a part does in a fault is asked elsewhere.
package ratings

import "firstvolt/checks/bench"

// Checks lists the figures of this room.
var Checks = bench.Room("ratings",
	borneChecks(borneMarks[0]), borneChecks(borneMarks[1]), borneChecks(borneMarks[2]),
	[]bench.Check{
		onMains, fuseVoltage.OnSupply(), fuseAllowed, fuseOverRunning, fuseSteps, fuseLoad,
		switchVolts.OnSupply(), switchAmps, switchFuse,
	},
	bridging, classes,
	[]bench.Check{
		fuseDelay, fuseBreaking.OnSupply(), cordLoad, cordFuse, runSized, runFuse, groundSized, groundSize, cordDouble,
		plugFused, plugFuseCord, plugFuseAdvised, capacitorVolts.OnSupply(), leakageAsked, leakage.OnSupply(),
		onPins, unbled.OnSupply(), varistorLine, varistorAhead, suppressorOn, suppressorVolts.OnSupply(), windingOnLine,
	},
	windingsVolts,
	[]bench.Check{
		supplyUnsaid, tapped, tapAbove, tapBetter, positionOff, selectorShorts, sectionsOnLine, inPhase, iron,
	},
	fluxes,
	[]bench.Check{outletLoads},
)
