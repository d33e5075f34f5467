package inspect

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// board: what the target needs beside the blanket must be seen, not taken for
// granted.
func (p FoundPlace) board(j Job) (State, string) {
	s, need := j.System, p.Plan.BoardR()
	r, said := boardSeen(p.Plan, p.Answers)
	why := ""
	if text := p.onConcrete(); text != "" {
		why = ". " + strings.TrimSuffix(text, ".")
	}
	switch {
	case !said:
		return NotSeen, "the plan counts on it"
	case need <= 0 && r <= 0:
		return Pass, "none is there, and the plan counts on none"
	case need <= 0:
		return Fix, "there is one, and the plan counts on none"
	case r <= 0:
		return Reject, "it is not there" + why
	case r < need-0.05:
		return Reject, "it is " + s.R(r) + ", the plan counts on " + s.R(need) + why
	case p.Answers["board_r"].State != house.Given:
		return NotSeen, "it is there, and its R was not read"
	}
	return Pass, s.R(r) + " on it"
}

// PartToBuy names the board that the plan counts on beside the blanket and that
// is still to be bought, empty when there is none.
func PartToBuy(p plan.Place, s units.System) string { return boardProse(p, p.Target.AddR).In(s) }

// boardProse names board of some R, of a place where it goes.
func boardProse(p plan.Place, boardR float64) units.Prose {
	r := units.Prose(strconv.FormatFloat(math.Round(10*boardR)/10, 'f', -1, 64))
	switch {
	case boardR <= 0:
		return ""
	case p.Surface.Kind.Boundary == "soil":
		return "{R-" + r + "} foam board on the concrete"
	}
	return "{R-" + r + "} board outside the studs"
}

// boardRemedy is what to ask for where the board is not as counted on. To have the
// wall worked out with less is no way out where a rule lets no fiber lie so.
func (p FoundPlace) boardRemedy(x catalog.AcceptancePoint) units.Prose {
	r, _ := boardSeen(p.Plan, p.Answers)
	switch {
	case p.Plan.BoardR() <= 0:
		return x.Extra
	case p.onConcrete() != "":
		return x.Barred
	case r <= 0:
		return x.Absent
	}
	return x.Ask
}

// boardFault reports whether the board was looked at and is less than counted on.
func (p FoundPlace) boardFault() bool {
	r, said := boardSeen(p.Plan, p.Answers)
	return said && r < p.Plan.BoardR()-0.05
}

// onConcrete is why no fiber may lie on the concrete with the board that was found,
// empty where it may. The board is then at fault, not the face.
func (p FoundPlace) onConcrete() string {
	if p.Got == nil {
		return ""
	}
	at := slices.IndexFunc(p.Got.Verdict.Excluded, byFoam)
	if at < 0 {
		return ""
	}
	return p.Got.Verdict.Excluded[at].Text
}

// byFoam reports whether a rule asks how much foam board there is.
func byFoam(h rules.Hit) bool { return asksOf(h.Rule, "foam_r") }
