package rank

import (
	"fmt"
	"math"
)

// scoreGrain is the finest difference in points that counts. The same option
// scored in another order of summing differs in the last binary digits, and
// such a difference must not decide a place before cost and id do.
const scoreGrain = 1e-9

// Score gives 100 times the sum of weight times value, and each priority's
// part of it in points. The score is the plain sum of the parts in their
// order, so they add up to it exactly. ErrEmpty, ErrLength, ErrWeight, ErrValue.
func Score(weights, values []float64) (points float64, parts []float64, err error) {
	if err := checkWeights(weights); err != nil {
		return 0, nil, err
	}
	if err := checkValues(values, len(weights)); err != nil {
		return 0, nil, err
	}
	parts = make([]float64, len(weights))
	for k, w := range weights {
		parts[k] = 100 * w * values[k]
		points += parts[k]
	}
	return points, parts, nil
}

// AboutEqual says whether two scores lie less than under points apart, with
// rounding not counted against the gap.
func AboutEqual(a, b, under float64) bool {
	return math.Abs(a-b) < under-scoreGrain
}

// grains counts a score in the finest steps that matter. Comparing counts,
// unlike comparing within a tolerance, is transitive, which sorting needs.
func grains(points float64) float64 { return math.Round(points / scoreGrain) }

// total is Score for input already checked.
func total(weights, values []float64) float64 {
	points := 0.0
	for k, w := range weights {
		points += 100 * w * values[k]
	}
	return points
}

func checkValues(values []float64, n int) error {
	if len(values) != n {
		return fmt.Errorf("%w: %d values for %d priorities", ErrLength, len(values), n)
	}
	for k, v := range values {
		if !(v >= 0 && v <= 1) {
			return fmt.Errorf("%w: priority %d has %v", ErrValue, k, v)
		}
	}
	return nil
}
