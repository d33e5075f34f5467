package rank

import (
	"cmp"
	"math"
	"slices"
)

// WeightMove is a change of one weight, the others keeping their proportions.
type WeightMove struct {
	Priority int
	// From is the weight now and To the nearest at which the option is level
	// with its closest rival; between To and Until it wins.
	From, To, Until float64
}

// WeightToWin gives the smallest move of a single weight that brings option id
// level with every rival that led it. ok is false when it wins already or no
// single weight is enough. Moves of the same size go to the earlier priority.
// ErrNotContender, and as WeightSwitches.
func WeightToWin(options []Option, weights []float64, id string) (m WeightMove, ok bool, err error) {
	tier, err := weighed(options, weights)
	if err != nil {
		return WeightMove{}, false, err
	}
	a, err := find(tier, id)
	if err != nil || first(tier, weights) == a {
		return WeightMove{}, false, err
	}
	for k := range weights {
		lines, now := weightLines(tier, a, weights, []int{k})
		s, can := leads(lines, 0, 1)
		// A stretch of no length is a tie at one point, which wins nothing.
		if !can || s.high-s.low <= sumSlack {
			continue
		}
		to := s.nearest(now)
		if !ok || math.Abs(to-now) < math.Abs(m.To-m.From)-flat {
			m, ok = WeightMove{Priority: k, From: now, To: to, Until: s.farthest(now)}, true
		}
	}
	return m, ok, nil
}

// LevelMove is a change of one priority's level to a whole level.
type LevelMove struct {
	Priority int
	From     float64
	To       int
}

// LevelToWin gives the smallest move of a single priority, to a whole level of
// 0 to MaxLevel, that makes option id the winner, ties settled as in Rank. ok
// is false when it wins already or no single level is enough. Of moves of one
// size an upward one goes first, then the earlier priority. ErrNotContender,
// and as LevelSwitches.
func LevelToWin(options []Option, levels []float64, id string) (m LevelMove, ok bool, err error) {
	tier, err := levelled(options, levels)
	if err != nil {
		return LevelMove{}, false, err
	}
	a, err := find(tier, id)
	if err != nil || leadingAt(tier, levels, 0, levels[0]) == a {
		return LevelMove{}, false, err
	}
	var moves []LevelMove
	for p, from := range levels {
		for x := 0; x <= MaxLevel; x++ {
			if leadingAt(tier, levels, p, float64(x)) == a {
				moves = append(moves, LevelMove{Priority: p, From: from, To: x})
			}
		}
	}
	if len(moves) == 0 {
		return LevelMove{}, false, nil
	}
	slices.SortStableFunc(moves, func(a, b LevelMove) int {
		return cmp.Or(cmp.Compare(a.size(), b.size()), cmp.Compare(b.step(), a.step()))
	})
	return moves[0], true, nil
}

func (m LevelMove) step() float64 { return float64(m.To) - m.From }
func (m LevelMove) size() float64 { return math.Abs(m.step()) }

// ValueMove is a change of one value of one option; Scale.At turns To back into
// the quantity, such as the price at which the option would win.
type ValueMove struct {
	Priority int
	From, To float64
}

// ValuesToWin gives, for each priority under which it is possible, the value at
// which option id draws level with the winner by that value alone, smallest
// rise first; any more and it wins. Empty when it wins already or no single
// value is enough. ErrNotContender, and as WeightSwitches.
func ValuesToWin(options []Option, weights []float64, id string) ([]ValueMove, error) {
	tier, err := weighed(options, weights)
	if err != nil {
		return nil, err
	}
	a, err := find(tier, id)
	if err != nil {
		return nil, err
	}
	winner := first(tier, weights)
	if winner == a {
		return nil, nil
	}
	behind := (total(weights, tier[winner].Values) - total(weights, tier[a].Values)) / 100
	var moves []ValueMove
	for k, w := range weights {
		from := tier[a].Values[k]
		// A rise to exactly 1 would only tie, and there is nothing above it.
		if to := from + math.Max(behind, 0)/w; w > flat && to < 1 {
			moves = append(moves, ValueMove{Priority: k, From: from, To: to})
		}
	}
	slices.SortStableFunc(moves, func(a, b ValueMove) int { return cmp.Compare(a.To-a.From, b.To-b.From) })
	return moves, nil
}
