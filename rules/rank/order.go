package rank

import (
	"fmt"
	"slices"
)

// Order is a ranking of priorities with ties: Order[0] holds those in first
// place, Order[1] those after them, and so on. A priority named in no group
// weighs nothing.
type Order [][]int

// OrderOf reads the order out of levels: higher first, equal levels tied. A
// level of 0 means "does not matter" and is left out, so it weighs exactly
// nothing; when every level is 0 all are tied. ErrEmpty, ErrLevel.
func OrderOf(levels []float64) (Order, error) {
	if err := checkLevels(levels); err != nil {
		return nil, err
	}
	var distinct []float64
	for _, x := range levels {
		if x > 0 && !slices.Contains(distinct, x) {
			distinct = append(distinct, x)
		}
	}
	if len(distinct) == 0 {
		distinct = []float64{0}
	}
	slices.Sort(distinct)
	slices.Reverse(distinct)
	o := make(Order, len(distinct))
	for k, x := range levels {
		if g := slices.Index(distinct, x); g >= 0 {
			o[g] = append(o[g], k)
		}
	}
	return o, nil
}

// Weights gives the rank-order-centroid weights of n priorities in this
// order. Tied ones share the mean of the places they take together, which is
// the centre of every way to break the tie. ErrEmpty, ErrOrder.
func (o Order) Weights(n int) ([]float64, error) {
	if err := o.check(n); err != nil {
		return nil, err
	}
	roc, err := ROC(o.size())
	if err != nil {
		return nil, err
	}
	w, next := make([]float64, n), 0
	for _, group := range o {
		mean := 0.0
		for range group {
			mean += roc[next] / float64(len(group))
			next++
		}
		for _, k := range group {
			w[k] = mean
		}
	}
	return w, nil
}

// size counts the priorities that weigh anything.
func (o Order) size() int {
	m := 0
	for _, group := range o {
		m += len(group)
	}
	return m
}

func (o Order) check(n int) error {
	if o.size() == 0 {
		return fmt.Errorf("%w: no priority in the order", ErrEmpty)
	}
	seen := make(map[int]bool, o.size())
	for _, group := range o {
		for _, k := range group {
			if k < 0 || k >= n || seen[k] {
				return fmt.Errorf("%w: priority %d among %d", ErrOrder, k, n)
			}
			seen[k] = true
		}
	}
	return nil
}
