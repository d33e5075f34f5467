package inspect

import (
	"slices"

	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/plan"
)

// Sheet is what is written down about one place before the work begins.
type Sheet struct {
	Plan      plan.Place
	Layers    []candidate.Layer // bottom or inner one first; R of each stands alone
	DepthIn   float64           // to be measured, all layers together
	CeilingIn float64           // how deep a ruler goes over an old blanket, about; 0 without one
	Facing    string            // name of the face
	Side      string
	Sheet     string // sheet or paint beside the blanket, and where
	First     []catalog.HandoverNote
	Clear     []catalog.HandoverNote
	Leave     []catalog.HandoverNote
	Hold      []catalog.HandoverNote
	Points    []catalog.AcceptancePoint
}

// SheetOf writes the sheet of a place; ok is false for a place without a plan, of
// which it has only what is looked at all the same.
func SheetOf(j Job, p plan.Place) (s Sheet, ok bool) {
	if !planned(p) {
		s = Sheet{Plan: p}
		if !p.Stopped() {
			s.points(j)
		}
		return s, false
	}
	c, e := j.Catalog(), p.Choice
	s = Sheet{Plan: p, Layers: e.Layers, DepthIn: heightOf(e.Layers), Side: e.Facing.Side}
	if f, has := c.Facing(e.Facing.OnBlanket); has {
		s.Facing = f.Name
	}
	if under := underIn(p); under > 0 {
		s.CeilingIn = under + s.DepthIn
	}
	s.Sheet = sheetText(j, p)
	s.First, s.Clear = Notes(j, p, "first", ""), Notes(j, p, "clear", "")
	s.Leave, s.Hold = Notes(j, p, "leave", ""), Notes(j, p, "hold", "")
	s.points(j)
	return s, true
}

// points are those that the place is accepted by.
func (s *Sheet) points(j Job) {
	for _, x := range j.Catalog().Acceptance().Points {
		if hasPoint(x, s.Plan, nil) {
			s.Points = append(s.Points, pointIn(j, s.Plan, x))
		}
	}
}

// sheetText names the sheet or paint beside the blanket and its side, empty
// when there is none.
func sheetText(j Job, p plan.Place) string {
	f, has := j.Catalog().Facing(p.Choice.Facing.Sheet)
	switch {
	case !has || p.Choice.Facing.Sheet == "":
		return ""
	case p.Choice.Facing.Side != "":
		return f.Name + ", " + p.Choice.Facing.Side
	}
	return f.Name
}

// Notes are the notes of a group that apply to a place; person "" is all.
func Notes(j Job, p plan.Place, group, person string) []catalog.HandoverNote {
	material, faced := "", facedIn(p, nil)
	if planned(p) {
		material = p.Choice.Material.ID
	}
	var out []catalog.HandoverNote
	for _, n := range j.Catalog().Acceptance().Notes {
		fits := n.Group == group && (person == "" || slices.Contains(n.Pages, person)) &&
			(len(n.Kinds) == 0 || slices.Contains(n.Kinds, p.Surface.Kind.ID)) &&
			(len(n.Materials) == 0 || slices.Contains(n.Materials, material)) &&
			(len(n.Stages) == 0 || slices.Contains(n.Stages, j.Plan.Stage)) && (n.Faced == "" || n.Faced == "yes" == faced) &&
			(n.Needs == "" || requires(p, n.Needs)) && (n.Rule == "" || warns(p, n.Rule)) && (!n.Old || p.Surface.MayBeOld) &&
			!settled(p, n.SettledBy) && (len(n.Sizes) == 0 || slices.Contains(n.Sizes, p.Surface.Frame.Size))
		if fits {
			out = append(out, n)
		}
	}
	return out
}

// settled reports whether an answer about a place leaves nothing to say: a no,
// or a figure above 0. What is not known settles nothing.
func settled(p plan.Place, fact string) bool {
	if fact == "" || len(p.Candidates) == 0 {
		return false
	}
	v := p.Candidates[0].Facts.Get(fact)
	if yes, ok := v.AsBool(); ok {
		return !yes
	}
	n, ok := v.AsNumber()
	return ok && n > 0
}

// warns reports whether a rule has a caution or a step about a place.
func warns(p plan.Place, rule string) bool {
	return slices.ContainsFunc(slices.Concat(p.Safety, p.Install), func(h rules.Hit) bool { return h.Rule.ID == rule })
}

// requires reports whether a rule asks for something at a place.
func requires(p plan.Place, need string) bool {
	return slices.ContainsFunc(p.Needs(), func(h rules.Hit) bool { return h.Rule.Effect.Need == need })
}

// HouseNotes are the notes of a group that apply to any place, each once, in
// the order of the data. A stopped place has no work that they could be about, and
// nothing goes before blankets that are not planned; a chimney has work of its own.
func HouseNotes(j Job, group, person string) []catalog.HandoverNote {
	seen := map[string]bool{}
	for _, p := range j.Plan.Places {
		for _, n := range Notes(j, p, group, person) {
			if !p.Stopped() && (group != "first" || planned(p) || byChimney(p) || n.Unplanned && minded(p)) {
				seen[n.ID] = true
			}
		}
	}
	var out []catalog.HandoverNote
	for _, n := range j.Catalog().Acceptance().Notes {
		if seen[n.ID] {
			out = append(out, n)
		}
	}
	return out
}
