package plan

import (
	"math"
	"slices"
	"strings"

	"battwright/rules/bill"
	"battwright/rules/budget"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Spend is what the budget does to the whole house.
type Spend struct {
	Applied bool        // the choices below are the best set within the budget
	Missing units.Cents // by how much even the cheapest set is above the budget
	Proved  bool        // no better set is within the budget; else the best that a search found
	Failed  string      // why no set could be worked out
}

// costCriterion is the priority that the budget replaces: money is one axis of
// the choice and fit, made of the other priorities, is the other.
const costCriterion = "cost"

// fitWeights are the weights of a place without the cost priority. When only
// cost matters nothing is left to tell the sets apart, and all count alike.
func fitWeights(c *catalog.Catalog, weights []float64) []float64 {
	out := make([]float64, len(weights))
	sum := 0.0
	for i, k := range c.Criteria {
		if k.ID != costCriterion {
			out[i] = weights[i]
			sum += weights[i]
		}
	}
	for i, k := range c.Criteria {
		switch {
		case k.ID == costCriterion:
		case sum > 0:
			out[i] /= sum
		default:
			out[i] = 1 / float64(len(weights)-1)
		}
	}
	return out
}

// stakes are how much each place counts, adding up to 1: by the heat that
// would be lost through it without a blanket, or each place alike.
func stakes(places []Place, how string) []float64 {
	out := make([]float64, len(places))
	sum := 0.0
	for i := range places {
		p := &places[i]
		out[i] = 1
		if how != "alike" && len(p.Candidates) > 0 {
			out[i] = p.Candidates[0].Heat.AtStake
		}
		sum += out[i]
	}
	for i := range out {
		if sum > 0 {
			out[i] /= sum
		}
	}
	return out
}

// spendable is one place as the budget sees it, with the way back.
type spendable struct {
	place int // index in the plan
	from  []*candidate.Assessed
}

// judged works out the damp of what a set picks, and reports whether it was known
// already: if not, another set may be the best.
func (p *Plan) judged(picks []int, back []spendable) bool {
	known := true
	for k, pick := range picks {
		place := &p.Places[back[k].place]
		for i := range place.Candidates {
			if a := &place.Candidates[i]; a == back[k].from[pick] && !a.Damp.WorkedOut() {
				known = false
				place.dampen(i)
			}
		}
	}
	return known
}

// dampen works out the damp of one candidate, and of all where it is a bad one.
func (p *Place) dampen(i int) {
	p.Dampen(i)
	if p.Candidates[i].Damp.Alarm() {
		for j := range p.Candidates {
			p.Dampen(j)
		}
	}
}

// own gives the plan candidates of its own, which nobody else looks at while their
// damp is worked out.
func (p *Plan) own() {
	for i := range p.Places {
		p.Places[i].Candidates = slices.Clone(p.Places[i].Candidates)
	}
}

// optionsOf lists the stacks of a place that may be bought: what meets the
// target, or where nothing does or the builder waived it, everything usable.
//
// They are not copied: a candidate holds everything about itself, and this
// runs on every keystroke.
func optionsOf(p *Place) []*candidate.Assessed {
	pool := make([]*candidate.Assessed, 0, len(p.Candidates))
	for i := range p.Candidates {
		cand := &p.Candidates[i]
		if cand.Excluded() || p.Surface.Pin != "" && cand.Material.ID != p.Surface.Pin && p.pinned() {
			continue
		}
		pool = append(pool, cand)
	}
	keep := func(is func(*candidate.Assessed) bool) {
		if slices.ContainsFunc(pool, is) {
			pool = slices.DeleteFunc(pool, func(a *candidate.Assessed) bool { return !is(a) })
		}
	}
	if !p.Surface.Waived {
		keep(func(a *candidate.Assessed) bool { return !a.Demoted() })
		keep(func(a *candidate.Assessed) bool { return a.Heat.MeetsTarget })
	}
	// Money never buys mold while something of the same standing stays drier.
	drier := func() []*candidate.Assessed {
		keep(driest(pool))
		return pool
	}
	if p.Surface.Waived {
		return drier()
	}
	// Where nothing reaches the target, what comes nearest is kept: money never
	// buys a lower R than the place can have.
	least := math.Inf(1)
	for _, a := range pool {
		least = math.Min(least, a.Heat.ShortByR)
	}
	keep(func(a *candidate.Assessed) bool { return a.Heat.ShortByR <= least })
	return drier()
}

// driest keeps the stacks of a pool that get least damp.
func driest(pool []*candidate.Assessed) func(*candidate.Assessed) bool {
	least := math.MaxInt
	for _, a := range pool {
		least = min(least, a.Damp.Risk())
	}
	return func(a *candidate.Assessed) bool { return a.Damp.Risk() <= least }
}

// pinned reports whether the pinned material may go here at all.
func (p *Place) pinned() bool {
	for i := range p.Candidates {
		if p.Candidates[i].Material.ID == p.Surface.Pin && !p.Candidates[i].Excluded() {
			return true
		}
	}
	return false
}

func stackID(a candidate.Assessed) string {
	var b strings.Builder
	b.WriteString(a.Material.ID + "/" + a.Facing.OnBlanket)
	for _, l := range a.Layers {
		b.WriteString("/" + l.Product.ID)
	}
	return b.String()
}

// market is the choice of the plan as the budget sees it: what may be bought in each
// place, and how it is sold. The value of a set is fit in points times the stake of
// each place.
type market struct {
	places []budget.PooledPlace
	packs  []budget.Pack
	back   []spendable
}

func (p Plan) market(c *catalog.Catalog, how string, counter *bill.Counter) market {
	share := stakes(p.Places, how)
	var out market
	var items [][]bill.Item
	for i := range p.Places {
		place := &p.Places[i]
		if place.Choice == nil {
			continue
		}
		s := spendable{place: i, from: optionsOf(place)}
		list := make([]bill.Item, len(s.from))
		for j, cand := range s.from {
			list[j] = itemWith(place, cand)
		}
		items, out.back = append(items, list), append(out.back, s)
	}
	takes, packs := counter.Market(items)
	back := out.back[:0]
	for k, s := range out.back {
		place := &p.Places[s.place]
		weights := fitWeights(c, place.Weights)
		b, kept := budget.PooledPlace{ID: place.Surface.ID}, spendable{place: s.place}
		for j, cand := range s.from {
			if !takes[k][j].Counted {
				continue
			}
			fit, _ := score(weights, cand.Values)
			b.Options = append(b.Options, budget.PooledOption{Option: budget.Option{ID: stackID(*cand), Cost: takes[k][j].Own, Value: fit * share[s.place]}, Uses: takes[k][j].Uses})
			kept.from = append(kept.from, cand)
		}
		if len(b.Options) > 0 { // else nobody can count it, whatever goes in
			out.places, back = append(out.places, b), append(back, kept)
		}
	}
	out.packs, out.back = packs, back
	return out
}

// spend fits the choices into the budget, when they are above it: the best set
// over fit that the money buys, or the cheapest set that meets the
// requirements when not even that is within it.
func (p *Plan) spend(c *catalog.Catalog, prefs Preferences, counter *bill.Counter) {
	limit := prefs.Budget
	const tries = 4
	for n := 0; ; {
		m := p.market(c, prefs.Stakes, counter)
		if len(m.places) == 0 {
			return
		}
		best, err := budget.BestPooled(m.places, m.packs, max(0, limit))
		if err != nil {
			p.Spend.Failed = err.Error()
			return
		}
		if !p.judged(best.Set.Picks, m.back) {
			continue
		}
		p.take(best.Set.Picks, m.back)
		p.charge(counter)
		// Only the bill has gear and all that no blanket changes: by what it is above
		// the sum of the set, the set must cost less.
		over := p.Over()
		if best.Missing > 0 || over == 0 || n == tries {
			p.Spend.Applied, p.Spend.Missing, p.Spend.Proved = true, over, best.Proved
			return
		}
		n++
		limit = min(limit, best.Set.Cost) - over
	}
}

// take makes a set the choice of the plan.
func (p *Plan) take(picks []int, back []spendable) {
	for k, pick := range picks {
		p.put(back[k].place, *back[k].from[pick])
	}
}

// put makes a stack the choice of a place.
func (p *Plan) put(i int, cand candidate.Assessed) {
	place := &p.Places[i]
	e := place.EntryOf(cand.Material.ID)
	if e == nil || place.Choice != nil && stackID(place.Choice.Assessed) == stackID(cand) {
		return
	}
	own := *e
	own.Assessed = cand
	own.Score, own.Parts = score(place.Weights, cand.Values)
	own.Others = othersOf(place, cand)
	if place.Best == nil {
		place.Best = place.Choice
	}
	place.Choice = &own
	place.settle()
}

// othersOf are the other stacks of the same material.
func othersOf(p *Place, chosen candidate.Assessed) []Variant {
	var out []Variant
	for i := range p.Candidates {
		cand := &p.Candidates[i]
		if cand.Material.ID == chosen.Material.ID && stackID(*cand) != stackID(chosen) {
			points, _ := score(p.Weights, cand.Values)
			out = append(out, Variant{cand, points})
		}
	}
	return out
}

// CanWait parts the places with a plan by whether their blanket can still go in
// once the drywall is up: not where drywall goes over it.
func (p Plan) CanWait() (wait, cannot []string) {
	for _, place := range p.Places {
		switch {
		case place.Choice == nil:
		case place.Surface.Kind.AfterDrywall && (place.Surface.Exposed || !place.Surface.Kind.AsksExposed()):
			wait = append(wait, place.Surface.Label)
		default:
			cannot = append(cannot, place.Surface.Label)
		}
	}
	return wait, cannot
}

// stakesOf reads how places are weighed against each other.
func stakesOf(a house.Answered) string { return a.Text(house.Budget, nil, "stakes") }
