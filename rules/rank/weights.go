package rank

import (
	"fmt"
	"math"
	"slices"
)

// MaxLevel is the highest priority level: 0 does not matter, 5 matters most.
const MaxLevel = 5

// sumSlack is how far weights or shares may miss 1 before they are refused:
// far above rounding, far below anything a person could have meant.
const sumSlack = 1e-9

// EqualWeights gives 1/n for each of n priorities (ErrEmpty for n < 1). Equal
// weights are the usual sanity line: a winner that also leads with them does
// not hang on the weighting.
func EqualWeights(n int) ([]float64, error) {
	if n < 1 {
		return nil, fmt.Errorf("%w: %d priorities", ErrEmpty, n)
	}
	w := make([]float64, n)
	for k := range w {
		w[k] = 1 / float64(n)
	}
	return w, nil
}

// Proportional scales raw importances, not negative and not all 0, to weights.
func Proportional(raw []float64) ([]float64, error) {
	if len(raw) == 0 {
		return nil, fmt.Errorf("%w: no importances", ErrEmpty)
	}
	largest := slices.Max(raw)
	for k, x := range raw {
		if !finite(x) || x < 0 {
			return nil, fmt.Errorf("%w: importance %d is %v", ErrWeight, k, x)
		}
	}
	if largest == 0 {
		return nil, fmt.Errorf("%w: every importance is 0", ErrWeight)
	}
	w, sum := make([]float64, len(raw)), 0.0
	for k, x := range raw {
		w[k] = x / largest // first, so that the sum cannot overflow
		sum += w[k]
	}
	for k := range w {
		w[k] /= sum
	}
	return w, nil
}

// PriorityWeights gives weights proportional to levels of 0 to MaxLevel. When
// every level is 0 nothing was preferred: the weights are equal and equal is
// true, so that the reader can be told. ErrEmpty, ErrLevel.
func PriorityWeights(levels []float64) (w []float64, equal bool, err error) {
	if err := checkLevels(levels); err != nil {
		return nil, false, err
	}
	if slices.Max(levels) == 0 {
		w, err := EqualWeights(len(levels))
		return w, true, err
	}
	w, err = Proportional(levels)
	return w, false, err
}

// ROC gives the rank-order-centroid weights of n priorities, most important
// first: w_k = (1/n) sum_{j=k..n} 1/j (Barron & Barrett, Management Science
// 42(11), 1996). They are the centre of all weightings that fit the order, so
// no figure is invented. ErrEmpty for n < 1.
func ROC(n int) ([]float64, error) {
	if n < 1 {
		return nil, fmt.Errorf("%w: %d priorities", ErrEmpty, n)
	}
	w, tail := make([]float64, n), 0.0
	for k := n; k >= 1; k-- { // smallest terms first loses least
		tail += 1 / float64(k)
		w[k-1] = tail / float64(n)
	}
	return w, nil
}

func checkLevels(levels []float64) error {
	if len(levels) == 0 {
		return fmt.Errorf("%w: no priorities", ErrEmpty)
	}
	for k, x := range levels {
		if !(x >= 0 && x <= MaxLevel) {
			return fmt.Errorf("%w: priority %d is %v", ErrLevel, k, x)
		}
	}
	return nil
}

func checkWeights(w []float64) error {
	if len(w) == 0 {
		return fmt.Errorf("%w: no weights", ErrEmpty)
	}
	sum := 0.0
	for k, x := range w {
		if !(x >= 0 && x <= 1+sumSlack) {
			return fmt.Errorf("%w: weight %d is %v", ErrWeight, k, x)
		}
		sum += x
	}
	if math.Abs(sum-1) > sumSlack {
		return fmt.Errorf("%w: they add up to %v", ErrWeight, sum)
	}
	return nil
}
