package plan

import (
	"math"

	"battwright/rules/candidate"
)

// standing is where a stack of a place stands before any points are counted:
// what may not go there at all comes last, then what a rule ranks below, then
// what falls short of the target, the less short the better by whole R unless the
// builder waived the target, then what gets damper than it must: less R never wins
// because more heat leaks out. No priority, budget or rung of the ladder lifts a stack
// over a lower figure.
type standing [5]int

func standingOf(a *candidate.Assessed, waived bool) standing {
	short := 0
	if !waived && !a.Heat.MeetsTarget {
		short = int(math.Round(a.Heat.ShortByR))
	}
	return standing{asInt(a.Excluded()), asInt(a.Demoted()), asInt(!a.Heat.MeetsTarget), short, a.Damp.Risk()}
}

func asInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// compare orders two standings, the better first.
func (s standing) compare(other standing) int {
	for i := range s {
		if s[i] != other[i] {
			return s[i] - other[i]
		}
	}
	return 0
}

// AllDamp reports whether the choice gets damp and nothing else that may go
// there is any drier: the place needs another build-up, not another blanket.
func (p *Place) AllDamp() bool {
	if p.Choice == nil || p.Choice.Damp.Risk() == 0 {
		return false
	}
	for i := range p.Candidates {
		if c := &p.Candidates[i]; !c.Excluded() && c.Damp.Risk() < p.Choice.Damp.Risk() {
			return false
		}
	}
	return true
}
