package plan

import (
	"cmp"
	"math"
	"slices"

	"battwright/rules/budget"
	"battwright/rules/candidate"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Rung is one plan on the ladder of what the next dollars buy.
type Rung struct {
	Cost    units.Cents // of its bill, typical
	Extra   units.Cents // above the rung before
	Changes []RungChange
	Here    bool // the plan as it stands
	Least   bool // nothing cheaper meets what may be bought

	budget units.Cents // that buys it
	picks  []int
}

// RungChange is one place that gets another blanket on a rung.
type RungChange struct {
	Label    string
	From, To candidate.Assessed
}

const (
	mostRungs = 8
	// stepShare is the part of a plan's cost below which nobody notices a step.
	stepShare = 0.03
	// samples is how many amounts are tried between the cheapest plan and the best.
	samples = 24
)

// Ladder is what ever more money buys, from the cheapest plan up: each rung the best
// plan for its budget, none takes back what a lower one gave, each step one that
// somebody would notice, and the plan as it stands is one of them. It is worked out
// when its screen is shown.
func (a Assessment) Ladder(p Plan, how string) []Rung {
	c := a.Answered.List.Catalog()
	p.Places = slices.Clone(p.Places)
	p.own()
	m := p.market(c, how, a.counter)
	if len(m.places) == 0 {
		return nil
	}
	return rungsOf(m, a.climb(p, m, how), p)
}

// climb tries amounts from that of the cheapest plan to that of the best.
func (a Assessment) climb(p Plan, m market, how string) []Rung {
	c := a.Answered.List.Catalog()
	try := func(within units.Cents) Rung {
		q := p
		q.Places = slices.Clone(p.Places)
		q.Bill.Money.Budget, q.Bill.Money.HasBudget = within, true
		q.spend(c, Preferences{Budget: within, HasBudget: true, Stakes: how}, a.counter)
		return Rung{Cost: q.Bill.Money.Total.Typical, budget: within, picks: q.picksOf(m)}
	}
	low, high := try(0), try(budget.MaxCost)
	low.budget, low.Least = wholeDollars(low.Cost), true
	out := []Rung{low}
	for i := 1; i <= samples; i++ {
		next := try(wholeDollars(low.Cost + (high.Cost-low.Cost)*units.Cents(i)/samples))
		if !slices.Equal(next.picks, out[len(out)-1].picks) {
			out = append(out, next)
		}
	}
	return out
}

// wholeDollars rounds an amount up to tens of dollars, as somebody would type it.
func wholeDollars(c units.Cents) units.Cents {
	const ten = 1000
	return (c + ten - 1) / ten * ten
}

// picksOf are the options of a market that the plan takes; -1 where it takes none of
// them.
func (p Plan) picksOf(m market) []int {
	out := make([]int, len(m.back))
	for k, s := range m.back {
		choice := p.Places[s.place].Choice
		out[k] = slices.IndexFunc(s.from, func(a *candidate.Assessed) bool { return choice != nil && stackID(*a) == stackID(choice.Assessed) })
	}
	return out
}

// rungsOf leaves those that climb from one to the next, the plan among them, and tells
// what each has other than the one below.
func rungsOf(m market, all []Rung, p Plan) []Rung {
	now := Rung{Cost: p.Bill.Money.Total.Typical, Here: true, picks: p.picksOf(m)}
	most := max(now.Cost, all[len(all)-1].Cost)
	out := chain(m, all, now, units.Cents(math.Ceil(stepShare*float64(now.Cost))))
	for n := mostRungs * 4; len(out) > mostRungs; n-- { // ever longer steps
		out = chain(m, all, now, most/units.Cents(n)+1)
	}
	for i := range out {
		if i == 0 {
			continue
		}
		before, r := out[i-1], &out[i]
		r.Extra = r.Cost - before.Cost
		for k := range r.picks {
			if from, to := before.picks[k], r.picks[k]; from != to && from >= 0 && to >= 0 {
				s := m.back[k]
				r.Changes = append(r.Changes, RungChange{p.Places[s.place].Surface.Label, *s.from[from], *s.from[to]})
			}
		}
	}
	return out
}

// chain goes from the plan down and up, each time to the nearest rung that is a step
// away and takes nothing back. It begins with the cheapest, however near that is.
func chain(m market, all []Rung, now Rung, step units.Cents) []Rung {
	step = max(1, step)
	low, out := all[0], []Rung{now}
	if slices.Equal(low.picks, now.picks) {
		out[0].Least = true
	}
	for i := len(all) - 1; i > 0; i-- {
		if above := out[0]; above.Cost-all[i].Cost >= step && all[i].Cost-low.Cost >= step && m.climbs(all[i].picks, above.picks) {
			out = slices.Insert(out, 0, all[i])
		}
	}
	if low.Cost < out[0].Cost && m.climbs(low.picks, out[0].picks) {
		out = slices.Insert(out, 0, low)
	}
	for _, r := range all {
		if top := out[len(out)-1]; r.Cost-top.Cost >= step && m.climbs(top.picks, r.picks) {
			out = append(out, r)
		}
	}
	return out
}

// climbs reports whether no place has less of what counts in the second set.
func (m market) climbs(from, to []int) bool {
	for k := range from {
		if from[k] >= 0 && to[k] >= 0 && cmp.Less(m.places[k].Options[to[k]].Value, m.places[k].Options[from[k]].Value) {
			return false
		}
	}
	return true
}

// HereOn is the rung that is the plan.
func HereOn(rungs []Rung) int {
	return max(0, slices.IndexFunc(rungs, func(r Rung) bool { return r.Here }))
}

// spendIt is the answer that makes a budget money to spend.
const spendIt = "spend"

// Take is what choosing a rung answers: the budget that buys it, to be spent. The plan
// is then the rung. The rung of the plan itself answers nothing.
func (r Rung) Take(list *house.QuestionList, store func(house.Question, house.Answer)) {
	if r.Here {
		return
	}
	for _, x := range []struct {
		key    string
		answer house.Answer
	}{{"budget.total_usd", house.Number(r.budget.Dollars())}, {"budget.use", house.Text(spendIt)}} {
		if q, ok := list.Find(x.key); ok {
			store(q, x.answer)
		}
	}
}
