package budget

import (
	"cmp"
	"errors"
	"slices"

	"battwright/rules/units"
)

// Point is one set on the frontier.
type Point struct {
	Cost  units.Cents
	Value float64
}

// Front is the frontier: every set of options that no set of the same or less
// cost equals or beats in value, cheapest first, strictly rising in both.
type Front struct {
	Points []Point
	// States counts the partial sets kept on the way.
	States int

	p      *problem
	layers [][]state
	at     []int32 // the state behind each point
}

// Frontier finds the whole frontier: at every budget, the best set. Where that
// takes too many states, costs are counted in whole dollars, each rounded up: the
// points are real sets at their real cost, and for any set there is a point worth
// as much that costs at most 99 cents a place more. Errors: those of the input
// (ErrNoPlaces, ErrNoOptions, ErrID, ErrSize, ErrCost, ErrValue) and
// ErrTooManyStates.
//
// Method: dynamic programming over the places with dominated sets dropped
// (Pisinger, A minimal algorithm for the multiple-choice knapsack problem,
// 1995, gives the formulation).
func Frontier(places []Place) (Front, error) { return frontier(places, DefaultMaxStates) }

func frontier(places []Place, maxStates int) (Front, error) {
	p, err := newProblem(places)
	if err != nil {
		return Front{}, err
	}
	f, err := p.front(maxStates)
	if errors.Is(err, ErrTooManyStates) {
		return p.inDollars().front(maxStates)
	}
	return f, err
}

func (p *problem) front(maxStates int) (Front, error) {
	s := search{p: p, limit: noLimit, cap: maxStates}
	if err := s.run(); err != nil {
		return Front{}, err
	}
	f := Front{States: s.kept, p: p, layers: s.layers}
	for _, e := range p.ends(s.layers) {
		f.Points = append(f.Points, Point{Cost: units.Cents(e.paid), Value: points(e.value)})
		f.at = append(f.at, e.at)
	}
	return f, nil
}

type end struct {
	paid, value int64
	at          int32
}

// ends lists the last layer by what is really paid. Counted in dollars, a set
// can turn out both cheaper and better than its neighbour, which then goes.
func (p *problem) ends(layers [][]state) []end {
	final := layers[len(layers)-1]
	all := make([]end, len(final))
	for k, st := range final {
		all[k] = end{st.cost, st.value, int32(k)}
		if p.dollars {
			all[k].paid = p.paidOf(choice(layers, int32(k)))
		}
	}
	if !p.dollars {
		return all
	}
	slices.SortStableFunc(all, func(a, b end) int {
		return cmp.Or(cmp.Compare(a.paid, b.paid), cmp.Compare(b.value, a.value))
	})
	kept := all[:0]
	for _, e := range all {
		if len(kept) == 0 || e.value > kept[len(kept)-1].value {
			kept = append(kept, e)
		}
	}
	return kept
}

// Set gives the options behind point i. Error: ErrPoint.
func (f Front) Set(i int) (Set, error) {
	if i < 0 || i >= len(f.at) {
		return Set{}, wrapf(ErrPoint, "%d of %d", i, len(f.at))
	}
	return f.p.set(choice(f.layers, f.at[i])), nil
}
