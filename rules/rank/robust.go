package rank

import "fmt"

// Box holds the low and the high end of each of an option's values.
type Box struct{ Low, High []float64 }

// Threats gives the winner and the rivals that overtake it when one of the two
// moves within its box, the other staying at its typical values. Errors that
// lean the same way for all options, as prices do, are better judged by this
// than by the worst of all combinations. There is one box for each option in
// the same order; those of options that cannot win are not looked at. A score
// only rises with a value, so the ends of the boxes are the worst cases and no
// search is needed. ErrBox, and as Winner.
func Threats(options []Option, boxes []Box, weights []float64) (winner string, rivals []string, err error) {
	tier, err := weighed(options, weights)
	if err != nil {
		return "", nil, err
	}
	if len(boxes) != len(options) {
		return "", nil, fmt.Errorf("%w: %d ranges for %d options", ErrLength, len(boxes), len(options))
	}
	ends := make(map[string]Box, len(tier))
	for i, o := range options {
		ends[o.ID] = boxes[i]
	}
	for _, o := range tier {
		if err := ends[o.ID].check(o); err != nil {
			return "", nil, err
		}
	}
	lead := tier[first(tier, weights)]
	typical, low := total(weights, lead.Values), total(weights, ends[lead.ID].Low)
	for _, rival := range tier {
		if rival.ID == lead.ID {
			continue
		}
		if compare(lead, typical, rival, total(weights, ends[rival.ID].High)) > 0 ||
			compare(lead, low, rival, total(weights, rival.Values)) > 0 {
			rivals = append(rivals, rival.ID)
		}
	}
	return lead.ID, rivals, nil
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
