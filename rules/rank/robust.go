package rank

import "fmt"

// Box holds the low and the high end of each of an option's values.
type Box struct{ Low, High []float64 }

// Threat is a rival that overtakes the winner somewhere in the boxes.
type Threat struct {
	ID string
	// WorstLeadPoints is the winner's lead with every one of its values low and
	// every one of the rival's high; not above 0, save for rounding.
	WorstLeadPoints float64
	// Alone says that moving one of the two is enough: the winner to its low
	// end, or the rival to its high end, the other staying at its typical values.
	Alone bool
}

// Robust says whether the winner depends on where in their ranges the values lie.
type Robust struct {
	Winner  string
	Threats []Threat
}

// Holds says that the winner stays in every combination within the boxes.
func (r Robust) Holds() bool { return len(r.Threats) == 0 }

// HoldsAlone says that the winner stays when only one option at a time moves
// within its box. Errors that lean the same way for all options, as prices do,
// are better judged by this than by the worst of all combinations.
func (r Robust) HoldsAlone() bool {
	for _, t := range r.Threats {
		if t.Alone {
			return false
		}
	}
	return true
}

// RobustWinner checks the winner against boxes, one for each option in the same
// order; those of options that cannot win are not looked at. A score only rises
// with a value, so the corner with the winner low and one rival high is the
// worst of all combinations: no search is needed. ErrBox, ErrNoContender,
// ErrLength, ErrWeight, and as Rank.
func RobustWinner(options []Option, boxes []Box, weights []float64) (Robust, error) {
	tier, err := weighed(options, weights)
	if err != nil {
		return Robust{}, err
	}
	if len(boxes) != len(options) {
		return Robust{}, fmt.Errorf("%w: %d ranges for %d options", ErrLength, len(boxes), len(options))
	}
	ends := make(map[string]Box, len(tier))
	for i, o := range options {
		ends[o.ID] = boxes[i]
	}
	for _, o := range tier {
		if err := ends[o.ID].check(o); err != nil {
			return Robust{}, err
		}
	}
	winner := tier[first(tier, weights)]
	out := Robust{Winner: winner.ID}
	typical, low := total(weights, winner.Values), total(weights, ends[winner.ID].Low)
	for _, rival := range tier {
		high := total(weights, ends[rival.ID].High)
		if rival.ID == winner.ID || compare(winner, low, rival, high) < 0 {
			continue
		}
		alone := compare(winner, typical, rival, high) > 0 ||
			compare(winner, low, rival, total(weights, rival.Values)) > 0
		out.Threats = append(out.Threats, Threat{ID: rival.ID, WorstLeadPoints: low - high, Alone: alone})
	}
	return out, nil
}

func (b Box) check(o Option) error {
	for _, end := range [][]float64{b.Low, b.High} {
		if err := checkValues(end, len(o.Values)); err != nil {
			return fmt.Errorf("range of option %q: %w", o.ID, err)
		}
	}
	for k, v := range o.Values {
		if b.Low[k] > v || v > b.High[k] {
			return fmt.Errorf("%w: option %q, priority %d: %v not in %v..%v", ErrBox, o.ID, k, v, b.Low[k], b.High[k])
		}
	}
	return nil
}
