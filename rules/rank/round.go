package rank

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Tenths is a number of points in whole tenths. Whole counts add up exactly
// where floats such as 0.1 do not.
type Tenths int

// Points gives the tenths as points.
func (t Tenths) Points() float64 { return float64(t) / 10 }

// RoundParts rounds the sum of parts to a tenth and the parts by largest
// remainder, so that the printed parts add up to the printed score. Each part
// moves by less than a tenth. Parts may be negative. ErrEmpty, ErrParts.
func RoundParts(parts []float64) (score Tenths, tenths []Tenths, err error) {
	if len(parts) == 0 {
		return 0, nil, fmt.Errorf("%w: no parts", ErrEmpty)
	}
	scaled, sum := make([]float64, len(parts)), 0.0
	for i, p := range parts {
		// Beyond this size a float no longer holds tenths; no score comes near.
		if !(math.Abs(p) <= 1e9) {
			return 0, nil, fmt.Errorf("%w: part %d is %v", ErrParts, i, p)
		}
		scaled[i] = p * 10
		sum += p
	}
	whole := int(math.Round(sum * 10))
	for _, n := range largestRemainder(scaled, whole) {
		tenths = append(tenths, Tenths(n))
	}
	return Tenths(whole), tenths, nil
}

// RoundTo100 turns shares that add up to 1 into whole counts out of 100 by
// largest remainder. Equal remainders go to the larger share, then to the
// earlier one. ErrEmpty, ErrShare.
func RoundTo100(shares []float64) ([]int, error) {
	if len(shares) == 0 {
		return nil, fmt.Errorf("%w: no shares", ErrEmpty)
	}
	scaled, sum := make([]float64, len(shares)), 0.0
	for i, s := range shares {
		if !(s >= 0 && s <= 1+sumSlack) {
			return nil, fmt.Errorf("%w: share %d is %v", ErrShare, i, s)
		}
		scaled[i] = 100 * s
		sum += s
	}
	if math.Abs(sum-1) > sumSlack {
		return nil, fmt.Errorf("%w: they add up to %v", ErrShare, sum)
	}
	return largestRemainder(scaled, 100), nil
}

// largestRemainder rounds xs down and hands the units missing from whole to
// the largest fractions. whole must be the rounded sum of xs.
func largestRemainder(xs []float64, whole int) []int {
	counts, byRest, missing := make([]int, len(xs)), make([]int, len(xs)), whole
	rest := make([]float64, len(xs))
	for i, x := range xs {
		// A whole number left a hair short has the largest rest and comes back.
		floor := math.Floor(x)
		counts[i], byRest[i], rest[i] = int(floor), i, grains(x-floor)
		missing -= counts[i]
	}
	slices.SortStableFunc(byRest, func(a, b int) int {
		return cmp.Or(cmp.Compare(rest[b], rest[a]), cmp.Compare(xs[b], xs[a]))
	})
	for i := 0; i < missing; i++ {
		counts[byRest[i%len(byRest)]]++
	}
	return counts
}
