package ask

import (
	"fmt"
	"strings"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/say"
)

// money asks who does the work and what it may cost, and says what it costs.
func (a *app) money() (stop, error) {
	to, err := a.form("Work and money", "", "", func() []house.Question { return a.s.list.In(house.Budget, "") })
	if err != nil {
		return here, err
	}
	if to == up {
		return atLook, nil
	}
	a.readPage(report.MoneyPage(a.s.plan, a.s.options(0)))
	var rungs []plan.Rung // numbered once they were asked for
	return a.run(menu{name: "money", back: atLook, head: func() { a.ladderHead(rungs) }, rows: func() []row {
		var rows []row
		for i, r := range rungs {
			rows = append(rows, row{text: a.rungText(i, r), do: func(string) (stop, error) {
				rungs = nil
				a.takeRung(r)
				return here, nil
			}})
		}
		return append(rows, row{word: "next", text: "on to what would be bought", do: goTo(atOrder)},
			row{word: "ladder", text: say.LadderNote, do: func(string) (stop, error) {
				rungs = a.ladder()
				return here, nil
			}},
			row{word: "export", text: "the recommendation to a file", do: a.export},
			row{word: "find out", text: say.FindOutNote, do: stays(a.findOut)})
	}})
}

// ladder works out what the next dollars buy, and says where that is nothing.
func (a *app) ladder() []plan.Rung {
	rungs, err := a.s.plan.Ladder(a.s.catalog(), a.s.answered().Text(house.Budget, nil, "stakes"))
	switch {
	case err != nil:
		a.talk.say(say.NoLadder + err.Error())
	case len(rungs) == 0:
		a.talk.say(say.NothingYet)
	}
	return rungs
}

// ladderHead is said before the lines of the ladder.
func (a *app) ladderHead(rungs []plan.Rung) {
	if len(rungs) == 0 {
		a.talk.out.WriteByte('\n')
		return
	}
	a.talk.title(say.Ladder)
	a.talk.say(say.LadderIntro)
	if _, on := a.s.plan.OnLadder(rungs); !on {
		a.talk.say(say.OffLadder(a.s.system.MoneyOf(a.s.plan.Money.Total.Typical, a.s.plan.Money.Total)))
	}
	a.talk.say(say.LadderTake)
}

func (a *app) rungText(i int, r plan.Rung) string {
	text := a.s.system.MoneyAbout(r.Cost) + ": the cheapest set"
	if i > 0 {
		text = a.s.system.MoneyAbout(r.Cost) + ", " + a.s.system.MoneyAbout(r.Extra) + " more:"
	}
	for _, c := range r.Changes {
		text += fmt.Sprintf(" %s: %s;", c.Label, report.SwapText(c.From, c.To, a.s.system))
	}
	text = strings.TrimRight(text, ";")
	if r.Here {
		text += " (the plan is here)"
	}
	return text
}

// takeRung makes a line of the ladder the plan.
func (a *app) takeRung(r plan.Rung) {
	r.Take(a.s.list, func(q house.Question, v house.Answer) { a.s.answered().Store(q, nil, v) })
	a.talk.say("The budget is now " + a.s.system.Money(a.s.preferences().Budget) + ", to be spent.")
	a.sayChange()
}
