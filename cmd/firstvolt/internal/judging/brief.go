package judging

import (
	"os"
	"runtime/debug"
)

// Brief suits the process to a command that is over in a moment: memory is
// cheaper than sweeping it, unless GOGC says otherwise.
func Brief() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(500 << 20) // from here on it is swept as often as needs be
	}
}
