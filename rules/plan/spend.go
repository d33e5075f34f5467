package plan

import (
	"math"
	"slices"
	"strings"

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
	Rounded bool        // counted in whole dollars, rounded up
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

// market turns the plan into the budget problem. value is fit in points times
// the stake of the place.
func (p Plan) market(c *catalog.Catalog, how string) ([]budget.Place, []spendable) {
	share := stakes(p.Places, how)
	var places []budget.Place
	var back []spendable
	for i := range p.Places {
		place := &p.Places[i]
		if place.Choice == nil {
			continue
		}
		weights := fitWeights(c, place.Weights)
		b := budget.Place{ID: place.Surface.ID}
		s := spendable{place: i}
		for _, cand := range optionsOf(place) {
			fit, _ := score(weights, cand.Values)
			b.Options = append(b.Options, budget.Option{ID: stackID(*cand), Cost: max(0, cand.Money.Total.Typical), Value: fit * share[i]})
			s.from = append(s.from, cand)
		}
		places, back = append(places, b), append(back, s)
	}
	return places, back
}

// spend fits the choices into the budget, when they are above it: the best set
// over fit that the money buys, or the cheapest set that meets the
// requirements when not even that is within it.
func (p *Plan) spend(c *catalog.Catalog, prefs Preferences) {
	p.own()
	for {
		places, back := p.market(c, prefs.Stakes)
		if len(places) == 0 {
			return
		}
		best, err := budget.Best(places, max(0, prefs.Budget))
		if err != nil {
			p.Spend.Failed = err.Error()
			return
		}
		if !p.judged(best.Set.Picks, back) {
			continue
		}
		p.Spend.Applied, p.Spend.Missing, p.Spend.Rounded = true, best.Missing, best.Rounded
		p.take(c, best.Set.Picks, back)
		return
	}
}

// take makes a set the choice of the plan.
func (p *Plan) take(c *catalog.Catalog, picks []int, back []spendable) {
	for k, pick := range picks {
		place := &p.Places[back[k].place]
		cand := *back[k].from[pick]
		if place.Choice != nil && stackID(place.Choice.Assessed) == stackID(cand) {
			continue
		}
		e := place.EntryOf(cand.Material.ID)
		if e == nil {
			continue
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

// Rung is one set on the ladder of what the next dollars buy.
type Rung struct {
	Cost    units.Cents
	Extra   units.Cents // above the rung before
	Changes []RungChange
	Here    bool // the plan as it stands
}

// RungChange is one place that gets another blanket on a rung.
type RungChange struct {
	Label    string
	From, To candidate.Assessed
}

// Ladder is the whole frontier: each rung the best set for its money, from the
// cheapest up. It is worked out when its screen is shown.
func (p Plan) Ladder(c *catalog.Catalog, how string) ([]Rung, error) {
	p.Places = slices.Clone(p.Places)
	p.own()
	for {
		sets, back, err := p.frontier(c, how)
		if err != nil {
			return nil, err
		}
		known := true
		for _, set := range sets {
			known = p.judged(set.Picks, back) && known
		}
		if known {
			return p.rungs(sets, back), nil
		}
	}
}

// frontier are the best sets, from the cheapest up.
func (p *Plan) frontier(c *catalog.Catalog, how string) ([]budget.Set, []spendable, error) {
	places, back := p.market(c, how)
	if len(places) == 0 {
		return nil, nil, nil
	}
	front, err := budget.Frontier(places)
	if err != nil {
		return nil, nil, err
	}
	var out []budget.Set
	for i := range front.Points {
		set, err := front.Set(i)
		if err != nil {
			return nil, nil, err
		}
		out = append(out, set)
	}
	return out, back, nil
}

// rungs tells what each set has other than the one below it.
func (p *Plan) rungs(sets []budget.Set, back []spendable) []Rung {
	var out []Rung
	var before budget.Set
	for i, set := range sets {
		r := Rung{Cost: set.Cost, Here: p.isSet(set.Picks, back)}
		if i > 0 {
			r.Extra = set.Cost - before.Cost
			for k := range set.Picks {
				if set.Picks[k] != before.Picks[k] {
					r.Changes = append(r.Changes, RungChange{p.Places[back[k].place].Surface.Label, *back[k].from[before.Picks[k]], *back[k].from[set.Picks[k]]})
				}
			}
		}
		before = set
		out = append(out, r)
	}
	return out
}

// isSet reports whether the plan is the set with these picks.
func (p Plan) isSet(picks []int, back []spendable) bool {
	for k, pick := range picks {
		if choice := p.Places[back[k].place].Choice; stackID(choice.Assessed) != stackID(*back[k].from[pick]) {
			return false
		}
	}
	return true
}

// OnLadder finds the rung of the plan. The plan need not be one of them, since
// price is among its priorities: then at is the nearest rung that costs no
// more, and on is false.
func (p Plan) OnLadder(rungs []Rung) (at int, on bool) {
	for i, r := range rungs {
		if r.Here {
			return i, true
		}
		if r.Cost <= p.Money.Total.Typical {
			at = i
		}
	}
	return at, false
}

// spendIt is the answer that makes a budget money to spend.
const spendIt = "spend"

// Take is what choosing a rung answers: its price, to be spent. The plan is
// then the set of the rung.
func (r Rung) Take(list *house.QuestionList, store func(house.Question, house.Answer)) {
	for _, x := range []struct {
		key    string
		answer house.Answer
	}{{"budget.total_usd", house.Number(r.Cost.Dollars())}, {"budget.use", house.Text(spendIt)}} {
		if q, ok := list.Find(x.key); ok {
			store(q, x.answer)
		}
	}
}

// stakesOf reads how places are weighed against each other.
func stakesOf(a house.Answered) string { return a.Text(house.Budget, nil, "stakes") }
