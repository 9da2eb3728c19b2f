package handbook

import (
	"slices"
	"testing"

	"firstvolt/checks/quantity"
)

func q(t *testing.T, text string, d quantity.Dim) quantity.Range {
	t.Helper()
	r, err := quantity.Parse(text, d)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestRegionsBuiltIn(t *testing.T) {
	want := []string{"australia", "europe", "japan", "north-america", "switzerland", "united-kingdom"}
	if got := Regions(); !slices.Equal(got, want) {
		t.Errorf("regions %v, want %v", got, want)
	}
	q(t, "1 V", quantity.Voltage)
}
