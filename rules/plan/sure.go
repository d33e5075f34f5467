package plan

import (
	"math"
	"slices"

	"battwright/rules/candidate"
	"battwright/rules/rank"
	"battwright/rules/units"
)

// Sure says how firmly a place's choice stands. It is worked out when it is
// shown, not on every keystroke.
type Sure struct {
	Known      bool
	Strength   rank.Strength
	WinsOf100  int // ways to weigh the priorities that fit the builder's order
	RunnerUp   string
	RunnerWins int
	Lead       float64 // points over the runner-up
	Equal      bool    // about equal: the lead is below the bound
	Shaky      bool    // the winner changes when weak figures take their low or high end
	Only       bool    // nothing else may go here
	Switches   []Switch
}

// Switch is one change of one priority that changes the choice.
type Switch struct {
	Priority  int // index into the criteria
	Beyond    float64
	Whole     int
	To        string // material id
	Downwards bool
}

// contest is a place as the ranking mathematics wants it: every usable stack
// of every material, not only the best one of each, because another weighting
// may suit another stack of the same material.
type contest struct {
	options   []rank.Option
	boxes     []rank.Box
	materials map[string]string // stack id to material id
}

func (p Place) contest() contest {
	c := contest{materials: map[string]string{}}
	best := standing{math.MaxInt}
	nearest := map[string]float64{} // least that the stacks of a material fall short by
	for i := range p.Candidates {
		cand := &p.Candidates[i]
		if cand.Excluded() {
			continue
		}
		if s := standingOf(cand, p.Surface.Waived); s.compare(best) < 0 {
			best = s
		}
		if least, ok := nearest[cand.Material.ID]; !ok || cand.Heat.ShortByR < least {
			nearest[cand.Material.ID] = cand.Heat.ShortByR
		}
	}
	for i := range p.Candidates {
		cand := &p.Candidates[i]
		id := stackID(*cand)
		if _, twice := c.materials[id]; twice || cand.Excluded() || cand.Heat.ShortByR > nearest[cand.Material.ID] {
			continue // of what falls short only the nearest of a material stands for it
		}
		c.materials[id] = cand.Material.ID
		c.options = append(c.options, rank.Option{
			ID: id, Values: typical(cand.Values), MeetsTarget: cand.Heat.MeetsTarget, Excluded: standingOf(cand, p.Surface.Waived).compare(best) > 0, CostCents: int64(units.CentsOver(cand.Money.PerFt2, p.Surface.AreaFt2).Typical),
		})
		c.boxes = append(c.boxes, boxOf(cand.Values))
	}
	return c
}

// winner is the material that wins at the levels, empty when none can.
func (c contest) winner(levels []float64) string {
	w, err := rank.PriorityWeights(levels)
	if err != nil {
		return ""
	}
	best, err := rank.Winner(c.options, w)
	if err != nil {
		return ""
	}
	return c.materials[best]
}

func boxOf(values []candidate.Measure) rank.Box {
	var b rank.Box
	for _, v := range values {
		b.Low, b.High = append(b.Low, v.Value.Low), append(b.High, v.Value.High)
	}
	return b
}

// SureOf works out how firmly the leader of a place stands. aboutEqual is the
// gap in points below which two options are called about equal.
func (p Place) SureOf(aboutEqual float64) Sure {
	if p.Choice == nil {
		return Sure{}
	}
	c := p.contest()
	shares, err := rank.Shares(c.options, p.Levels)
	if err != nil {
		return Sure{}
	}
	out := Sure{Known: true}
	out.count(p, c, shares)
	out.Shaky = shaky(c, p.Weights)
	out.Strength, err = rank.StrengthOf(out.WinsOf100, out.Shaky)
	out.Known = err == nil
	out.gap(p, aboutEqual)
	if p.Best == nil && !p.pinned() { // a pinned or budgeted choice does not switch with the priorities
		out.Switches = c.switches(p.Levels)
	}
	return out
}

// shaky reports whether another material wins when the weak figures of one
// stack take their low or high end.
func shaky(c contest, weights []float64) bool {
	winner, rivals, err := rank.Threats(c.options, c.boxes, weights)
	return err == nil && slices.ContainsFunc(rivals, func(id string) bool { return c.materials[id] != c.materials[winner] })
}

// count adds the shares up by material.
func (out *Sure) count(p Place, c contest, shares []rank.Share) {
	byMaterial := map[string]float64{}
	var order []string
	for _, s := range shares {
		m := c.materials[s.ID]
		if _, ok := byMaterial[m]; !ok {
			order = append(order, m)
		}
		byMaterial[m] += s.Share
	}
	raw := make([]float64, len(order))
	for i, m := range order {
		raw[i] = byMaterial[m]
	}
	wins, err := rank.RoundTo100(raw)
	if err != nil {
		return
	}
	out.Only = len(order) == 1
	for i, m := range order {
		switch {
		case m == p.Choice.MaterialID:
			out.WinsOf100 = wins[i]
		case wins[i] > out.RunnerWins:
			out.RunnerWins = wins[i]
		}
	}
}

// gap measures the lead over the best rival of the same standing.
func (out *Sure) gap(p Place, aboutEqual float64) {
	for _, e := range p.Entries {
		if !e.Usable() || e.MaterialID == p.Choice.MaterialID || standingOf(&e.Assessed, p.Surface.Waived) != standingOf(&p.Choice.Assessed, p.Surface.Waived) {
			continue
		}
		out.RunnerUp, out.Lead = e.MaterialID, p.Choice.Score-e.Score
		out.Equal = rank.AboutEqual(p.Choice.Score, e.Score, aboutEqual)
		return
	}
	out.Only = true
}

// switches lists, for each priority, the nearest level at which another
// material takes over.
func (c contest) switches(levels []float64) []Switch {
	now := c.winner(levels)
	var out []Switch
	for p := range levels {
		up, hasUp := c.turn(levels, p, now, 1)
		down, hasDown := c.turn(levels, p, now, -1)
		switch {
		case hasUp && (!hasDown || up.Beyond-levels[p] <= levels[p]-down.Beyond):
			out = append(out, up)
		case hasDown:
			out = append(out, down)
		}
	}
	return out
}

// turn looks along one priority in one direction: the first whole level with
// another winner, and the exact level at which the lead is gone. A crossing
// to another stack of the same material is walked over.
func (c contest) turn(levels []float64, p int, now string, step float64) (Switch, bool) {
	try := append([]float64{}, levels...)
	at := func(x float64) string {
		try[p] = x
		return c.winner(try)
	}
	s := Switch{Priority: p, Downwards: step < 0}
	found := false
	start := math.Floor(levels[p])
	if step < 0 {
		start = math.Ceil(levels[p])
	}
	for x := start + step; x >= 0 && x <= rank.MaxLevel; x += step {
		if to := at(x); to != now {
			s.Whole, s.To, found = int(x), to, true
			break
		}
	}
	if !found {
		return s, false
	}
	s.Beyond = c.crossing(levels, p, now, step, float64(s.Whole))
	return s, true
}

// crossing walks the closed-form crossings of single stacks until the
// material changes. The walk is bounded: each step passes one crossing.
func (c contest) crossing(levels []float64, p int, now string, step, whole float64) float64 {
	const past = 1e-9
	try := append([]float64{}, levels...)
	for range len(c.options) + 1 {
		level, to, err := rank.Crossing(c.options, try, p, step)
		if err != nil || to == "" || (level-whole)*step > 0 {
			return whole
		}
		if c.materials[to] != now {
			return level
		}
		try[p] = min(rank.MaxLevel, max(0, level+step*past))
	}
	return whole
}

// EntryOf finds the entry of a material, or nil.
func (p Place) EntryOf(material string) *Entry {
	for i := range p.Entries {
		if p.Entries[i].MaterialID == material {
			return &p.Entries[i]
		}
	}
	return nil
}
