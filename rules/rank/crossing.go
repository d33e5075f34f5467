package rank

import "math"

// flat is the size below which a lead or its slope is taken for 0. Values are
// at most 1 and levels at most 5, so it stands far above their rounding.
const flat = 1e-12

// Crossing gives the level at which the winner's lead is gone as priority p
// moves up (step above 0) or down, the other levels staying as they are, and
// the id of the option that takes over past it: empty where the winner stays
// up to MaxLevel, or down to 0. ErrNoContender, ErrLength, ErrLevel, and as
// Winner.
func Crossing(options []Option, levels []float64, p int, step float64) (level float64, to string, err error) {
	tier, err := levelled(options, levels)
	if err != nil {
		return 0, "", err
	}
	weights, err := PriorityWeights(levels)
	if err != nil {
		return 0, "", err
	}
	winner, steepest := tier[first(tier, weights)], 0.0
	if step > 0 {
		level = MaxLevel
	}
	for _, rival := range tier {
		lead, slope := leadAlong(winner, rival, levels, p)
		if slope*step >= -flat {
			continue // the lead does not shrink this way
		}
		cut := -lead / slope
		nearer := (level - cut) * step
		// Of rivals that draw level at one point the steepest is ahead past it.
		if nearer > flat || to != "" && nearer >= -flat && math.Abs(slope) > steepest {
			level, to, steepest = cut, rival.ID, math.Abs(slope)
		}
	}
	// Rounding may put a tie that stands here a hair behind.
	if to != "" && (level-levels[p])*step < 0 {
		level = levels[p]
	}
	return level, to, nil
}

// leadAlong gives the lead of a over b, times the sum of the levels, as a
// straight line in the level of priority p.
func leadAlong(a, b Option, levels []float64, p int) (at0, slope float64) {
	for k, level := range levels {
		d := a.Values[k] - b.Values[k]
		if k == p {
			slope = d
		} else {
			at0 += level * d
		}
	}
	return at0, slope
}
