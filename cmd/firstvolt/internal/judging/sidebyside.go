package judging

import (
	"iter"
	"runtime"
)

// SideBySide does the work of every item on all cores and hands on what comes
// of it in the order of the items. What was handed on is not kept, and the work
// runs ahead of its reader by no more than a few items, so a long list takes no
// more memory than a short one. A panic in the work is met by the reader.
func SideBySide[In, Out any](items []In, work func(In) Out) iter.Seq[Out] {
	type result struct {
		out   Out
		fault any
	}
	return func(yield func(Out) bool) {
		ahead := make(chan chan result, 2*runtime.GOMAXPROCS(0))
		hands := make(chan struct{}, runtime.GOMAXPROCS(0))
		stop := make(chan struct{})
		defer close(stop)
		go func() {
			defer close(ahead)
			for _, item := range items {
				one := make(chan result, 1)
				select {
				case <-stop:
					return
				case ahead <- one:
				}
				hands <- struct{}{}
				go func() {
					var r result
					defer func() {
						r.fault = recover()
						<-hands
						one <- r
					}()
					r.out = work(item)
				}()
			}
		}()
		for one := range ahead {
			r := <-one
			if r.fault != nil {
				panic(r.fault)
			}
			if !yield(r.out) {
				return
			}
		}
	}
}
