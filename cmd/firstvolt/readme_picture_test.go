package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks/sheet"
)

// TestReadmePicture draws the entry of the README's sheet anew: its parts in
// the order in which the mains meets them on that sheet, in symbols of
// IEC 60617, the conductors told apart by their lines.
func TestReadmePicture(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(readmeSheets, "mantel.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	s, problems := sheet.Read("mantel.yaml", data)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if got := way(s); !slices.Equal(got, []string{"F1", "S1", "T1"}) {
		t.Fatalf("the mains meets %v", got)
	}
	got := picture(s)
	file := filepath.Join(readmeSheets, "entry.svg")
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil || !bytes.Equal(got, want) {
		t.Errorf("the picture is not that of the sheet: go test ./cmd/firstvolt -run Picture -update (%v)", err)
	}
}

// drawing collects the lines of a picture.
type drawing struct{ bytes.Buffer }

func (d *drawing) put(format string, args ...any) { fmt.Fprintf(d, "  "+format+"\n", args...) }

// The lines of the conductors: each has its own, so that no color is needed.
const (
	solid  = ""
	dashed = ` stroke-dasharray="10 5"`
	dotted = ` stroke-dasharray="1.5 6" stroke-linecap="round"`
)

func (d *drawing) path(style, way string) { d.put(`<path d="%s"%s/>`, way, style) }

func (d *drawing) text(x, y int, anchor, words string) {
	d.put(`<text x="%d" y="%d" text-anchor="%s">%s</text>`, x, y, anchor, words)
}

// fuse is the general symbol of a fuse, a rectangle with the line through it.
func (d *drawing) fuse(x, y int) {
	d.put(`<rect x="%d" y="%d" width="60" height="20" fill="none"/>`, x, y-10)
	d.path(solid, fmt.Sprintf("M%d %dh60", x, y))
}

// contact is a make contact, drawn open.
func (d *drawing) contact(x, y int) {
	d.path(solid, fmt.Sprintf("M%d %dl52 -24", x, y))
}

// coil is a winding of four half circles, from above to below.
func (d *drawing) coil(x, y, bulge int) {
	d.path(solid, fmt.Sprintf("M%d %d", x, y)+strings.Repeat(fmt.Sprintf("a12.5 12.5 0 0 %d 0 25", bulge), 4))
}

// frame is the connection to a chassis.
func (d *drawing) frame(x, y int) {
	d.path(solid, fmt.Sprintf("M%d %dh44M%d %dl-8 12M%d %dl-8 12M%d %dl-8 12", x-22, y, x-20, y, x+1, y, x+21, y))
}

// picture is the mains entry of a transformer set with one fuse and one switch.
func picture(s *sheet.Sheet) []byte {
	d := &drawing{}
	rating := func(part, key string) string { return s.Part(part).Word(key) }
	fmt.Fprint(d, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 300" width="760" height="300" role="img" aria-labelledby="t">
  <title id="t">Hot runs from the plug to the fuse, the switch and the primary; neutral runs straight back; ground goes to the chassis alone</title>
  <rect width="760" height="300" fill="#fff"/>
  <g stroke="#111" stroke-width="2.5" fill="none">
`)
	const hot, neutral, ground = 90, 190, 240
	for _, y := range []int{hot, neutral, ground} { // the pins of the plug
		d.put(`<rect x="94" y="%d" width="26" height="8" fill="#111" stroke="none"/>`, y-4)
	}
	d.path(solid, "M120 90h80")
	d.fuse(200, hot)
	d.path(solid, "M260 90h110")
	d.contact(370, hot)
	d.path(solid, "M430 90h150")
	d.coil(580, hot, 1)
	d.path(dashed, "M120 190h460")
	d.path(dotted, "M120 240h180v18")
	d.frame(300, ground+18)
	d.path(solid, "M606 84v112M614 84v112") // the core
	d.coil(640, 76, 0)
	d.path(solid, "M640 76h40M640 126h40M640 176h40")
	fmt.Fprint(d, `  </g>
  <g font-family="sans-serif" font-size="15" fill="#111">
`)
	d.text(84, hot+5, "end", "hot")
	d.text(84, neutral+5, "end", "neutral")
	d.text(84, ground+5, "end", "ground")
	d.text(196, hot-12, "end", "end")
	d.text(264, hot-12, "start", "side")
	d.text(230, hot-40, "middle", "1. fuse F1")
	d.text(230, hot+32, "middle", rating("F1", "rating")+" "+rating("F1", "speed"))
	d.text(400, hot-40, "middle", "2. switch S1")
	d.text(400, hot+32, "middle", rating("S1", "rating"))
	d.text(590, 40, "middle", "3. primary of T1")
	d.text(560, 145, "end", s.Part("T1").Winding("primary").Node.Word("voltage"))
	d.text(350, neutral-10, "middle", "neutral: straight back")
	d.text(335, ground+25, "start", "chassis: by itself, never opened")
	fmt.Fprint(d, "  </g>\n</svg>\n")
	return d.Bytes()
}
