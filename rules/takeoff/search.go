package takeoff

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"
)

// improve closes the distance between the plan at hand and the lower bound:
// first by rounding the relaxation and searching what it leaves, then by
// searching the whole problem for each number of stock pieces in between. A
// search that ends without a plan raises the bound.
func (p problem) improve(s *solution, r relaxed, budget int) {
	if r.bound > 0 {
		for _, shift := range []float64{0, 0.25, 0.5} {
			p.round(s, r, shift, budget/10)
		}
	}
	for target := s.lb; target < stockUsed(s.fillings); target++ {
		f := p.newFinder(p.need, budget-s.steps)
		found := f.within(target)
		s.steps += f.steps
		switch {
		case found:
			s.fillings = f.fillings()
			return
		case f.cut:
			return
		}
		s.lb = target + 1
	}
}

// round uses each relaxed filling a whole number of times (its fraction plus
// shift, rounded down) and packs the rest as well as the share of the budget
// allows. Shifting up leaves less to pack.
func (p problem) round(s *solution, r relaxed, shift float64, budget int) {
	left := slices.Clone(p.need)
	var kept []filling
	for i, x := range r.times {
		n := int(math.Floor(x + shift + 1e-7))
		for j, c := range r.column[i] {
			if c > 0 {
				n = min(n, left[j]/c)
			}
		}
		if n <= 0 {
			continue
		}
		kept = append(kept, filling{n, r.column[i]})
		for j, c := range r.column[i] {
			left[j] -= n * c
		}
	}
	s.keepIfBetter(append(slices.Clone(kept), p.greedy(left)...))
	if stockUsed(s.fillings) == s.lb {
		return
	}
	f := p.newFinder(left, min(budget, DefaultBudget))
	if f.within(s.lb - stockUsed(kept)) {
		s.keepIfBetter(append(kept, f.fillings()...))
	}
	s.steps += f.steps
}

func (s *solution) keepIfBetter(f []filling) {
	if stockUsed(f) < stockUsed(s.fillings) {
		s.fillings = f
	}
}

// finder looks depth first for a packing into a given number of stock pieces.
// Each stock piece starts with the longest piece left, so no two orders of the
// same plan are tried; only fillings to which nothing left can be added are
// tried, since adding never hurts; and the offcuts may add up to no more than
// the stock has to spare.
type finder struct {
	p      problem
	left   []int
	chosen [][]int
	failed map[string]int // what was left -> stock pieces that were too few
	steps  int
	budget int
	cut    bool // ran out of budget: "not found" proves nothing
}

func (p problem) newFinder(need []int, budget int) *finder {
	return &finder{p: p, left: slices.Clone(need), failed: map[string]int{}, budget: budget}
}

func (f *finder) fillings() []filling {
	out := make([]filling, len(f.chosen))
	for i, c := range f.chosen {
		out[i] = filling{1, c}
	}
	return out
}

func (f *finder) within(stock int) bool {
	spare := stock*f.p.stock - f.p.total(f.left)
	if stock < 0 || spare < 0 {
		return false
	}
	first := slices.IndexFunc(f.left, func(n int) bool { return n > 0 })
	if first < 0 {
		return true
	}
	key := f.key()
	if tooFew, seen := f.failed[key]; seen && stock <= tooFew {
		return false
	}
	for _, c := range f.fillingsWith(first, spare) {
		if f.cut {
			return false
		}
		if f.try(c, stock) {
			return true
		}
	}
	if !f.cut {
		f.failed[key] = stock
	}
	return false
}

func (f *finder) try(count []int, stock int) bool {
	for i, n := range count {
		f.left[i] -= n
	}
	f.chosen = append(f.chosen, count)
	if f.within(stock - 1) {
		return true
	}
	f.chosen = f.chosen[:len(f.chosen)-1]
	for i, n := range count {
		f.left[i] += n
	}
	return false
}

func (f *finder) key() string {
	b := make([]byte, 0, 4*len(f.left))
	for _, n := range f.left {
		b = binary.AppendUvarint(b, uint64(n))
	}
	return string(b)
}

// fillingsWith lists the full fillings that hold one piece of size first and
// leave an offcut of at most spare: least offcut first, longer pieces first.
func (f *finder) fillingsWith(first, spare int) [][]int {
	e := &enumerator{f: f, count: make([]int, len(f.left)), spare: spare, after: make([]int, len(f.left)+1)}
	for i := len(f.left) - 1; i >= 0; i-- {
		e.after[i] = e.after[i+1] + f.left[i]*f.p.size[i]
	}
	e.from(first, f.p.stock, true)
	slices.SortStableFunc(e.found, func(a, b offcut) int { return cmp.Compare(a.waste, b.waste) })
	out := make([][]int, len(e.found))
	for i, o := range e.found {
		out[i] = o.count
	}
	return out
}

type offcut struct {
	waste int
	count []int
}

type enumerator struct {
	f     *finder
	count []int
	after []int // total length left from each size on
	spare int
	found []offcut
}

func (e *enumerator) from(i, room int, must bool) {
	f := e.f
	if f.steps == f.budget {
		f.cut = true
		return
	}
	f.steps++
	if room-e.after[i] > e.spare {
		return
	}
	for i < len(f.left) && (f.left[i] == 0 || f.p.size[i] > room) {
		i++
	}
	if i == len(f.left) {
		if room <= e.spare && e.full(room) {
			e.found = append(e.found, offcut{room, slices.Clone(e.count)})
		}
		return
	}
	least := 0
	if must {
		least = 1
	}
	for n := min(f.left[i], room/f.p.size[i]); n >= least; n-- {
		e.count[i] = n
		e.from(i+1, room-n*f.p.size[i], false)
	}
	e.count[i] = 0
}

// full says that no piece left would still fit.
func (e *enumerator) full(room int) bool {
	for i, n := range e.f.left {
		if n > e.count[i] && e.f.p.size[i] <= room {
			return false
		}
	}
	return true
}
