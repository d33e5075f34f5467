package budget

import "battwright/rules/units"

// Change is one place that gets another option.
type Change struct {
	Place        int // in the order given
	PlaceID      string
	From, To     int // indexes in Place.Options
	FromID, ToID string
}

// Step is what more money buys, seen from the point the ladder starts at.
type Step struct {
	Point      int // on the frontier
	Cost       units.Cents
	Value      float64
	ExtraCost  units.Cents // above the start, more than 0
	ExtraValue float64     // above the start, more than 0
	Changes    []Change    // places that differ from the start, in place order
}

// CentsPerPoint is what one more point of value costs on this step.
func (s Step) CentsPerPoint() float64 { return float64(s.ExtraCost) / s.ExtraValue }

// Ladder lists the next points after one on the frontier, at most count, each
// compared with that one. The last point has none. Errors: ErrPoint for a
// start that is not on the frontier, ErrSize for a negative count.
func (f Front) Ladder(from, count int) ([]Step, error) {
	if from < 0 || from >= len(f.at) {
		return nil, wrapf(ErrPoint, "%d of %d", from, len(f.at))
	}
	if count < 0 {
		return nil, wrapf(ErrSize, "%d steps", count)
	}
	start := choice(f.layers, f.at[from])
	count = min(count, len(f.at)-1-from)
	steps := make([]Step, 0, count)
	for i := from + 1; i <= from+count; i++ {
		steps = append(steps, f.step(start, i))
	}
	return steps, nil
}

func (f Front) step(start []int32, i int) Step {
	next := choice(f.layers, f.at[i])
	s := Step{
		Point:      i,
		Cost:       units.Cents(f.p.paidOf(next)),
		Value:      points(f.p.valueOf(next)),
		ExtraCost:  units.Cents(f.p.paidOf(next) - f.p.paidOf(start)),
		ExtraValue: points(f.p.valueOf(next) - f.p.valueOf(start)),
	}
	for k := range next {
		if start[k] == next[k] {
			continue
		}
		a, b := f.p.items[k][start[k]].index, f.p.items[k][next[k]].index
		ids := f.p.optionIDs[k]
		s.Changes = append(s.Changes, Change{k, f.p.placeIDs[k], int(a), int(b), ids[a], ids[b]})
	}
	return s
}
