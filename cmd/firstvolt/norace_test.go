//go:build !race

package main

const larger = 1
