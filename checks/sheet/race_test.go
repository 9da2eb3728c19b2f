//go:build race

package sheet

// slower is how many times slower the race detector may make a reading.
const slower = 15
