package budget

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"battwright/rules/units"
)

// Total is the sum of several uncertain prices.
type Total struct {
	// Low, Typical and High add up the ends and the typical prices. The
	// typical sum is no middle: ranges that reach further up than down make
	// it likely to be passed.
	Low, Typical, High units.Cents
	// MeanCents is the average total; how the prices move together does not
	// change it.
	MeanCents float64
	// SDCents is the standard deviation when every price moves on its own.
	SDCents float64

	lines []triangle // those that have a spread, widest first
	grid  grid       // the spread of prices on their own
}

// Odds are two figures for the same question, the ends between which the
// truth lies in practice: Independent when each price moves on its own,
// Together when all are low or high at once (one seller, one region).
type Odds struct{ Independent, Together float64 }

// Amounts are two amounts for the same question; see Odds.
type Amounts struct{ Independent, Together units.Cents }

// Sum adds up price lines. The order of the lines changes nothing. Errors:
// ErrNoLines, ErrSize, ErrCost, ErrRange.
//
// Method: convolution on a grid (grid.go) for prices on their own, adding up
// the same point of every line for prices together. Against the exact piecewise
// polynomials the odds were within 0.00001 for 1 to 25 lines of all shapes
// tried.
func Sum(lines []units.Range[units.Cents]) (Total, error) {
	if len(lines) == 0 {
		return Total{}, ErrNoLines
	}
	if len(lines) > MaxLines {
		return Total{}, wrapf(ErrSize, "%d price lines, accepted up to %d", len(lines), MaxLines)
	}
	var t Total
	for _, r := range lines {
		if err := checkPrice(r); err != nil {
			return Total{}, err
		}
		t.Low, t.Typical, t.High = t.Low+r.Low, t.Typical+r.Typical, t.High+r.High
		if r.Low < r.High {
			t.lines = append(t.lines, triangleOf(r))
		}
	}
	slices.SortFunc(t.lines, func(a, b triangle) int {
		return cmp.Or(cmp.Compare(b.width, a.width), cmp.Compare(b.mode, a.mode))
	})
	t.moments()
	if len(t.lines) > 1 {
		t.grid = newGrid(t.lines, float64(t.High-t.Low)/cells)
	}
	return t, nil
}

func (t *Total) moments() {
	t.MeanCents = float64(t.Low)
	variance := 0.0
	for _, l := range t.lines {
		t.MeanCents += l.mean()
		variance += l.variance()
	}
	t.SDCents = math.Sqrt(variance)
}

// Within is the probability, 0 to 1, that the total stays at or below a
// budget. It never falls as the budget rises; 0 below Low and 1 from High on.
func (t Total) Within(budget units.Cents) Odds {
	switch {
	case budget >= t.High:
		return Odds{1, 1}
	case budget <= t.Low:
		return Odds{}
	}
	x := float64(budget - t.Low)
	return Odds{t.apart(x), t.together(x)}
}

func (t Total) apart(x float64) float64 {
	if len(t.lines) == 1 {
		return t.lines[0].share(x)
	}
	mean := t.MeanCents - float64(t.Low)
	return t.grid.at(t.grid.mean + (x-mean)*t.grid.sd/t.SDCents)
}

// together finds the share u at which all lines, each at its own u point, add
// up to x, by halving.
func (t Total) together(x float64) float64 {
	low, high := 0.0, 1.0
	for range 60 {
		if mid := (low + high) / 2; t.pointTogether(mid) <= x {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

func (t Total) pointTogether(u float64) float64 {
	sum := 0.0
	for _, l := range t.lines {
		sum += l.point(u)
	}
	return sum
}

// Percentile is the smallest budget that holds with at least the given
// probability, 0 to 1, in whole cents: 0.9 gives the amount that suffices 9
// times in 10. Error: ErrShare.
func (t Total) Percentile(share float64) (Amounts, error) {
	if math.IsNaN(share) || share < 0 || share > 1 {
		return Amounts{}, wrapf(ErrShare, "%v, accepted 0 to 1", share)
	}
	spread := int(t.High - t.Low)
	least := func(of func(Odds) float64) units.Cents {
		return t.Low + units.Cents(sort.Search(spread, func(c int) bool {
			return of(t.Within(t.Low+units.Cents(c))) >= share
		}))
	}
	return Amounts{
		Independent: least(func(o Odds) float64 { return o.Independent }),
		Together:    least(func(o Odds) float64 { return o.Together }),
	}, nil
}
