package ask

import (
	"fmt"
	"strings"

	"battwright/rules/house"
	"battwright/rules/report"
	"battwright/tui/session"
)

// look is the first look at the result: a place a line, then what can be
// opened.
func (a *app) look() (stop, error) {
	return a.run(menu{name: "look", back: atMatters, head: a.lookHead, rows: a.lookRows})
}

func (a *app) lookHead() {
	a.talk.title(session.Glance)
	a.talk.say(report.MoneyText(a.s.Plan, a.s.System))
	for _, text := range a.s.Plan.First() {
		a.talk.say(text)
	}
	if len(a.s.Plan.Places) == 0 {
		a.talk.say("There is no place yet: type places.")
	}
}

func (a *app) lookRows() []row {
	var rows []row
	for _, pl := range a.s.Plan.Places {
		id := pl.Surface.ID
		rows = append(rows, row{text: pl.Surface.Label + ": " + report.Glance(pl, a.s.Options()), do: func(string) (stop, error) { return a.placePage(id) }})
	}
	return append(rows,
		row{word: "report", text: "everything, to read here", do: stays(func() { a.readPage(report.PlanPage(a.s.Plan, a.s.Options())) })},
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
	for _, pl := range a.s.Plan.Places {
		a.talk.title(pl.Surface.Label)
		for _, l := range pl.StopLines() {
			a.talk.say(l)
		}
		for _, l := range report.FindFirst(pl, a.s.Options()) {
			a.talk.say(l)
		}
		for _, r := range report.RankRows(pl, a.s.Options()) {
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
	if do := a.s.Try(); do != nil {
		do()()
	}
	tried := a.s.Tried()
	a.readPage(report.FindOutPage(tried.FoundOut(a.s.Plan), tried.Found, a.s.Options()))
}

// whatIf lists the changes of one priority that change the plan.
func (a *app) whatIf() {
	a.readPage(report.MindPage(a.s.Minds(), a.s.Options()))
}

// plans lists the saved plans: use one, or keep the priorities of now.
func (a *app) plans() (stop, error) {
	to, err := a.run(menu{name: "plans", back: up, head: func() {
		a.talk.title("Saved plans")
		a.talk.say(session.PlansIntro)
	}, rows: func() []row {
		var rows []row
		for _, v := range a.s.House.Variants {
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
	return report.VariantText(a.s.Plan, a.s.Assess.OfVariant(v), v, a.s.System)
}

func (a *app) usePlan(v house.Variant) {
	if money := a.s.UsePlan(v); money != "" {
		a.talk.say(money)
	}
	a.edited()
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
		case a.s.House.Variant(name) == nil && len(a.s.House.Variants) >= house.MaxVariants:
			a.problem(session.TooManyPlans())
			return nil
		}
		a.s.KeepPlan(name)
		a.talk.say("Kept as " + name)
		a.sayKept()
		return nil
	}
}
