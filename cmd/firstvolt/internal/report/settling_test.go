package report

import (
	"slices"
	"testing"

	"firstvolt/checks/figure"
)

func TestHowStandsOnceAfterAllThatIsDoneSo(t *testing.T) {
	got := settling([]figure.Need{{What: "volts across A", How: "feed B"}, {What: "volts across C", How: "feed B"},
		{What: "volts of D", How: "read them"}, {What: "E"}, {What: "F"}})
	want := []string{"volts across A", "volts across C: feed B", "volts of D: read them", "E", "F"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
