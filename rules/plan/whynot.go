package plan

import (
	"math"
	"sort"

	"battwright/rules/rank"
)

// WhyNot says why another material was not chosen at a place.
type WhyNot struct {
	Material string
	Excluded bool // a rule, the builder, or the framing takes it out
	Short    bool // it falls short of the target, the choice does not
	Below    bool // a rule always ranks it below
	Damper   bool // it gets damp where the choice does not
	// Gaps are the priorities in which it loses most against the choice, in
	// points, largest first, at most two.
	Gaps []Gap
	// Gains is the priority in which it beats the choice most, nil when none.
	Gains *Gap
	// Wins is the smallest change of one priority that makes it the choice.
	Wins *LevelMove
}

// LevelMove is a change of one priority to a whole level.
type LevelMove struct {
	Priority int
	From     float64
	To       int
}

// Gap is a difference in points under one priority.
type Gap struct {
	Priority int
	Points   float64
}

// WhyNots explains every material of a place but the choice, in ranked order.
func (p Place) WhyNots() []WhyNot {
	if p.Choice == nil {
		return nil
	}
	c := p.contest()
	var out []WhyNot
	for _, e := range p.Entries {
		if e.MaterialID == p.Choice.MaterialID {
			continue
		}
		w := WhyNot{Material: e.MaterialID}
		switch {
		case !e.Usable():
			w.Excluded = true
		default:
			w.Short = p.Choice.Heat.MeetsTarget && !e.Heat.MeetsTarget
			w.Below = e.Demoted() && !p.Choice.Demoted()
			w.Damper = e.Damp.Risk() > p.Choice.Damp.Risk()
			w.compare(p, e)
			w.wins(p, c)
		}
		out = append(out, w)
	}
	return out
}

func (w *WhyNot) compare(p Place, e Entry) {
	var gaps []Gap
	for i := range p.Weights {
		if i < len(e.Parts) && i < len(p.Choice.Parts) {
			gaps = append(gaps, Gap{i, p.Choice.Parts[i] - e.Parts[i]})
		}
	}
	sort.SliceStable(gaps, func(i, j int) bool { return gaps[i].Points > gaps[j].Points })
	for _, g := range gaps {
		if len(w.Gaps) < 2 && g.Points > 0.05 {
			w.Gaps = append(w.Gaps, g)
		}
	}
	if n := len(gaps); n > 0 && gaps[n-1].Points < -0.05 {
		w.Gains = &Gap{gaps[n-1].Priority, math.Abs(gaps[n-1].Points)}
	}
}

// wins looks for the smallest single change, where the material stands in the
// same tier as the choice: no weight lifts it out of a lower one. Of moves of
// one size the upward one goes first.
func (w *WhyNot) wins(p Place, c contest) {
	if w.Short || w.Below || w.Damper || p.Best != nil || p.pinned() {
		return
	}
	best := math.Inf(1)
	try := append([]float64{}, p.Levels...)
	for k, from := range p.Levels {
		for x := float64(rank.MaxLevel); x >= 0; x-- {
			try[k] = x
			if d := math.Abs(x - from); d < best && c.winner(try) == w.Material {
				best = d
				w.Wins = &LevelMove{Priority: k, From: from, To: int(x)}
			}
		}
		try[k] = from
	}
}

// MindChange is one change of one house-wide priority and what it turns.
type MindChange struct {
	Priority int
	From, To float64
	Changes  []Change
}

// WouldChange tries every level of every priority of the house and keeps, for
// each priority and direction, the nearest level that changes a choice.
func (a Assessment) WouldChange(p Preferences, base Plan) []MindChange {
	c := a.Answered.List.Catalog()
	var out []MindChange
	for i, k := range c.Criteria {
		from := p.Priorities[k.ID]
		for _, step := range []float64{1, -1} {
			for to := from + step; to >= 0 && to <= rank.MaxLevel; to += step {
				try := p
				try.Priorities = map[string]float64{}
				for id, v := range p.Priorities {
					try.Priorities[id] = v
				}
				try.Priorities[k.ID] = to
				if ch := materialChanges(Changes(base, a.Weigh(try))); len(ch) > 0 {
					out = append(out, MindChange{i, from, to, ch})
					break
				}
			}
		}
	}
	return out
}
