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
	mostR float64      // most R on the bag that fits
	c     *catalog.Catalog
	site  *Site
	tried *PlaceResult // the place as it is, where answers are only tried
}

// Assess works out one place. It never fails: what cannot be worked out is
// said in the result.
func Assess(a house.Answered, p *house.Place, site Site) PlaceResult {
	return begin(a, p, surfaceOf(a, p), &site).Finish()
}

// Begun is a place of which all is worked out that hangs on no blanket: enough to
// tell what stops it.
type Begun struct {
	PlaceResult
	Same bool // answers reach nothing of it

	stands []Blankets   // that fit and are not too heavy
	stacks []Blankets   // of these, what is worth looking at; nil until they are asked for
	keep   Kept         // of the candidates there were before
	was    *PlaceResult // in the same place and weather, nil for none
}

func begin(a house.Answered, p *house.Place, s Surface, site *Site) Begun {
	b := Begun{PlaceResult: PlaceResult{Surface: s, c: a.List.Catalog(), site: site}}
	b.facts = placeFacts(a, p, b.Surface, *site)
	b.Verdict = verdictOf(b.c, b.facts, s.System)
	b.Surface.UnderJoists, b.Surface.FoamInBays = needs(b.Verdict, underJoistsNeed), needs(b.Verdict, foamInBaysNeed)
	if b.Surface.FoamInBays { // which other rules ask about
		b.facts = placeFacts(a, p, b.Surface, *site)
		b.Verdict = verdictOf(b.c, b.facts, s.System)
	}
	return b
}

// What a rule can require of a place whatever the blanket, and the check of damp
// counts on.
const underJoistsNeed, foamInBaysNeed = "layer-under-joists", "foam-in-bays"

// fit looks for what fits, and for what of it is worth looking at.
func (b *Begun) fit() {
	if b.stacks != nil {
		return
	}
	s := b.Surface
	fits, unfit := Fit(s, b.c)
	b.mostR = mostCavityR(fits)
	b.Target = targetOf(s, *b.site, b.c, b.mostR)
	stands, heavy := carried(s, b.Target, b.c, fits)
	b.Target.EnoughR = enoughR(s, b.Target, stands)
	b.stands, b.Unfit = stands, append(heavy, unfit...)
	b.stacks = choose(stands, func(x Blankets) bool { return enough(s, b.Target, x) })
}

// Finish works out the candidates.
func (b Begun) Finish() PlaceResult {
	switch {
	case b.Same:
		return b.PlaceResult
	case b.keep != KeptNothing:
		b.Candidates = slices.Clone(b.Candidates)
		for i := range b.Candidates {
			b.Candidates[i].again(b)
		}
		return b.PlaceResult
	}
	b.fit()
	out, t := b.PlaceResult, b.Target
	out.Candidates = make([]Assessed, 0, len(b.stacks))
	for _, x := range b.stacks {
		one := assessOne(out.Surface, *b.site, b.c, x, t, b.facts, b.was.candidate(x))
		one.Heat.FullHeelIn, one.Heat.FullLayers = lowestHeel(out.Surface, t, b.stands, x.Material.ID)
		out.Candidates = append(out.Candidates, one)
	}
	if t.Idle { // the blankets are compared as they would go in, board and all; nothing is bought
		out.Target.AddR = 0
	}
	return out
}

// needs reports whether a rule requires something of the place, whatever the
// blanket.
func needs(v rules.Verdict, what string) bool {
	return slices.ContainsFunc(v.Require, func(n rules.Need) bool { return n.Need == what })
}

// assessOne works out one candidate. was is the same stack in the same place and
// weather under another edition of the code, nil for none.
func assessOne(s Surface, site Site, c *catalog.Catalog, b Blankets, t Target, base *rules.Facts, was *Assessed) Assessed {
	out := Assessed{Blankets: b, Facing: facingOf(s, site, c, b, t)}
	var err error
	out.Heat, err = heatOf(s, site, c, b, t)
	if err != nil {
		out.Out = "its heat could not be worked out: " + err.Error()
	}
	if was != nil && was.Heat.AddOutsideR == t.AddR && was.Facing.like(out.Facing) {
		out.Money = was.Money
	} else {
		out.Money = moneyOf(s, c, b, out.Facing)
	}
	out.measured = valuesOf(s, c, b, out.Facing, out.Heat, out.Damp, out.Money, t)
	if was != nil {
		out.Facts, out.Verdict = was.Facts, was.Verdict
	}
	out.judge(s, c, base)
	for _, id := range s.RuledOut {
		if id == b.Material.ID {
			out.Out = "you ruled it out"
		}
	}
	return out
}

// candidate is one with the same blankets, nil for none.
func (r *PlaceResult) candidate(b Blankets) *Assessed {
	if r == nil {
		return nil
	}
	for i := range r.Candidates {
		if a := &r.Candidates[i]; a.Like(&Assessed{Blankets: b}) {
			return a
		}
	}
	return nil
}

// judge is what hangs on the facts alone: the verdict of the rules, and the
// values with what it adds and takes.
func (a *Assessed) judge(s Surface, c *catalog.Catalog, base *rules.Facts) {
	was := a.Facts
	a.Facts = candidateFacts(base, s, c, a.Blankets, a.Facing, a.Heat, a.Damp)
	if was == nil {
		a.Verdict = verdictOf(c, a.Facts, s.System)
	} else {
		a.Verdict = revised(c, a.Verdict, was, a.Facts, s.System)
	}
	a.Values = slices.Clone(a.measured)
	for i, v := range a.Values {
		adjust(&a.Values[i], a.Verdict.Adjust[v.Criterion])
	}
}

// Revise begins a place again after answers changed, with what they do not reach
// kept. Where the place and the weather are as they were, only the facts for the
// rules can differ, and what the edition of the code asks.
func (r PlaceResult) Revise(a house.Answered, p *house.Place, site *Site, kept Kept) Begun {
	c, s := a.List.Catalog(), surfaceOf(a, p)
	now := s
	now.UnderJoists, now.FoamInBays = r.Surface.UnderJoists, r.Surface.FoamInBays
	if kept == KeptNothing || !reflect.DeepEqual(&now, &r.Surface) {
		return begin(a, p, s, site)
	}
	if kept == KeptWeather {
		t := targetOf(s, *site, c, r.mostR)
		if t.EnoughR = r.Target.EnoughR; !t.asksLike(r.Target) {
			b := begin(a, p, s, site)
			if reflect.DeepEqual(&b.Surface, &r.Surface) {
				b.was = &r
			}
			return b
		}
		r.Target = t
	}
	base := placeFacts(a, p, now, *site)
	if kept == KeptSite && reflect.DeepEqual(base, r.facts) {
		return Begun{PlaceResult: r, Same: true}
	}
	v := revised(c, r.Verdict, r.facts, base, s.System)
	if needs(v, underJoistsNeed) != now.UnderJoists || needs(v, foamInBaysNeed) != now.FoamInBays {
		return begin(a, p, s, site)
	}
	r.facts, r.Verdict = base, v
	r.c, r.site = c, site
	return Begun{PlaceResult: r, keep: kept}
}

// again is a candidate after answers that did not reach what it is judged by. Under
// another edition its facing can be another, and what that leads to; so it always is
// where the damp check added one.
func (a *Assessed) again(b Begun) {
	if b.keep == KeptWeather {
		f := facingOf(b.Surface, *b.site, b.c, a.Blankets, b.Target)
		if !a.Heat.plain() || !a.Facing.like(f) {
			in, layers := a.Heat.FullHeelIn, a.Heat.FullLayers
			*a = assessOne(b.Surface, *b.site, b.c, a.Blankets, b.Target, b.facts, a)
			a.Heat.FullHeelIn, a.Heat.FullLayers = in, layers
			return
		}
		a.Facing = f
	}
	a.judge(b.Surface, b.c, b.facts)
}

// verdictOf evaluates the rule book with figures in the texts written in the
// system of units that is shown.
func verdictOf(c *catalog.Catalog, f *rules.Facts, sys units.System) rules.Verdict {
	return c.Book().EvalWith(f, writer(c, f, sys))
}

// revised is verdictOf where there is a verdict on other facts already.
func revised(c *catalog.Catalog, v rules.Verdict, was, now *rules.Facts, sys units.System) rules.Verdict {
	return c.Book().Revise(v, was, now, writer(c, now, sys))
}

// writer writes the texts of hits.
func writer(c *catalog.Catalog, f *rules.Facts, sys units.System) func(*rules.Hit) {
	format := formatIn(sys)
	return func(h *rules.Hit) { write(c, h, f, sys, format) }
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

// leastLength is the shortest length that a reason names, in inches: a sixteenth,
// the finest mark of a tape measure.
const leastLength = 1.0 / 16

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
			return sys.Percent(n / 100)
		}
		if fact.Unit == "in" && n > 0 && n < leastLength {
			return "less than " + sys.Inches(leastLength) // what stops a place is never 0
		}
		if text, ok := sys.Of(n, fact.Unit); ok {
			return text
		}
		return rules.Plain(fact, value)
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
