package judging

import (
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
)

// What comes of items is handed on in their order, whichever is done first, and
// the work runs ahead of its reader by a few items only.
func TestSideBySideKeepsOrderAndLittleElse(t *testing.T) {
	items := make([]int, 500)
	for i := range items {
		items[i] = i
	}
	var begun atomic.Int64
	var got []int
	for n := range SideBySide(items, func(i int) int {
		begun.Add(1)
		for range i % 7 {
			runtime.Gosched()
		}
		return i
	}) {
		got = append(got, n)
		if ahead, most := int(begun.Load())-len(got), 4*runtime.GOMAXPROCS(0)+2; ahead > most {
			t.Fatalf("%d items are begun that nobody has read, more than %d", ahead, most)
		}
	}
	if !slices.Equal(got, items) {
		t.Error(got)
	}
}

// Several items are worked on at a time: each waits here for another.
func TestSideBySideIsSideBySide(t *testing.T) {
	old := runtime.GOMAXPROCS(2)
	defer runtime.GOMAXPROCS(old)
	meet := make(chan bool)
	for range SideBySide([]bool{true, false}, func(gives bool) bool {
		if gives {
			meet <- true
		} else {
			<-meet
		}
		return true
	}) {
	}
}

// A reader that has seen enough ends the work.
func TestSideBySideEndsWithItsReader(t *testing.T) {
	var begun atomic.Int64
	for range SideBySide(make([]int, 1000), func(int) int { return int(begun.Add(1)) }) {
		break
	}
	if most := int64(4*runtime.GOMAXPROCS(0) + 2); begun.Load() > most {
		t.Errorf("%d items begun, more than %d", begun.Load(), most)
	}
}
