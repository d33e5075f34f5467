// Package candidate says what fits a place and works out everything about one
// candidate that the builder's priorities cannot change: heat, damp, money,
// the verdict of the rules, and the five values.
package candidate

import (
	"reflect"
	"slices"
	"strings"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Assessed is one candidate: a stack of blankets with its facing, worked out.
type Assessed struct {
	Blankets
	Facing  Facing
	Heat    Heat
	Damp    Damp
	Money   Money
	Verdict rules.Verdict
	Values  []Measure // in the order of the criteria, rules applied
	Facts   *rules.Facts
	Out     string // why the builder or the place leaves it out, empty when not

	measured []Measure // as Values, before the rules
}

// Excluded reports whether a rule or the builder takes the candidate out.
func (a Assessed) Excluded() bool { return len(a.Verdict.Excluded) > 0 || a.Out != "" }

// TierCriterion is the name by which a rule moves a candidate below all others
// of its place, whatever the priorities: an adjust of this criterion below 0.
const TierCriterion = "tier"

// Demoted reports whether a rule ranks the candidate below the others.
func (a Assessed) Demoted() bool { return a.Verdict.Adjust[TierCriterion] < 0 }

// PlaceResult is everything about one place.
type PlaceResult struct {
	Surface    Surface
	Target     Target
	Candidates []Assessed
	Unfit      []Unfit
	Verdict    rules.Verdict // of the place itself, whatever the blanket

	facts *rules.Facts // that do not hang on a blanket
}

// Assess works out one place. It never fails: what cannot be worked out is
// said in the result.
func Assess(a house.Answered, p *house.Place, site Site) PlaceResult {
	c := a.List.Catalog()
	s := surfaceOf(a, p)
	fits, unfit := Fit(s, c)
	t := targetOf(s, site, c, mostCavityR(fits))
	stands, heavy := carried(s, t, c, fits)
	t.EnoughR = enoughR(s, t, stands)
	stacks := choose(stands, func(b Blankets) bool { return enough(s, t, b) })
	s.DampAlone = dampAlone(s, site, c, stacks, t)
	base := placeFacts(a, p, s, site)
	verdict := verdictOf(c, base, s.System)
	s.UnderJoists, s.FoamInBays = needs(verdict, "layer-under-joists"), needs(verdict, "foam-in-bays")
	out := PlaceResult{Surface: s, Target: t, Unfit: append(heavy, unfit...), Verdict: verdict, facts: base}
	out.Candidates = make([]Assessed, 0, len(stacks))
	for _, b := range stacks {
		one := assessOne(s, site, c, b, t, base)
		one.Heat.FullHeelIn, one.Heat.FullLabels = lowestHeel(s, t, stands, b.Material.ID)
		out.Candidates = append(out.Candidates, one)
	}
	if t.Idle { // the blankets are compared as they would go in, board and all; nothing is bought
		out.Target.AddR = 0
	}
	return out
}

// dampAlone reports whether some blanket gathers damp at a place like a rim,
// where nothing may go on the room side of it.
func dampAlone(s Surface, site Site, c *catalog.Catalog, stacks []Blankets, t Target) bool {
	return s.Kind.Retarder == catalog.RetarderUnfaced && slices.ContainsFunc(stacks, func(b Blankets) bool {
		return dampOf(s, site, c, b, facingOf(s, site, c, b, t), t).Risk() > 0
	})
}

// needs reports whether a rule requires something of the place, whatever the
// blanket.
func needs(v rules.Verdict, what string) bool {
	return slices.ContainsFunc(v.Require, func(n rules.Need) bool { return n.Need == what })
}

func assessOne(s Surface, site Site, c *catalog.Catalog, b Blankets, t Target, base *rules.Facts) Assessed {
	out := Assessed{Blankets: b, Facing: facingOf(s, site, c, b, t)}
	var err error
	out.Heat, err = heatOf(s, site, c, b, t)
	if err != nil {
		out.Out = "its heat could not be worked out: " + err.Error()
	}
	out.Damp = dampOf(s, site, c, b, out.Facing, t)
	out.retard(s, site, c, t)
	out.Money = moneyOf(s, c, b, out.Facing)
	out.measured = valuesOf(s, c, b, out.Facing, out.Heat, out.Damp, out.Money, t)
	out.judge(s, c, base)
	for _, id := range s.RuledOut {
		if id == b.Material.ID {
			out.Out = "you ruled it out"
		}
	}
	return out
}

// judge is what hangs on the facts alone: the verdict of the rules, and the
// values with what it adds and takes.
func (a *Assessed) judge(s Surface, c *catalog.Catalog, base *rules.Facts) {
	a.Facts = candidateFacts(base, s, c, a.Blankets, a.Facing, a.Heat, a.Damp)
	a.Verdict = verdictOf(c, a.Facts, s.System)
	a.Values = slices.Clone(a.measured)
	for i, v := range a.Values {
		adjust(&a.Values[i], a.Verdict.Adjust[v.Criterion])
	}
}

// Again gives what Assess gives after answers changed, with what they do not
// reach kept. Where the place and its site are as they were, only the facts for
// the rules can differ. same tells that nothing does.
func (r PlaceResult) Again(a house.Answered, p *house.Place, site Site, sameSite bool) (now PlaceResult, same bool) {
	if !sameSite {
		return Assess(a, p, site), false
	}
	c, s := a.List.Catalog(), surfaceOf(a, p)
	s.DampAlone = r.Surface.DampAlone
	base := placeFacts(a, p, s, site)
	s.UnderJoists, s.FoamInBays = r.Surface.UnderJoists, r.Surface.FoamInBays
	if !reflect.DeepEqual(s, r.Surface) {
		return Assess(a, p, site), false
	}
	if reflect.DeepEqual(base, r.facts) {
		return r, true
	}
	v := verdictOf(c, base, s.System)
	if needs(v, "layer-under-joists") != s.UnderJoists || needs(v, "foam-in-bays") != s.FoamInBays {
		return Assess(a, p, site), false
	}
	r.facts, r.Verdict, r.Candidates = base, v, slices.Clone(r.Candidates)
	for i := range r.Candidates {
		r.Candidates[i].judge(s, c, base)
	}
	return r, false
}

// verdictOf evaluates the rule book with figures in the texts written in the
// system of units that is shown.
func verdictOf(c *catalog.Catalog, f *rules.Facts, sys units.System) rules.Verdict {
	v := c.Book().Eval(f)
	format := formatIn(sys)
	for _, hits := range [][]rules.Hit{v.Excluded, v.Safety, v.Install, v.For, v.Against, v.Depends} {
		for i := range hits {
			write(c, &hits[i], f, sys, format)
		}
	}
	for i := range v.Require {
		write(c, &v.Require[i].Hit, f, sys, format)
	}
	return v
}

// write puts the figures of a text in a system of units.
func write(c *catalog.Catalog, h *rules.Hit, f *rules.Facts, sys units.System, format rules.Format) {
	if !strings.Contains(h.Rule.Reason, "{") {
		return // no figure in it
	}
	if text, ok := c.Reason(h.Rule.ID, sys); ok {
		h.Text = text
		return
	}
	h.Text = c.Book().Render(h.Rule, f, format)
}

// formatIn shows the figures of a reason in a system of units.
func formatIn(sys units.System) rules.Format {
	return func(fact rules.Fact, value rules.Value) string {
		if fact.Unit == rules.Written {
			return units.Figure(value.String(), sys)
		}
		n, ok := value.AsNumber()
		if !ok {
			return rules.Plain(fact, value)
		}
		if fact.Unit == "%" {
			return sys.Humidity(n / 100)
		}
		if text, ok := sys.Of(n, fact.Unit); ok {
			return text
		}
		return rules.Plain(fact, value)
	}
}

// dampRank orders the verdicts, mildest first.
var dampRank = map[string]int{NoBuildUp: 0, Dries: 1, MoldRisk: 2, StaysWet: 3}

// retard adds a retarder that the code leaves open where the damp check comes
// out better with it. Where the code bars one, or the builder has decided, the
// facing stays as it is.
func (a *Assessed) retard(s Surface, site Site, c *catalog.Catalog, t Target) {
	if a.Facing.Asked != RetarderNone || a.Damp.Verdict != MoldRisk && a.Damp.Verdict != StaysWet {
		return
	}
	try, ok := openRetarder(a.Facing, s, a.Layers[0].Product.Has)
	if !ok {
		return
	}
	try.Class = classOf(try, c)
	try.pairs(s, site, c, a.Blankets, t)
	damp := dampOf(s, site, c, a.Blankets, try, t)
	if damp.Checked && dampRank[damp.Verdict] < dampRank[a.Damp.Verdict] {
		a.Facing, a.Damp = try, damp
	}
}

// adjust shifts a value by what the rules add or take, within 0 and 1.
func adjust(m *Measure, delta float64) {
	clamp := func(v float64) float64 { return min(1, max(0, v+delta)) }
	m.Value.Low, m.Value.Typical, m.Value.High = clamp(m.Value.Low), clamp(m.Value.Typical), clamp(m.Value.High)
}

// RefLists are the sources of each part of the work, as they stand: with those
// that are named twice, and without that of the material.
func (a *Assessed) RefLists() [4][]catalog.Ref {
	return [4][]catalog.Ref{a.Heat.From, a.Damp.From, a.Money.From, a.Facing.From}
}
