//go:build race

package main

// larger is how many times more memory the race detector may take.
const larger = 10
