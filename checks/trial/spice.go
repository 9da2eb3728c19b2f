package trial

import (
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// Spice is where ngspice lies. Without it the test is skipped, or fails where
// the environment says FIRSTVOLT_REFERENCES=required.
func Spice(t testing.TB) string {
	t.Helper()
	spice, err := exec.LookPath("ngspice")
	if err != nil {
		if os.Getenv("FIRSTVOLT_REFERENCES") == "required" {
			t.Fatal("ngspice is required and not installed")
		}
		t.Skip("ngspice is not installed")
	}
	return spice
}

// Volts reads a line that ngspice prints of a node: its name, and its volts, of
// which a second number is the imaginary part. ok is false for any other line.
func Volts(t testing.TB, line string) (node string, volts complex128, ok bool) {
	t.Helper()
	name, value, ok := strings.Cut(line, ") = ")
	if !ok || !strings.HasPrefix(name, "v(") {
		return "", 0, false
	}
	re, im, isComplex := strings.Cut(strings.TrimSpace(value), ",")
	if !isComplex {
		im = "0"
	}
	x, err1 := strconv.ParseFloat(re, 64)
	y, err2 := strconv.ParseFloat(im, 64)
	if err1 != nil || err2 != nil {
		t.Fatalf("ngspice printed %q", line)
	}
	return strings.TrimPrefix(name, "v("), complex(x, y), true
}
