package plan

import (
	"battwright/rules/candidate"
	"battwright/rules/units"
)

// ShortText says by how much the blanket of a place falls short of what is asked
// there, empty where it does not. Every paper that names the blanket says it.
func (p Place) ShortText(s units.System) string {
	if p.Choice == nil || !p.Target.Required || p.Choice.Heat.ShortByR <= 0 {
		return ""
	}
	return "SHORT by " + p.Choice.Heat.ShortOf(p.Target, s) + p.waivedText()
}

// BareText says that a place has no blanket though R is asked there, empty where it
// is not, and where one may not lie as things stand.
func (p Place) BareText(s units.System) string {
	if p.Choice != nil || !p.Target.Required || p.BoardAlone() || p.Stopped() || p.Surface.Held() != "" {
		return ""
	}
	there := s.R(p.Surface.CIR) + " of insulation and no blanket"
	if p.Surface.ExistingR > 0 {
		there = s.R(p.Surface.ExistingR) + " that lay there and no new blanket"
	}
	return "SHORT: " + there + "; asked is " + p.Target.Text + p.waivedText()
}

// BoardAlone reports whether a place without a blanket has all the R that is asked
// there by the board that somebody said is there.
func (p Place) BoardAlone() bool {
	return p.Choice == nil && p.Target.Required && p.Target.CavityR == 0 && p.Surface.CIR > p.Target.ContinuousR-0.05
}

// waivedText is said behind what is short where somebody accepted it.
func (p Place) waivedText() string {
	if p.Surface.Waived {
		return "; you accepted that"
	}
	return ""
}

// CheaperShorter is, of the blankets that may go into a place, get no damper than
// the one chosen, cost less and fall short by more, the one that falls short by
// least; nil where there is none.
func (p Place) CheaperShorter() *candidate.Assessed {
	var out *candidate.Assessed
	for i := range p.Candidates {
		c := &p.Candidates[i]
		switch {
		case p.Choice == nil, c.Excluded(), c.Demoted() && !p.Choice.Demoted(), c.Damp.Risk() > p.Choice.Damp.Risk(), p.pinned() && c.Material.ID != p.Surface.Pin:
		case c.Heat.ShortByR <= p.Choice.Heat.ShortByR, c.Money.PerFt2.Typical >= p.Choice.Money.PerFt2.Typical:
		case out == nil || c.Heat.ShortByR < out.Heat.ShortByR:
			out = c
		}
	}
	return out
}
