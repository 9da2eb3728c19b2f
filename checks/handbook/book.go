package handbook

import (
	"maps"
	"path"
	"slices"
	"sync"

	"firstvolt/checks/strict"
)

// Book is a set of regions.
type Book struct{ Regions map[string]*RegionData }

// sync1 is a function that makes its value once.
func sync1[T any](f func() T) func() T { return sync.OnceValue(f) }

// Default is the book of the regions built in. It is shared: use With to add.
var Default = sync1(func() *Book {
	b := &Book{map[string]*RegionData{}}
	entries, err := files.ReadDir("regions")
	if err != nil {
		panic(err)
	}
	for _, e := range entries {
		file := path.Join("regions", e.Name())
		data, err := files.ReadFile(file)
		if err != nil {
			panic(err)
		}
		r, problems := LoadRegion(file, data)
		if len(problems) > 0 {
			panic(problems[0].String()) // the tests read every file that is built in
		}
		b.Regions[r.Name] = r
	}
	return b
})

// With is the book with one more region, or another of the same name; the
// book itself stays as it is.
func (b *Book) With(r *RegionData) *Book {
	more := &Book{maps.Clone(b.Regions)}
	if more.Regions == nil {
		more.Regions = map[string]*RegionData{}
	}
	more.Regions[r.Name] = r
	return more
}

// Region finds a region by its name.
func (b *Book) Region(name string) (*RegionData, bool) {
	r, ok := b.Regions[name]
	return r, ok
}

// Names are the names of the regions, sorted.
func (b *Book) Names() []string { return slices.Sorted(maps.Keys(b.Regions)) }

// Schemes are the colour schemes of all regions, each once with the regions
// that recognise it, in the order of the regions' names.
func (b *Book) Schemes() []Scheme {
	var out []Scheme
	for _, name := range b.Names() {
		for _, s := range b.Regions[name].Schemes {
			i := slices.IndexFunc(out, func(o Scheme) bool {
				return slices.Equal(o.Hot, s.Hot) && slices.Equal(o.Neutral, s.Neutral) && slices.Equal(o.Ground, s.Ground)
			})
			if i < 0 {
				s.Regions = nil
				out = append(out, s)
				i = len(out) - 1
			}
			out[i].Regions = append(out[i].Regions, name)
		}
	}
	return out
}

// Region finds a region of the default book.
func Region(name string) (*RegionData, bool) { return Default().Region(name) }

// Regions are the names of the regions of the default book, sorted.
func Regions() []string { return Default().Names() }

// NearestRegion is the region that a mistyped name most likely means, or "".
func NearestRegion(name string) string { return strict.Nearest(name, Regions()) }
