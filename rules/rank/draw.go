package rank

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// drawer draws weightings evenly from all that keep the order of the levels: a
// higher level never weighs less, equal levels are free between them, and level
// 0 weighs nothing unless every level is 0.
type drawer struct {
	rng    *rand.Rand
	ranked []int     // what may weigh anything, by falling level
	ties   [][]int   // the stretches of ranked that have one level
	cuts   []float64 // rising, 0 to 1, the last one 1
	w      []float64 // by priority
}

// newDrawer begins the same draw every time. Levels were checked.
func newDrawer(levels []float64) *drawer {
	d := &drawer{rng: rand.New(rand.NewPCG(1, 2)), w: make([]float64, len(levels))}
	none := slices.Max(levels) == 0
	for k, x := range levels {
		if x > 0 || none {
			d.ranked = append(d.ranked, k)
		}
	}
	slices.SortStableFunc(d.ranked, func(a, b int) int { return cmp.Compare(levels[b], levels[a]) })
	from := 0
	for to := 1; to <= len(d.ranked); to++ {
		if to == len(d.ranked) || levels[d.ranked[to]] != levels[d.ranked[from]] {
			d.ties = append(d.ties, d.ranked[from:to])
			from = to
		}
	}
	d.cuts = make([]float64, len(d.ranked))
	d.cuts[len(d.cuts)-1] = 1
	return d
}

// next gives a weighting, good until the next call. The gaps between points
// thrown evenly onto 0 to 1 are spread evenly over all sets of parts of 1. Each
// gap is shared alike by the first place, the first two places, and so on:
// weights then fall from place to place, and since the map is linear the
// spread stays even. A tie is broken in every way equally often.
func (d *drawer) next() []float64 {
	inner := d.cuts[:len(d.cuts)-1]
	for i := range inner {
		inner[i] = d.rng.Float64()
	}
	slices.Sort(inner)
	for _, tie := range d.ties {
		d.rng.Shuffle(len(tie), func(a, b int) { tie[a], tie[b] = tie[b], tie[a] })
	}
	weight := 0.0
	for i := len(d.ranked) - 1; i >= 0; i-- {
		gap := d.cuts[i]
		if i > 0 {
			gap -= d.cuts[i-1]
		}
		weight += gap / float64(i+1)
		d.w[d.ranked[i]] = weight
	}
	return d.w
}
