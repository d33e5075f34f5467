package budget

import (
	"cmp"
	"math"
	"slices"
)

// bound holds a price put on money (Lagrange multiplier) and what follows from
// it. With every option worth value - price x cost, each place has a best one;
// slack is how much a set falls short of those. No set within the limit is
// worth more than upper minus its slack, whatever the price, so rounding the
// price costs sharpness and never correctness. Everything is in whole
// numbers: value is scaled up by 2^shift, and the price with it.
type bound struct {
	shift  uint
	price  int64   // scaled value per counted unit of cost
	prefix []int64 // best scaled worth of the first i places
	upper  int64   // scaled value that no set within the limit exceeds
	greedy []int32 // a set within the limit, often good
	value  int64   // its value, not scaled
}

// roomBits bounds each of the three sums that meet in upper.
const roomBits = 60

// newBound expects the limit to lie between the cheapest and the dearest sum.
func (p *problem) newBound(limit int64) *bound {
	b := &bound{greedy: p.cheapestChoice()}
	steepness := p.fill(limit, b.greedy)
	b.value = p.valueOf(b.greedy)

	most := int64(1)
	for _, items := range p.items {
		// Values rise along the items, so the ends hold the largest sizes.
		most += max(absolute(items[0].value), absolute(items[len(items)-1].value))
	}
	for b.shift < 20 && most <= 1<<(roomBits-b.shift-1) {
		b.shift++
	}
	highest := float64(int64(1)<<roomBits) / float64(max(p.dearest(), limit, 1))
	b.price = int64(math.Floor(min(steepness*float64(int64(1)<<b.shift), highest)))

	b.prefix = make([]int64, len(p.items)+1)
	for i, items := range p.items {
		best := b.worth(items[0].cost, items[0].value)
		for _, it := range items[1:] {
			best = max(best, b.worth(it.cost, it.value))
		}
		b.prefix[i+1] = b.prefix[i] + best
	}
	b.upper = b.prefix[len(p.items)] + b.price*limit
	return b
}

func (b *bound) worth(cost, value int64) int64 { return value<<b.shift - b.price*cost }

// slack says how far a set for the first n places falls short of the best
// worth they could have; never negative and never falling as places are added.
func (b *bound) slack(n int, cost, value int64) int64 {
	return b.prefix[n] - b.worth(cost, value)
}

// short is how far a complete value stays below the upper bound.
func (b *bound) short(value int64) int64 { return b.upper - value<<b.shift }

// rise is one step up the convex hull of a place's options.
type rise struct {
	place, to   int32
	cost, value int64
	steepness   float64
}

// fill spends the limit on the steepest rises first, starting from the set in
// chosen, and returns the steepness of the first rise that no longer fits (0
// when all do): the price of money in the linear relaxation. It goes on with
// rises that still fit, for a better set to start from.
func (p *problem) fill(limit int64, chosen []int32) float64 {
	var rises []rise
	for i, items := range p.items {
		rises = append(rises, hull(int32(i), items)...)
	}
	slices.SortStableFunc(rises, func(a, b rise) int { return cmp.Compare(b.steepness, a.steepness) })
	left := limit - p.cheapest()
	stopped := make([]bool, len(p.items))
	price := 0.0
	for _, r := range rises {
		if stopped[r.place] {
			continue
		}
		if r.cost > left {
			// Later rises of this place build on this one.
			stopped[r.place] = true
			price = max(price, r.steepness)
			continue
		}
		left -= r.cost
		chosen[r.place] = r.to
	}
	return price
}

// hull lists the rises between the options on the upper convex hull, steepest
// first. Floats are enough: it only steers the search.
func hull(place int32, items []item) []rise {
	steep := func(a, b int32) float64 {
		return float64(items[b].value-items[a].value) / float64(items[b].cost-items[a].cost)
	}
	on := []int32{0}
	for j := int32(1); j < int32(len(items)); j++ {
		for len(on) > 1 && steep(on[len(on)-2], on[len(on)-1]) <= steep(on[len(on)-1], j) {
			on = on[:len(on)-1]
		}
		on = append(on, j)
	}
	rises := make([]rise, 0, len(on)-1)
	for k := 1; k < len(on); k++ {
		a, b := on[k-1], on[k]
		rises = append(rises, rise{place, b, items[b].cost - items[a].cost, items[b].value - items[a].value, steep(a, b)})
	}
	return rises
}

func absolute(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}
