package rank

import (
	"fmt"
	"math"
)

// LevelSwitch says how far one priority's level may move, the other levels
// staying as they are, before the winner changes. Up and Down are nil where no
// level up to MaxLevel, or down to 0, changes it.
type LevelSwitch struct {
	Priority int
	Level    float64
	Up, Down *LevelChange
}

// LevelChange is one end of the levels in which the winner stays.
type LevelChange struct {
	// Beyond is the level at which the lead is gone, and To takes over past it.
	Beyond float64
	To     string
	// Whole is the nearest whole level at which the winner is another option,
	// ToWhole: usually the same as To, unless a third overtakes both by then.
	Whole   int
	ToWhole string
	// Jump marks the one change that comes without a crossing: between every
	// level at 0, which counts as equal weights, and this one alone above 0.
	Jump bool
}

// Nearest gives the smaller of the two moves, up when they are the same; ok is
// false when neither changes the winner.
func (s LevelSwitch) Nearest() (c LevelChange, ok bool) {
	switch {
	case s.Up == nil && s.Down == nil:
		return LevelChange{}, false
	case s.Up == nil:
		return *s.Down, true
	case s.Down == nil || s.Up.Beyond-s.Level <= s.Level-s.Down.Beyond:
		return *s.Up, true
	}
	return *s.Down, true
}

// LevelSwitches is WeightSwitches in the terms a person sets: levels of 0 to
// MaxLevel with weights proportional to them. A lead times the sum of the
// levels is a straight line in one level, so each crossing is one division.
// ErrNoContender, ErrLength, ErrLevel, and as Rank.
func LevelSwitches(options []Option, levels []float64) ([]LevelSwitch, error) {
	tier, err := levelled(options, levels)
	if err != nil {
		return nil, err
	}
	out := make([]LevelSwitch, len(levels))
	for p := range levels {
		out[p] = levelSwitch(tier, levels, p)
	}
	return out, nil
}

// levelled is weighed for levels.
func levelled(options []Option, levels []float64) ([]Option, error) {
	tier, n, err := contenders(options)
	if err != nil {
		return nil, err
	}
	if len(levels) != n {
		return nil, fmt.Errorf("%w: %d levels for %d priorities", ErrLength, len(levels), n)
	}
	return tier, checkLevels(levels)
}

func levelSwitch(tier []Option, levels []float64, p int) LevelSwitch {
	out := LevelSwitch{Priority: p, Level: levels[p]}
	winner := leadingAt(tier, levels, p, levels[p])
	if alone(levels, p) {
		out.jump(tier, levels, winner)
		return out
	}
	s, _ := leads(levelLines(tier, winner, levels, p), 0, MaxLevel)
	s = s.around(levels[p])
	// Whole levels are ranked rather than derived: at a tie, cost and id decide,
	// and at the far ends of the scale ties are common.
	for x := int(math.Floor(levels[p])) + 1; x <= MaxLevel && out.Up == nil; x++ {
		out.Up = wholeChange(tier, levels, p, x, winner)
	}
	for x := int(math.Ceil(levels[p])) - 1; x >= 0 && out.Down == nil; x-- {
		out.Down = wholeChange(tier, levels, p, x, winner)
	}
	if out.Up != nil && s.highBy >= 0 {
		out.Up.Beyond, out.Up.To = s.high, tier[s.highBy].ID
	}
	if out.Down != nil && s.lowBy >= 0 {
		out.Down.Beyond, out.Down.To = s.low, tier[s.lowBy].ID
	}
	return out
}

// jump handles a priority that is alone above 0, or would be: whatever its
// level, it weighs everything, except at 0 where all weigh the same.
func (s *LevelSwitch) jump(tier []Option, levels []float64, winner int) {
	if s.Level > 0 {
		s.Down = wholeChange(tier, levels, s.Priority, 0, winner)
	} else {
		s.Up = wholeChange(tier, levels, s.Priority, 1, winner)
	}
	for _, c := range []*LevelChange{s.Up, s.Down} {
		if c != nil {
			c.Beyond, c.Jump = 0, true
		}
	}
}

// wholeChange is the change at whole level x, nil if the winner stays.
func wholeChange(tier []Option, levels []float64, p, x, winner int) *LevelChange {
	now := leadingAt(tier, levels, p, float64(x))
	if now == winner {
		return nil
	}
	id := tier[now].ID
	return &LevelChange{Beyond: float64(x), To: id, Whole: x, ToWhole: id}
}

// leadingAt gives the place in tier of the winner with priority p at level x.
func leadingAt(tier []Option, levels []float64, p int, x float64) int {
	moved := append([]float64(nil), levels...)
	moved[p] = x
	// No error can come: levels were checked and x lies in 0..MaxLevel.
	weights, _, _ := PriorityWeights(moved)
	return first(tier, weights)
}

func levelLines(tier []Option, a int, levels []float64, p int) []line {
	lines := make([]line, len(tier))
	for i, b := range tier {
		for k, level := range levels {
			d := tier[a].Values[k] - b.Values[k]
			if k == p {
				lines[i].slope = d
			} else {
				lines[i].at0 += level * d
			}
		}
	}
	return lines
}

// alone says whether every other level is 0.
func alone(levels []float64, p int) bool {
	for k, x := range levels {
		if k != p && x > 0 {
			return false
		}
	}
	return true
}
