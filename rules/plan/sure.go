package plan

import (
	"battwright/rules/candidate"
	"battwright/rules/rank"
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

// options are the usable entries as the ranking mathematics wants them.
func (p Place) options() ([]rank.Option, []rank.Box) {
	var out []rank.Option
	var boxes []rank.Box
	for _, e := range p.Entries {
		if e.NoFit != "" {
			continue
		}
		out = append(out, rank.Option{
			ID: e.MaterialID, Values: typical(e.Values), MeetsTarget: e.FirstTier(), Excluded: e.Excluded(), CostCents: int64(e.Money.Total.Typical),
		})
		boxes = append(boxes, boxOf(e.Values))
	}
	return out, boxes
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
	if p.Choice == nil || p.Stopped != "" {
		return Sure{}
	}
	options, boxes := p.options()
	region, err := rank.InOrder(p.Levels)
	if err != nil {
		return Sure{}
	}
	shares, err := rank.Shares(options, region, 0)
	if err != nil {
		return Sure{}
	}
	out := Sure{Known: true, Only: len(shares) == 1}
	out.count(p, shares)
	if r, err := rank.RobustWinner(options, boxes, p.Weights); err == nil {
		out.Shaky = !r.HoldsAlone()
	}
	out.Strength, err = rank.StrengthOf(out.WinsOf100, out.Shaky)
	out.Known = err == nil
	out.gap(p, aboutEqual)
	out.switches(p, options)
	return out
}

func (out *Sure) count(p Place, shares []rank.Share) {
	raw := make([]float64, len(shares))
	for i, s := range shares {
		raw[i] = s.Share
	}
	wins, err := rank.RoundTo100(raw)
	if err != nil {
		return
	}
	for i, s := range shares {
		switch {
		case s.ID == p.Choice.MaterialID:
			out.WinsOf100 = wins[i]
		case wins[i] > out.RunnerWins:
			out.RunnerWins = wins[i]
		}
	}
}

// gap measures the lead over the best rival of the same tier.
func (out *Sure) gap(p Place, aboutEqual float64) {
	for _, e := range p.Entries {
		if !e.Usable() || e.MaterialID == p.Choice.MaterialID || e.FirstTier() != p.Choice.FirstTier() {
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
func (out *Sure) switches(p Place, options []rank.Option) {
	if p.Best != nil {
		return // a pinned choice does not switch with the priorities
	}
	list, err := rank.LevelSwitches(options, p.Levels)
	if err != nil {
		return
	}
	for _, s := range list {
		c, ok := s.Nearest()
		if !ok {
			continue
		}
		out.Switches = append(out.Switches, Switch{Priority: s.Priority, Beyond: c.Beyond, Whole: c.Whole, To: c.ToWhole, Downwards: c.Beyond < s.Level})
	}
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
