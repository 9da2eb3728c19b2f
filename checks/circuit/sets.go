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

// lists holds a list of numbers for each of some nodes, all in one piece.
type lists struct {
	first []int32 // first[n]..first[n+1] is the list of node n in all
	all   []int32
}

// listAt makes the lists of n nodes of what each gives, twice the same: a
// number i for the list at a node.
func listAt(n int, each func(put func(at, i int32))) lists {
	l := lists{first: make([]int32, n+2)}
	each(func(at, _ int32) { l.first[at+2]++ })
	for t := 2; t < len(l.first); t++ {
		l.first[t] += l.first[t-1]
	}
	l.all = make([]int32, l.first[n+1])
	each(func(at, i int32) {
		l.all[l.first[at+1]] = i
		l.first[at+1]++
	})
	return l
}

// at is the list of one node.
func (l lists) at(node int32) []int32 { return l.all[l.first[node]:l.first[node+1]] }
