// Peers prints how fast the program is beside well-known ones that do a part
// of the same work, measured side by side in one run: ratios say more than
// milliseconds, which hang on the machine. It is a module of its own, so that
// what it compares with is no dependency of the program.
//
//	cd testdata/peers && go run .
package main

import (
	"fmt"
	"os"
	"slices"
	"time"
)

func main() {
	failed := false
	for _, part := range []struct {
		name string
		run  func() error
	}{{"rules", compareRules}, {"budget", compareBudget}, {"frames", compareFrames}, {"start", compareStart}} {
		fmt.Printf("== %s\n", part.name)
		if err := part.run(); err != nil {
			fmt.Println("could not compare:", err)
			failed = true
		}
	}
	if failed {
		os.Exit(1)
	}
}

// perRun is the time of one run, the best of several rounds of many: what it
// takes when nothing else is going on.
func perRun(work func()) time.Duration {
	n := 1
	for {
		began := time.Now()
		for range n {
			work()
		}
		if time.Since(began) > 20*time.Millisecond || n > 1<<24 {
			break
		}
		n *= 2
	}
	best := time.Duration(1 << 62)
	for range 9 {
		began := time.Now()
		for range n {
			work()
		}
		best = min(best, time.Since(began)/time.Duration(n))
	}
	return best
}

// share gives the value that a share of all are not above.
func share(all []time.Duration, of float64) time.Duration {
	sorted := slices.Clone(all)
	slices.Sort(sorted)
	return sorted[min(len(sorted)-1, int(of*float64(len(sorted))))]
}
