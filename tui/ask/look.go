package ask

import (
	"fmt"
	"strings"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/say"
)

// look is the first look at the result: a place a line, then what can be
// opened.
func (a *app) look() (stop, error) {
	return a.run(menu{name: "look", back: atMatters, head: a.lookHead, rows: a.lookRows})
}

func (a *app) lookHead() {
	a.talk.title(say.Glance)
	a.talk.say(report.MoneyText(a.s.plan, a.s.system))
	for _, text := range a.s.plan.First() {
		a.talk.say(text)
	}
	if len(a.s.plan.Places) == 0 {
		a.talk.say("There is no place yet: type places.")
	}
}

func (a *app) lookRows() []row {
	var rows []row
	for _, pl := range a.s.plan.Places {
		id := pl.Surface.ID
		rows = append(rows, row{text: pl.Surface.Label + ": " + report.Glance(pl, a.s.options(0)), do: func(string) (stop, error) { return a.placePage(id) }})
	}
	return append(rows,
		row{word: "report", text: "everything, to read here", do: stays(func() { a.readPage(report.PlanPage(a.s.plan, a.s.options(0))) })},
		row{word: "compare", text: "each place with every material: fits or not, price", do: stays(a.compare)},
		row{word: "find out", text: "what is not known yet, and whether it matters", do: stays(a.findOut)},
		row{word: "what if", text: "which priority would change the plan", do: stays(a.whatIf)},
		row{word: "plans", text: "saved plans: priorities and budget under a name", do: func(string) (stop, error) { return a.plans() }},
		row{word: "export", text: "the recommendation to a file", do: a.export},
		row{word: "matters", text: "back to what matters", do: goTo(atMatters)},
		row{word: "next", text: "on to work and money", do: goTo(atMoney)})
}

// compare says every material of every place, a line each.
func (a *app) compare() {
	for _, pl := range a.s.plan.Places {
		a.talk.title(pl.Surface.Label)
		for _, l := range pl.StopLines() {
			a.talk.say(l)
		}
		for _, l := range report.FindFirst(pl, a.s.options(0)) {
			a.talk.say(l)
		}
		for _, r := range report.RankRows(pl, a.s.options(0)) {
			parts := []string{r.Fit}
			if r.Price != "" {
				parts = append(parts, r.Price)
			}
			if r.Plus != "" {
				parts = append(parts, "for it: "+r.Plus)
			}
			if r.Minus != "" {
				parts = append(parts, "against it: "+r.Minus)
			}
			a.talk.labelled(r.Name, strings.Join(parts, "; "))
		}
	}
}

// findOut lists what is unknown and what is assumed.
func (a *app) findOut() {
	list := a.s.assess.FindOut(a.s.preferences(), a.s.plan)
	a.readPage(report.FindOutPage(a.s.siteKnown(), list, a.s.options(0)))
}

// whatIf lists the changes of one priority that change the plan.
func (a *app) whatIf() {
	a.readPage(report.MindPage(a.s.assess.WouldChange(a.s.preferences(), a.s.plan), a.s.options(0)))
}

// plans lists the saved plans: use one, or keep the priorities of now.
func (a *app) plans() (stop, error) {
	to, err := a.run(menu{name: "plans", back: up, head: func() {
		a.talk.title("Saved plans")
		a.talk.say(say.PlansIntro)
	}, rows: func() []row {
		var rows []row
		for _, v := range a.s.house.Variants {
			rows = append(rows, row{text: v.Name + ": " + a.variantText(v), do: func(string) (stop, error) { a.usePlan(v); return up, nil }})
		}
		return append(rows, row{word: "keep", text: "the current priorities as a plan", do: func(string) (stop, error) { return here, a.keepPlan() }})
	}})
	if to == up {
		to = here
	}
	return to, err
}

// variantText says what a saved plan would change against the one shown.
func (a *app) variantText(v house.Variant) string {
	return report.VariantText(a.s.plan, a.s.assess.OfVariant(v), v, a.s.system)
}

// siteKnown is the plan with the question answered whether the weather of
// another listed place would change it.
func (s *session) siteKnown() plan.Plan {
	p := s.plan
	p.NearClimate = s.assess.NearClimates(s.preferences(), p)
	return p
}

func (a *app) usePlan(v house.Variant) {
	before := a.s.preferences()
	a.s.house.Answers = v.Over(a.s.house).Answers
	if money := report.BudgetChange(before, a.s.preferences(), a.s.system); money != "" {
		a.talk.say(money)
	}
	a.sayChange()
}

func (a *app) keepPlan() error {
	for {
		name, ok, err := a.text("A name, for instance quiet house. A name that is there already is replaced", "Name")
		switch {
		case err != nil || !ok:
			return err
		case len([]rune(name)) > house.MaxText:
			a.problem(fmt.Sprintf("at most %d characters.", house.MaxText))
			continue
		case a.s.house.Variant(name) == nil && len(a.s.house.Variants) >= house.MaxVariants:
			a.problem(say.TooManyPlans())
			return nil
		}
		a.s.keepPlan(name)
		a.talk.say("Kept as " + name)
		a.sayKept()
		return nil
	}
}

// keepPlan puts the priorities and the budget of now under a name.
func (s *session) keepPlan(name string) {
	s.answered().KeepVariant(name, report.Kept(s.plan))
	s.edited()
}
