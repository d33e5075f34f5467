package budget

import (
	"errors"

	"battwright/rules/units"
)

// Choice is the best set within a budget.
type Choice struct {
	// Set is the best set; when Missing is above 0, the cheapest one.
	Set Set
	// Missing is how much the cheapest set costs beyond the budget.
	Missing units.Cents
	// Rounded says that costs were counted in whole dollars, each rounded up:
	// the set is within the budget, and at least as good as the best one for
	// a budget smaller by 99 cents a place.
	Rounded bool
	// States counts the partial sets kept, over all passes.
	States int
}

// choose finds the best set of the plain knapsack within a budget in cents, leaving
// out partial sets that cannot reach it. Too small a budget is no error; Missing tells.
//
// Method: the gap that a set may leave to the Lagrangian bound is widened
// until the best set found proves that nothing left out can match it.
func (p *problem) choose(budget int64, maxStates int) (Choice, error) {
	if short := p.cheapest() - budget; short > 0 {
		return Choice{Set: p.set(p.cheapestChoice()), Missing: units.Cents(short)}, nil
	}
	picks, states, err := p.best(budget, maxStates)
	if errors.Is(err, ErrTooManyStates) {
		return p.chooseInDollars(budget, maxStates)
	}
	if err != nil {
		return Choice{}, err
	}
	return Choice{Set: p.set(picks), States: states}, nil
}

// chooseInDollars never does worse than the quick fill in cents, which also
// covers budgets that hold the cheapest set only to the cent.
func (p *problem) chooseInDollars(budget int64, maxStates int) (Choice, error) {
	quick := p.newBound(min(budget, p.dearest())).greedy
	c := Choice{Set: p.set(quick), Rounded: true}
	q := p.inDollars()
	dollars := budget / centsPerDollar
	if q.cheapest() > dollars {
		return c, nil
	}
	picks, states, err := q.best(dollars, maxStates)
	if err != nil {
		return Choice{}, err
	}
	c.States = states
	value, paid := q.valueOf(picks), q.paidOf(picks)
	better := value - p.valueOf(quick)
	if better > 0 || better == 0 && paid <= p.paidOf(quick) {
		c.Set = q.set(picks)
	}
	return c, nil
}

// best solves for a limit that holds at least the cheapest set. Every set
// worth at least V falls short of the bound by at most short(V), so once a
// pass that allows a gap finds a V with short(V) within that gap, no set as
// good was left out, ties included.
func (p *problem) best(limit int64, maxStates int) ([]int32, int, error) {
	limit = min(limit, p.dearest())
	b := p.newBound(limit)
	const firstPart, widen = 4096, 8
	reach := b.value
	gap := b.short(reach) / firstPart
	states := 0
	for {
		s := search{p: p, limit: limit, cut: &cut{b, gap}, cap: maxStates}
		if err := s.run(); err != nil {
			return nil, 0, err
		}
		states += s.kept
		if final := s.layers[len(s.layers)-1]; len(final) > 0 {
			value := final[len(final)-1].value
			if b.short(value) <= gap {
				return choice(s.layers, int32(len(final)-1)), states, nil
			}
			reach = max(reach, value)
		}
		gap = min(gap*widen+1, b.short(reach))
	}
}
