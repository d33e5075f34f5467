package rank

import (
	"cmp"
	"math"
	"slices"
)

// A reader keeps about three reasons apart (Cowan 2010: 3 to 5 things at once),
// and they should carry most of the lead.
const (
	maxReasons    = 3
	enoughOfALead = 0.8
)

// Reason is what one priority adds to the lead of one option over another, in
// points: above 0 it speaks for the option, below 0 against it.
type Reason struct {
	Priority int
	Points   float64
}

// Explanation says why one option stands before another.
type Explanation struct {
	// LeadPoints is the gap in score; All, by priority, adds up to it.
	LeadPoints float64
	All        []Reason
	// For holds the largest reasons, at most three, stopping once they cover
	// four fifths of the lead.
	For []Reason
	// Covered is the sum of For as a share of the lead. It passes 1 when reasons
	// against eat part of the lead, and is 0 when there is no lead to cover.
	Covered float64
	// Enough says that For covers at least four fifths of a lead.
	Enough bool
	// Against is the largest reason the other way, nil if nothing speaks against.
	Against *Reason
}

// Explain compares two options of the winner's tier, usually the winner and
// the runner-up, by the differences weight times (value of id - value of
// rival). Options outside the tier are told apart by exclusion or target, not
// by differences. ErrNotContender, ErrNoContender, ErrLength, ErrWeight, and as
// Rank.
func Explain(options []Option, weights []float64, id, rival string) (Explanation, error) {
	tier, err := weighed(options, weights)
	if err != nil {
		return Explanation{}, err
	}
	a, err := find(tier, id)
	if err != nil {
		return Explanation{}, err
	}
	b, err := find(tier, rival)
	if err != nil {
		return Explanation{}, err
	}
	var e Explanation
	for k, w := range weights {
		points := 100 * w * (tier[a].Values[k] - tier[b].Values[k])
		e.All = append(e.All, Reason{Priority: k, Points: points})
		e.LeadPoints += points
	}
	e.pick()
	return e, nil
}

// pick fills For and Against from All.
func (e *Explanation) pick() {
	sorted := slices.Clone(e.All)
	slices.SortStableFunc(sorted, func(a, b Reason) int { return cmp.Compare(grains(b.Points), grains(a.Points)) })
	if last := slices.MinFunc(sorted, func(a, b Reason) int { return cmp.Compare(a.Points, b.Points) }); last.Points < -scoreGrain {
		e.Against = &last
	}
	sum, lead := 0.0, math.Max(e.LeadPoints, 0)
	for _, r := range sorted {
		full := lead > scoreGrain && sum >= enoughOfALead*lead-scoreGrain
		if r.Points <= scoreGrain || len(e.For) == maxReasons || full {
			break
		}
		e.For = append(e.For, r)
		sum += r.Points
	}
	if lead > scoreGrain {
		e.Covered = sum / lead
		e.Enough = sum >= enoughOfALead*lead-scoreGrain
	}
}
