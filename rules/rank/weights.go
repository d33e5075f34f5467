package rank

import (
	"fmt"
	"math"
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

// PriorityWeights gives weights proportional to levels of 0 to MaxLevel. When
// every level is 0 nothing was preferred and the weights are equal. ErrEmpty,
// ErrLevel.
func PriorityWeights(levels []float64) ([]float64, error) {
	if err := checkLevels(levels); err != nil {
		return nil, err
	}
	sum := 0.0
	for _, x := range levels {
		sum += x
	}
	if sum == 0 {
		return EqualWeights(len(levels))
	}
	w := make([]float64, len(levels))
	for k, x := range levels {
		w[k] = x / sum
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
