package ask

import (
	"fmt"
	"strings"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/session"
)

// money asks who does the work and what it may cost, and says what it costs.
func (a *app) money() (stop, error) {
	to, err := a.form("Work and money", "", "", func() []house.Question { return a.s.List.In(house.Budget, "") })
	if err != nil {
		return here, err
	}
	if to == up {
		return atLook, nil
	}
	a.readPage(report.MoneyPage(a.s.Plan, a.s.Options()))
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
			row{word: "ladder", text: session.LadderNote, do: func(string) (stop, error) {
				rungs = a.ladder()
				return here, nil
			}},
			row{word: "export", text: "the recommendation to a file", do: a.export},
			row{word: "find out", text: session.FindOutNote, do: stays(a.findOut)})
	}})
}

// ladder works out what the next dollars buy, and says where that is nothing.
func (a *app) ladder() []plan.Rung {
	rungs, err := a.s.Plan.Ladder(a.s.Catalog(), a.s.Answered().Text(house.Budget, nil, "stakes"))
	switch {
	case err != nil:
		a.talk.say(session.NoLadder + err.Error())
	case len(rungs) == 0:
		a.talk.say(session.NothingYet)
	}
	return rungs
}

// ladderHead is said before the lines of the ladder.
func (a *app) ladderHead(rungs []plan.Rung) {
	if len(rungs) == 0 {
		a.talk.out.WriteByte('\n')
		return
	}
	a.talk.title(session.Ladder)
	a.talk.say(session.LadderIntro)
	if _, on := a.s.Plan.OnLadder(rungs); !on {
		a.talk.say(session.OffLadder(a.s.System.MoneyOf(a.s.Plan.Money.Total.Typical, a.s.Plan.Money.Total)))
	}
	a.talk.say(session.LadderTake)
}

func (a *app) rungText(i int, r plan.Rung) string {
	text := a.s.System.MoneyAbout(r.Cost) + ": the cheapest set"
	if i > 0 {
		text = a.s.System.MoneyAbout(r.Cost) + ", " + a.s.System.MoneyAbout(r.Extra) + " more:"
	}
	for _, c := range r.Changes {
		text += fmt.Sprintf(" %s: %s;", c.Label, report.SwapText(c.From, c.To, a.s.System))
	}
	text = strings.TrimRight(text, ";")
	if r.Here {
		text += " (the plan is here)"
	}
	return text
}

// takeRung makes a line of the ladder the plan.
func (a *app) takeRung(r plan.Rung) {
	r.Take(a.s.List, func(q house.Question, v house.Answer) { a.s.Answered().Store(q, nil, v) })
	a.talk.say("The budget is now " + a.s.System.Money(a.s.Preferences().Budget) + ", to be spent.")
	a.sayChange()
}
