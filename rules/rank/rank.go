package rank

import (
	"cmp"
	"fmt"
	"slices"
)

// Ranked is one scored option in its place.
type Ranked struct {
	Option Option
	// Place counts from 1 through both tiers.
	Place int
	// ScorePoints is 0 to 100; Parts, in points, add up to it.
	ScorePoints float64
	Parts       []float64
	// BehindPoints is the gap to the first option of the same tier.
	BehindPoints float64
}

// Ranking is the order of the options that may be used, and apart from it
// those that may not, by id.
type Ranking struct {
	Ranked   []Ranked
	Excluded []Option
}

// Rank scores and orders options: those that meet the target before those
// that fall short, then by score, then the cheaper, then by id. The answer
// does not depend on the order in which options are given. A ranking with
// everything excluded is empty, not an error. ErrEmpty, ErrID, ErrLength,
// ErrValue, ErrWeight.
func Rank(options []Option, weights []float64) (Ranking, error) {
	n, err := checkOptions(options)
	if err != nil {
		return Ranking{}, err
	}
	if err := checkWeights(weights); err != nil {
		return Ranking{}, err
	}
	if n != 0 && n != len(weights) {
		return Ranking{}, fmt.Errorf("%w: %d weights for %d priorities", ErrLength, len(weights), n)
	}
	var r Ranking
	for _, o := range options {
		if o.Excluded {
			r.Excluded = append(r.Excluded, o)
			continue
		}
		points, parts, err := Score(weights, o.Values)
		if err != nil {
			return Ranking{}, err
		}
		r.Ranked = append(r.Ranked, Ranked{Option: o, ScorePoints: points, Parts: parts})
	}
	r.sort()
	return r, nil
}

func (r Ranking) sort() {
	slices.SortFunc(r.Excluded, func(a, b Option) int { return cmp.Compare(a.ID, b.ID) })
	slices.SortFunc(r.Ranked, func(a, b Ranked) int {
		return cmp.Or(
			cmp.Compare(tier(a.Option), tier(b.Option)),
			compare(a.Option, a.ScorePoints, b.Option, b.ScorePoints),
		)
	})
	lead := 0
	for i := range r.Ranked {
		if tier(r.Ranked[i].Option) != tier(r.Ranked[lead].Option) {
			lead = i
		}
		r.Ranked[i].Place = i + 1
		r.Ranked[i].BehindPoints = r.Ranked[lead].ScorePoints - r.Ranked[i].ScorePoints
	}
}

// tier is 0 for options that meet the target and 1 for those that fall short.
func tier(o Option) int {
	if o.MeetsTarget {
		return 0
	}
	return 1
}

// Winner gives the option in first place; ok is false when none is left.
func (r Ranking) Winner() (w Ranked, ok bool) {
	if len(r.Ranked) == 0 {
		return Ranked{}, false
	}
	return r.Ranked[0], true
}

// RunnerUp gives the second option of the winner's tier. An option of the
// other tier lost on the target, not on its score, and is no runner-up.
func (r Ranking) RunnerUp() (second Ranked, ok bool) {
	if len(r.Ranked) < 2 || tier(r.Ranked[1].Option) != tier(r.Ranked[0].Option) {
		return Ranked{}, false
	}
	return r.Ranked[1], true
}
