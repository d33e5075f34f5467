package rank

import "fmt"

// WeightSwitch says how far one weight may move, the others keeping their
// proportions to each other, before the winner changes.
type WeightSwitch struct {
	Priority int
	// Weight is the weight now; from Low to High the winner stays.
	Weight, Low, High float64
	// LowTo and HighTo name the option that takes over just beyond each end,
	// empty where the winner stays all the way to 0 or 1.
	LowTo, HighTo string
}

// WeightSwitches gives, for each priority, the stretch of its weight in which
// the winner stays. The lead over a rival is (1-t) r + t q, with r the lead on
// the other priorities and q that on this one, so each crossing is the single
// division r/(r-q). Only options of the winner's tier can take over.
// ErrNoContender, ErrLength, ErrWeight, and as Rank.
func WeightSwitches(options []Option, weights []float64) ([]WeightSwitch, error) {
	tier, err := weighed(options, weights)
	if err != nil {
		return nil, err
	}
	out := make([]WeightSwitch, len(weights))
	for k := range weights {
		out[k] = weightSwitch(tier, weights, []int{k})
		out[k].Priority = k
	}
	return out, nil
}

// GroupSwitch is WeightSwitches for several priorities moved together, their
// inner proportions kept: Weight, Low and High are the group's sum, Priority
// is -1. ErrOrder if the group is empty, is everything, or repeats a priority.
func GroupSwitch(options []Option, weights []float64, group []int) (WeightSwitch, error) {
	tier, err := weighed(options, weights)
	if err != nil {
		return WeightSwitch{}, err
	}
	if err := (Order{group}).check(len(weights)); err != nil {
		return WeightSwitch{}, fmt.Errorf("%w: %w", ErrOrder, err)
	}
	if len(group) == len(weights) {
		return WeightSwitch{}, fmt.Errorf("%w: the group holds every priority", ErrOrder)
	}
	s := weightSwitch(tier, weights, group)
	s.Priority = -1
	return s, nil
}

func weightSwitch(tier []Option, weights []float64, group []int) WeightSwitch {
	winner := first(tier, weights)
	lines, now := weightLines(tier, winner, weights, group)
	s, _ := leads(lines, 0, 1)
	s = s.around(now)
	out := WeightSwitch{Weight: now, Low: s.low, High: s.high}
	if s.lowBy >= 0 {
		out.LowTo = tier[s.lowBy].ID
	}
	if s.highBy >= 0 {
		out.HighTo = tier[s.highBy].ID
	}
	return out
}

// weightLines gives the lead of tier[a] over every option of the tier as the
// group's weight goes from 0 to 1, and that weight now. A side of the split
// that weighs nothing has no proportions to keep and is taken as equal ones.
func weightLines(tier []Option, a int, weights []float64, group []int) (lines []line, now float64) {
	inside := make([]bool, len(weights))
	for _, k := range group {
		inside[k] = true
	}
	in, out := make([]float64, len(weights)), make([]float64, len(weights))
	for k, w := range weights {
		if inside[k] {
			in[k] = w
			now += w
		} else {
			out[k] = w
		}
	}
	normalise(in, inside, true)
	normalise(out, inside, false)
	lines = make([]line, len(tier))
	for i, b := range tier {
		q, r := 0.0, 0.0
		for k := range weights {
			d := tier[a].Values[k] - b.Values[k]
			q, r = q+in[k]*d, r+out[k]*d
		}
		if len(group) == len(weights) {
			r = q // a single priority always weighs 1
		}
		lines[i] = line{at0: r, slope: q - r}
	}
	return lines, clamp(now, 0, 1)
}

// normalise scales the weights of one side of the split to add up to 1.
func normalise(side []float64, inside []bool, want bool) {
	sum, count := 0.0, 0
	for k, w := range side {
		if inside[k] == want {
			sum, count = sum+w, count+1
		}
	}
	for k := range side {
		switch {
		case inside[k] != want:
		case sum <= flat:
			side[k] = 1 / float64(count)
		default:
			side[k] /= sum
		}
	}
}
