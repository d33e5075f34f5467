package plan

import (
	"cmp"
	"fmt"
	"slices"

	"battwright/rules/bill"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/rank"
)

// Weigh ranks and chooses under one set of preferences. It looks nothing up
// again: scores, ranking and choice come from the assessment alone.
func (a Assessment) Weigh(p Preferences) Plan {
	c := a.Answered.List.Catalog()
	if a.counter == nil {
		a.counter = bill.NewCounter(a.Answered)
	}
	out := a.weighed(p)
	out.Name, out.Stage = a.Answered.Text(house.Top, nil, "name"), a.Answered.Text(house.Top, nil, "stage")
	out.Overlaid = c.Overlaid
	for _, k := range c.Criteria {
		out.Priorities = append(out.Priorities, Priority{k.ID, k.Name, p.Priorities[k.ID]})
	}
	out.spread()
	a.waysOut(&out)
	a.hinges(&out, p)
	a.said(&out)
	a.notCovered(&out)
	sources(&out, c)
	return out
}

// WeighLike is Weigh without working out a year: what is judged in another plan of the
// house keeps its verdict, all else has none. It is quick, and what it chooses may
// not stand.
func (a Assessment) WeighLike(p Preferences, like Plan) Plan {
	a.Places = slices.Clone(a.Places)
	for i := range a.Places {
		was := &candidate.PlaceResult{}
		for j := range like.Places {
			if like.Places[j].Surface.ID == a.Places[i].Surface.ID {
				was = &like.Places[j].PlaceResult
			}
		}
		a.Places[i].As(was)
	}
	return a.Weigh(p)
}

// weighed is the choice of every place and what it costs, without the words
// around it.
func (a Assessment) weighed(p Preferences) Plan {
	out := Plan{Site: a.Site, Places: a.weighedAlone(p)}
	out.afford(a.Answered.List.Catalog(), p, a.counter)
	return out
}

// weighedAlone is the choice of every place before the budget has a say.
func (a Assessment) weighedAlone(p Preferences) []Place {
	out := make([]Place, 0, len(a.Places))
	for _, place := range a.Places {
		out = append(out, weighOne(a.Answered.List.Catalog(), place, p))
	}
	return out
}

// afford makes the bill, and chooses within the budget where that is too much, or is
// to be spent.
func (p *Plan) afford(c *catalog.Catalog, prefs Preferences, counter *bill.Counter) {
	p.Bill.Money.Budget, p.Bill.Money.HasBudget = prefs.Budget, prefs.HasBudget
	p.charge(counter)
	p.useUp(counter)
	if p.Over() > 0 || prefs.HasBudget && prefs.Spend {
		p.own()
		p.spend(c, prefs, counter)
	}
}

// weighOne weighs one place by itself; no other place and no budget has a say.
func weighOne(c *catalog.Catalog, place candidate.PlaceResult, p Preferences) Place {
	own := p.Places[place.Surface.ID]
	out := weighPlace(c, place, weightsOf(c, p.Priorities, own), (*Place).unjudged)
	out.Levels, out.Own = levelsOf(c, p.Priorities, own), own != nil
	out.Limited = p.HasBudget
	return out
}

// levelsOf lists the levels in the order of the criteria; a place's own win.
func levelsOf(c *catalog.Catalog, levels, own map[string]float64) []float64 {
	in := make([]float64, len(c.Criteria))
	for i, k := range c.Criteria {
		in[i] = levels[k.ID]
		if v, ok := own[k.ID]; ok {
			in[i] = v
		}
	}
	return in
}

func weightsOf(c *catalog.Catalog, levels, own map[string]float64) []float64 {
	in := levelsOf(c, levels, own)
	// Levels are checked when they are read, so this cannot fail; equal weights
	// are what no preference at all means.
	w, err := rank.PriorityWeights(in)
	if err != nil {
		w, _ = rank.EqualWeights(len(in))
	}
	return w
}

func typical(measures []candidate.Measure) []float64 {
	out := make([]float64, len(measures))
	for i, m := range measures {
		out[i] = m.Value.Typical
	}
	return out
}

// score is 100 times the weighted sum, with the parts that add up to it.
func score(weights []float64, measures []candidate.Measure) (float64, []float64) {
	points, parts, err := rank.Score(weights, typical(measures))
	if err != nil {
		return 0, make([]float64, len(weights))
	}
	return points, parts
}

// weighPlace weighs a place, and works out the damp of what comes out first until
// that has a verdict. The rest of a place is worked out only where something gets
// wet or molds: then it matters what else there is. need lists what must be known yet.
func weighPlace(c *catalog.Catalog, r candidate.PlaceResult, weights []float64, need func(*Place) []int) Place {
	r.Candidates = slices.Clone(r.Candidates)
	for {
		out := weighOnce(c, r, weights)
		next := need(&out)
		if len(next) == 0 {
			return out
		}
		for _, i := range next {
			r.Dampen(i)
		}
	}
}

// unjudged are the candidates whose damp must be known before the choice stands:
// the choice itself; and where anything of the place gets wet or molds, all.
func (p *Place) unjudged() []int {
	if slices.ContainsFunc(p.Candidates, func(a candidate.Assessed) bool { return a.Damp.Alarm() }) {
		return p.unjudgedOf(func(*candidate.Assessed) bool { return true })
	}
	return p.unjudgedChoice()
}

// unjudgedChoice is the choice alone, while its damp is not worked out.
func (p *Place) unjudgedChoice() []int {
	return p.unjudgedOf(func(x *candidate.Assessed) bool { return x.Like(&p.Choice.Assessed) })
}

func (p *Place) unjudgedOf(is func(*candidate.Assessed) bool) []int {
	if p.Choice == nil {
		return nil
	}
	var out []int
	for i := range p.Candidates {
		if a := &p.Candidates[i]; !a.Damp.WorkedOut() && !a.Excluded() && is(a) {
			out = append(out, i)
		}
	}
	return out
}

func weighOnce(c *catalog.Catalog, r candidate.PlaceResult, weights []float64) Place {
	out := Place{PlaceResult: r, Weights: weights, Entries: make([]Entry, 0, len(c.Materials))}
	for _, m := range c.Materials {
		out.Entries = append(out.Entries, entryOf(m, r, weights))
	}
	rankEntries(out.Entries, r.Surface.Waived)
	if out.Stops = stopsOf(r.Verdict); !out.Stopped() && r.Surface.Held() == "" {
		out.choose()
	}
	out.settle()
	out.alsoAsk(c)
	return out
}

// entryOf picks the best stack of one material: what meets the target first,
// then by score, then the cheaper.
func entryOf(m catalog.Material, r candidate.PlaceResult, weights []float64) Entry {
	e := Entry{MaterialID: m.ID, Name: m.Name}
	count := 0
	for i := range r.Candidates {
		if r.Candidates[i].Material.ID == m.ID {
			count++
		}
	}
	all := make([]Variant, 0, count)
	for i := range r.Candidates {
		if cand := &r.Candidates[i]; cand.Material.ID == m.ID {
			s, _ := score(weights, cand.Values)
			all = append(all, Variant{cand, s})
		}
	}
	if len(all) == 0 {
		e.NoFit, e.Material = noFit(m, r), &catalog.Material{}
		return e
	}
	slices.SortStableFunc(all, byWorth(r.Surface.Waived))
	e.Assessed, e.Others = *all[0].Assessed, all[1:]
	e.Score, e.Parts = score(weights, e.Values)
	return e
}

// byWorth orders the stacks of one material: by standing, then by score, then
// the cheaper.
func byWorth(waived bool) func(a, b Variant) int {
	return func(a, b Variant) int {
		short := 0
		if !a.Heat.MeetsTarget && !b.Heat.MeetsTarget {
			// Short of the target, the stack that comes nearest is worth more than
			// a few points.
			short = cmp.Compare(a.Heat.ShortByR, b.Heat.ShortByR)
		}
		return cmp.Or(
			standingOf(a.Assessed, waived).compare(standingOf(b.Assessed, waived)),
			short,
			cmp.Compare(b.Score, a.Score),
			cmp.Compare(a.Money.PerFt2.Typical, b.Money.PerFt2.Typical),
		)
	}
}

func noFit(m catalog.Material, r candidate.PlaceResult) string {
	for _, u := range r.Unfit {
		if u.Product.Material == m.ID {
			return fmt.Sprintf("none fits (%s: %s)", r.Surface.System.R(u.Product.NominalR), u.Why)
		}
	}
	return "none fits"
}

// rankEntries orders the materials by standing, those of one standing by score;
// excluded ones and those that do not fit come last, unranked.
func rankEntries(entries []Entry, waived bool) {
	slices.SortStableFunc(entries, func(a, b Entry) int {
		return cmp.Or(
			asInt(!a.Usable())-asInt(!b.Usable()),
			standingOf(&a.Assessed, waived).compare(standingOf(&b.Assessed, waived)),
			cmp.Compare(b.Score, a.Score),
			cmp.Compare(a.Money.PerFt2.Typical, b.Money.PerFt2.Typical),
			cmp.Compare(a.MaterialID, b.MaterialID),
		)
	})
	n := 0
	for i := range entries {
		if entries[i].Usable() {
			n++
			entries[i].Rank = n
		}
	}
}

// choose takes the best usable entry, or the pinned material when it may go
// there at all.
func (p *Place) choose() {
	if p.Target.Idle {
		return // compared, for whoever wants one all the same
	}
	for i := range p.Entries {
		e := &p.Entries[i]
		if !e.Usable() {
			continue
		}
		if p.Choice == nil {
			p.Choice = e
		}
		if e.MaterialID == p.Surface.Pin && e != p.Choice {
			p.Best, p.Choice = p.Choice, e
		}
	}
}
