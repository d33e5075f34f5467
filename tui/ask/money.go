package ask

import (
	"fmt"
	"strings"

	"battwright/rules/house"
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
	a.talk.title("What it costs")
	a.talk.say(report.MoneyText(a.s.plan, a.s.system))
	for _, pl := range a.s.plan.Places {
		if pl.Choice == nil {
			continue
		}
		text := pl.Choice.Name + ", " + a.s.system.MoneyRange(pl.Choice.Money.Total) + report.DampAtAGlance(pl)
		if pl.Choice.Money.Labour.High > 0 {
			text += " with the work"
		}
		a.talk.labelled(pl.Surface.Label, text)
	}
	return a.after("money", atLook, atOrder, "on to what would be bought", a.ladder())
}

// ladder is what the next dollars buy, in words.
func (a *app) ladder() row {
	return row{word: "ladder", text: say.LadderNote, do: stays(func() {
		a.talk.title(say.Ladder)
		rungs, err := a.s.plan.Ladder(a.s.catalog(), a.s.answered().Text(house.Budget, nil, "stakes"))
		if err != nil {
			a.talk.say(say.NoLadder + err.Error())
			return
		}
		a.talk.say(say.LadderIntro)
		if _, on := a.s.plan.OnLadder(rungs); !on && len(rungs) > 0 {
			a.talk.say(say.OffLadder(a.s.system.Money(a.s.plan.Money.Total.Typical)))
		}
		for i, r := range rungs {
			text := a.s.system.MoneyAbout(r.Cost) + ": the cheapest set"
			if i > 0 {
				text = a.s.system.MoneyAbout(r.Cost) + ", " + a.s.system.MoneyAbout(r.Extra) + " more:"
			}
			for _, c := range r.Changes {
				text += fmt.Sprintf(" %s: %s;", c.Label, report.SwapText(c.From, c.To, a.s.system))
			}
			if r.Here {
				text = strings.TrimRight(text, ";") + " (the plan is here)"
			}
			a.talk.hang(fmt.Sprintf("%d. ", i+1), strings.TrimRight(text, ";"))
		}
		if len(rungs) == 0 {
			a.talk.say(say.NothingYet)
		}
	})}
}

// after offers where to go from a page that was read out.
func (a *app) after(name string, back, next stop, what string, more ...row) (stop, error) {
	rows := append([]row{{word: "next", text: what, do: goTo(next)}}, more...)
	rows = append(rows, row{word: "export", text: "the recommendation to a file", do: a.export},
		row{word: "find out", text: say.FindOutNote, do: stays(a.findOut)})
	return a.run(menu{name: name, back: back, head: func() { a.talk.out.WriteByte('\n') }, rows: func() []row { return rows }})
}
