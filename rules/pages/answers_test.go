package pages_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// forTheRecord is a question whose answer is only handed on.
func forTheRecord(q house.Question) bool { return q.Record }

// tries are answers that tell a question apart from its own silence.
func tries(q house.Question) []house.Answer {
	var out []house.Answer
	switch q.Kind {
	case house.Choice:
		for _, o := range q.Options {
			out = append(out, house.Text(o.Value))
		}
	case house.YesNoKind:
		out = []house.Answer{house.YesNo(true), house.YesNo(false)}
	case house.NumberKind:
		for _, share := range []float64{0, 0.02, 0.1, 0.3, 1} {
			v := q.Min + share*(q.Max-q.Min)
			if q.Whole {
				v = float64(int(v))
			}
			out = append(out, house.Number(v))
		}
	case house.Many:
		for _, o := range q.Options {
			out = append(out, house.List(o.Value))
		}
	case house.Numbers:
		if q.Count == 0 {
			out = []house.Answer{house.List("12", "9"), house.List("40")}
		} else {
			list := make([]string, q.Count)
			for i := range list {
				list[i] = "3.5"
			}
			out = []house.Answer{house.List(list...)}
		}
	case house.Sizes:
		out = []house.Answer{house.List("2 of 36 in x 48 in")}
	case house.TextKind:
		out = []house.Answer{house.Text("Somewhere else"), house.Text("GA"), house.Text("Fulton"), house.Text("2A"), house.Text("atlanta-ga")}
	}
	return slices.DeleteFunc(out, func(a house.Answer) bool { return q.Check(a) != nil })
}

// told is what plan, order and handover say of a house, without the lists that
// only repeat the answers.
func told(t *testing.T, a house.Answered) string {
	t.Helper()
	o := planned.Options(t)
	assessed := plan.Assess(a)
	p := assessed.Weigh(plan.PreferencesOf(a, nil))
	p.Assumed, p.Unknown = nil, nil
	h := pages.Handover{Job: inspect.NewJob(assessed, p, units.US)}
	text, err := planned.Handed(h, o)
	require.NoError(t, err)
	return print.Text(pages.PlanPage(p, o), o.Width) + print.Text(pages.OrderPage(order.Make(p, a), p, o), o.Width) + text
}

// shaped is the house with the places its shape proposes, for a question about
// the shape; else the house as it is.
func shaped(a house.Answered, q house.Question) house.Answered {
	if q.Scope != house.Shape {
		return a
	}
	a = fixture.Copy(a)
	a.House.Places = nil
	house.Propose(a.List, a.House)
	return a
}

// changes reports whether some answer to a question changes what is told of
// some house of the kind.
func changes(t *testing.T, q house.Question, kind string) bool {
	t.Helper()
	rng := rand.New(rand.NewPCG(31, uint64(len(kind))))
	for range 200 { // most chimneys by chance have no plan
		a := fixture.RandomHouse(t, rng, kind)
		if q.Scope == house.Drawings { // asked only of drawings that name R-values
			a.House.Answers.Set("drawings", house.YesNo(true))
		}
		if q.FullKey() == "site.indoor" { // only the damp check hears it
			a = fixture.Judged(t, a)
		}
		if q.FullKey() == "budget.stakes" { // it matters where the budget has a say
			a = fixture.Copy(a)
			a.House.Answers.Set("budget.use", house.Text("spend"))
			a.House.Answers.Set("budget.total_usd", house.Number(math.Round(plan.Make(a).Bill.Money.Total.Typical.Dollars()*1.2)))
		}
		before := ""
		for _, answer := range tries(q) {
			now := fixture.Copy(a)
			var p *house.Place
			if q.Scope == house.PlaceScope {
				p = &now.House.Places[0]
			}
			now.Store(q, p, answer)
			if !now.Asked(q, p) {
				continue
			}
			if before == "" {
				before = told(t, shaped(a, q))
			}
			if told(t, shaped(now, q)) != before {
				return true
			}
		}
	}
	return false
}

// No question is asked for nothing: some answer changes a line of the plan, the
// order or the handover, or the question says that it is for the record.
func TestEveryAnswerMatters(t *testing.T) {
	if testing.Short() {
		t.Skip("many houses, one after the other: the plain run tries them all")
	}
	l := fixture.List(t)
	for _, q := range l.Questions {
		if q.Scope == house.PlaceScope {
			continue
		}
		t.Run(q.FullKey(), func(t *testing.T) {
			matters := slices.ContainsFunc(l.PlaceKinds(), func(kind string) bool { return changes(t, q, kind) })
			require.Equal(t, !forTheRecord(q), matters, "%s", q.FullKey())
		})
	}
	for _, kind := range l.PlaceKinds() {
		for _, q := range l.In(house.PlaceScope, kind) {
			if q.ForDamp {
				continue // a year for each takes long: TestWhatGoesOnTheDrywallTells and its like
			}
			t.Run(kind+"/"+q.Key, func(t *testing.T) {
				require.Equal(t, !forTheRecord(q), changes(t, q, kind), "%s of %s", q.FullKey(), kind)
			})
		}
	}
}

// No safety question is asked in vain: some answer to it stops the place or
// warns, and the warning stands in every form of the plan and on the sheet of
// the place, or the sheet says that the place has none.
func TestEverySafetyAnswerIsHeardEverywhere(t *testing.T) {
	if testing.Short() {
		t.Skip("many houses, one after the other: the plain run tries them all")
	}
	l, o := fixture.List(t), planned.Options(t)
	for _, kind := range l.PlaceKinds() {
		for _, q := range l.In(house.PlaceScope, kind) {
			if !q.Safety {
				continue
			}
			t.Run(kind+"/"+q.Key, func(t *testing.T) {
				heard := 0
				rng := rand.New(rand.NewPCG(32, uint64(len(kind))))
				for range 40 { // a place that is stopped says nothing else
					a := fixture.RandomHouse(t, rng, kind)
					before := cautionsOf(plan.Make(a))
					for _, answer := range tries(q) {
						now := fixture.Copy(a)
						now.Store(q, &now.House.Places[0], answer)
						if !now.Asked(q, &now.House.Places[0]) {
							continue
						}
						p := plan.Make(now)
						for _, h := range p.Places[0].Safety {
							if slices.Contains(before, h.Rule.ID) {
								continue
							}
							heard++
							for form, text := range planned.Forms(t, p, o) {
								if form != "csv" {
									require.Contains(t, spaced(text), spaced(o.Catalog.Caution(h, o.System)), form)
								}
							}
						}
					}
				}
				require.Positive(t, heard, "no answer to %s of %s is heard", q.FullKey(), kind)
			})
		}
	}
}

func cautionsOf(p plan.Plan) []string {
	var out []string
	for _, h := range p.Places[0].Safety {
		out = append(out, h.Rule.ID)
	}
	return out
}

// spaced undoes the breaking of lines, and what Markdown and JSON write otherwise.
func spaced(s string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("\\", "", "! ", "").Replace(s)), " ")
}
