package circuit

import "slices"

// sets keeps which of the numbers 0..n-1 are joined: each points towards the
// one number that stands for its set.
type sets []int32

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = int32(i)
	}
	return s
}

// of is the number that stands for the set that holds i.
func (s sets) of(i int32) int32 {
	root := i
	for s[root] != root {
		root = s[root]
	}
	for s[i] != root {
		s[i], i = root, s[i]
	}
	return root
}

// join makes one set of two.
func (s sets) join(i, j int32) {
	s[s.of(i)] = s.of(j)
}

// sorted is the names of terminals in alphabetical order.
func (c *Circuit) sorted(numbers []int32) []string {
	names := make([]string, len(numbers))
	for i, t := range numbers {
		names[i] = c.terminals[t]
	}
	slices.Sort(names)
	return names
}
