package rank

import "fmt"

// MaxRegionPriorities bounds the exact shares: beyond it the number of pieces,
// and of ways to break ties, grows past what a screen can wait for.
const MaxRegionPriorities = 8

// Region is a set of weightings: simplices of equal size, each given by its
// corners. Make one with AnyWeights or InOrder.
type Region struct {
	n         int
	simplices [][][]float64
}

// AnyWeights is the region of all weightings of n priorities. ErrEmpty, ErrTooMany.
func AnyWeights(n int) (Region, error) {
	if n < 1 {
		return Region{}, fmt.Errorf("%w: %d priorities", ErrEmpty, n)
	}
	group := make([]int, min(n, MaxRegionPriorities+1))
	for k := range group {
		group[k] = k
	}
	return Order{group}.Region(n)
}

// InOrder is the region of all weightings that respect the order of the
// levels: a higher level never weighs less, equal levels are free between
// them, level 0 weighs nothing. ErrEmpty, ErrLevel, ErrTooMany.
func InOrder(levels []float64) (Region, error) {
	o, err := OrderOf(levels)
	if err != nil {
		return Region{}, err
	}
	return o.Region(len(levels))
}

// Region gives all weightings of n priorities that respect the order. Without
// ties it is one simplex with corners (1,0,..), (1/2,1/2,0,..) and so on. A tie
// in first place only adds corners; a later tie is split into the ways to break
// it, all of one size, so a mean over them is exact. ErrEmpty, ErrOrder,
// ErrTooMany.
func (o Order) Region(n int) (Region, error) {
	if o.size() > MaxRegionPriorities {
		return Region{}, fmt.Errorf("%w: %d, at most %d", ErrTooMany, o.size(), MaxRegionPriorities)
	}
	if err := o.check(n); err != nil {
		return Region{}, err
	}
	groups := make(Order, 0, len(o))
	for _, g := range o {
		if len(g) > 0 {
			groups = append(groups, g)
		}
	}
	chains := [][]int{nil}
	for _, group := range groups[1:] {
		var longer [][]int
		for _, c := range chains {
			for _, p := range permutations(group) {
				longer = append(longer, append(append([]int(nil), c...), p...))
			}
		}
		chains = longer
	}
	r := Region{n: n}
	for _, c := range chains {
		r.simplices = append(r.simplices, corners(groups[0], c, n))
	}
	return r, nil
}

// corners gives the corners of the weightings in which every priority of top
// weighs at least chain[0], that at least chain[1], and so on. Such a weighting
// is a sum of "all of top and the chain so far, alike", plus something extra
// for each of top, which makes these the only corners.
func corners(top, chain []int, n int) [][]float64 {
	var out [][]float64
	for _, k := range top {
		corner := make([]float64, n)
		corner[k] = 1
		out = append(out, corner)
	}
	prefix := append([]int(nil), top...)
	for _, k := range chain {
		prefix = append(prefix, k)
		corner := make([]float64, n)
		for _, j := range prefix {
			corner[j] = 1 / float64(len(prefix))
		}
		out = append(out, corner)
	}
	return out
}

// Centre gives the mean of all weightings in the region; for an order it is
// the rank-order-centroid weighting. Nil for the zero Region.
func (r Region) Centre() []float64 {
	if len(r.simplices) == 0 {
		return nil
	}
	c := make([]float64, r.n)
	for _, s := range r.simplices {
		for _, corner := range s {
			for k, w := range corner {
				c[k] += w / float64(len(s)*len(r.simplices))
			}
		}
	}
	return c
}

// permutations lists the orders of items, by which is placed first.
func permutations(items []int) [][]int {
	if len(items) == 0 {
		return [][]int{nil}
	}
	var out [][]int
	for i, head := range items {
		rest := append(append([]int(nil), items[:i]...), items[i+1:]...)
		for _, p := range permutations(rest) {
			out = append(out, append([]int{head}, p...))
		}
	}
	return out
}
