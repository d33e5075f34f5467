package budget

import (
	"cmp"
	"math/bits"
	"slices"

	"battwright/rules/units"
)

// Later says what to do now and what to put off.
type Later struct {
	// Now is the best set within the budget; put-off places are NotNow.
	Now Set
	// Cheapest is the cheapest complete set, and Missing what it costs beyond
	// the budget; 0 means that nothing need be put off.
	Cheapest Set
	Missing  units.Cents
	// TakeUp holds the places put off, in the order to do them as money comes
	// in: the first gives most value for its cost. Read backwards it is the
	// order in which putting off costs least.
	TakeUp  []int
	Rounded bool // as in Choice
}

// Postpone answers when the budget does not hold even the cheapest set: which
// places to do now, and in which order to do the rest. Every place may then
// also wait, at no cost and no value, and the value of what is done is made as
// large as can be. A pin says what a place gets, not when. When the cheapest
// set fits, Now is simply the best set.
//
// The order of TakeUp is the ratio rule (W. E. Smith, 1956; from memory): with
// each waiting place at its cheapest option, most value per cent first loses
// the least value summed over the money still to come.
//
// Errors: ErrBudget, ErrValue for a negative value (leaving such a place would
// look like a gain) and those of Frontier.
func Postpone(places []Place, budget units.Cents, opts Opts) (Later, error) {
	maxStates, err := opts.states()
	if err != nil {
		return Later{}, err
	}
	if budget < 0 {
		return Later{}, wrapf(ErrBudget, "%d cents", int64(budget))
	}
	p, err := newProblem(places, opts.Pins, false)
	if err != nil {
		return Later{}, err
	}
	if err := onlyGains(places); err != nil {
		return Later{}, err
	}
	l := Later{Cheapest: p.set(p.cheapestChoice())}
	q := p
	if short := p.cheapest() - int64(budget); short > 0 {
		l.Missing = units.Cents(short)
		if q, err = newProblem(places, opts.Pins, true); err != nil {
			return Later{}, err
		}
	}
	c, err := q.choose(int64(budget), maxStates, opts.OrDollars)
	if err != nil {
		return Later{}, err
	}
	l.Now, l.Rounded = c.Set, c.Rounded
	l.TakeUp = p.takeUp(c.Set.Picks)
	return l, nil
}

func onlyGains(places []Place) error {
	for _, pl := range places {
		for _, o := range pl.Options {
			if o.Value < 0 {
				return wrapf(ErrValue, "%v for %q at %q, accepted from 0", o.Value, o.ID, pl.ID)
			}
		}
	}
	return nil
}

// takeUp orders the places that wait. None of them is free: a free option is
// always taken.
func (p *problem) takeUp(picks []int) []int {
	var wait []int
	for i, pick := range picks {
		if pick == NotNow {
			wait = append(wait, i)
		}
	}
	slices.SortStableFunc(wait, func(a, b int) int {
		x, y := p.items[a][0], p.items[b][0]
		return compareProducts(y.value, x.cost, x.value, y.cost)
	})
	return wait
}

// compareProducts compares a x b with c x d, none negative, in 128 bits.
func compareProducts(a, b, c, d int64) int {
	highAB, lowAB := bits.Mul64(uint64(a), uint64(b))
	highCD, lowCD := bits.Mul64(uint64(c), uint64(d))
	return cmp.Or(cmp.Compare(highAB, highCD), cmp.Compare(lowAB, lowCD))
}
