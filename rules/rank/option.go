package rank

import (
	"cmp"
	"fmt"
)

// Option is one thing that can be chosen.
type Option struct {
	ID string
	// Values holds what the option is worth under each priority, 0 to 1.
	Values []float64
	// MeetsTarget puts an option in the tier before all those that fall short.
	MeetsTarget bool
	// Excluded keeps an option out of every score; the rules say why. Its
	// values are not looked at, since they may not exist.
	Excluded bool
	// CostCents breaks a tied score: the cheaper option comes first.
	CostCents int64
}

// checkOptions returns the number of priorities all options agree on.
func checkOptions(options []Option) (n int, err error) {
	if len(options) == 0 {
		return 0, fmt.Errorf("%w: no options", ErrEmpty)
	}
	seen := make(map[string]bool, len(options))
	for _, o := range options {
		if o.ID == "" || seen[o.ID] {
			return 0, fmt.Errorf("%w: %q", ErrID, o.ID)
		}
		seen[o.ID] = true
		if o.Excluded {
			continue
		}
		if n == 0 {
			n = len(o.Values)
		}
		if len(o.Values) == 0 {
			return 0, fmt.Errorf("%w: option %q has no values", ErrEmpty, o.ID)
		}
		if err := checkValues(o.Values, n); err != nil {
			return 0, fmt.Errorf("option %q: %w", o.ID, err)
		}
	}
	return n, nil
}

// contenders gives the options that some weighting could make win: those of
// the best tier that is not empty. Weights never lift an option out of its tier.
func contenders(options []Option) ([]Option, int, error) {
	n, err := checkOptions(options)
	if err != nil {
		return nil, 0, err
	}
	for _, meets := range []bool{true, false} {
		var tier []Option
		for _, o := range options {
			if !o.Excluded && o.MeetsTarget == meets {
				tier = append(tier, o)
			}
		}
		if len(tier) > 0 {
			return tier, n, nil
		}
	}
	return nil, 0, fmt.Errorf("%w: %d options", ErrNoContender, len(options))
}

// weighed is contenders with weights to go with them.
func weighed(options []Option, weights []float64) ([]Option, error) {
	tier, n, err := contenders(options)
	if err != nil {
		return nil, err
	}
	if len(weights) != n {
		return nil, fmt.Errorf("%w: %d weights for %d priorities", ErrLength, len(weights), n)
	}
	return tier, checkWeights(weights)
}

// levelled is weighed for levels.
func levelled(options []Option, levels []float64) ([]Option, error) {
	tier, n, err := contenders(options)
	if err != nil {
		return nil, err
	}
	if len(levels) != n {
		return nil, fmt.Errorf("%w: %d levels for %d priorities", ErrLength, len(levels), n)
	}
	return tier, checkLevels(levels)
}

// compare orders two scored options of one tier: higher score, then lower
// cost, then id, so that no two options ever compare equal.
func compare(a Option, aPoints float64, b Option, bPoints float64) int {
	return cmp.Or(
		cmp.Compare(grains(bPoints), grains(aPoints)),
		cmp.Compare(a.CostCents, b.CostCents),
		cmp.Compare(a.ID, b.ID),
	)
}

// first gives the place in tier of the option that leads under weights.
func first(tier []Option, weights []float64) int {
	best, bestPoints := 0, total(weights, tier[0].Values)
	for i := 1; i < len(tier); i++ {
		points := total(weights, tier[i].Values)
		if compare(tier[i], points, tier[best], bestPoints) < 0 {
			best, bestPoints = i, points
		}
	}
	return best
}

// Winner gives the id of the option that leads under weights. Those that fall
// short of the target never lead one that meets it. ErrEmpty, ErrID, ErrLength,
// ErrValue, ErrWeight, and ErrNoContender when every option is excluded.
func Winner(options []Option, weights []float64) (string, error) {
	tier, err := weighed(options, weights)
	if err != nil {
		return "", err
	}
	return tier[first(tier, weights)].ID, nil
}
