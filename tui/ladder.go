package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/say"
	"battwright/tui/style"
)

// ladder shows what the next dollars buy: every set that no cheaper one
// matches, from the cheapest up. Moving on it tries a budget.
type ladder struct {
	rungs  []plan.Rung
	cursor int
	failed string
}

func newLadder(s *session) *ladder {
	how := s.answered().Text(house.Budget, nil, "stakes")
	rungs, err := s.plan.Ladder(s.catalog(), how)
	x := &ladder{rungs: rungs}
	if err != nil {
		x.failed = err.Error()
	}
	for i, r := range rungs {
		if r.Here {
			x.cursor = i
		}
	}
	return x
}

func (x *ladder) Step() step   { return stepMoney }
func (x *ladder) Typing() bool { return false }

func (x *ladder) Update(msg tea.Msg, s *session) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return x, nil
	}
	switch {
	case key.Matches(k, keys.Up):
		x.cursor = max(0, x.cursor-1)
	case key.Matches(k, keys.Down):
		x.cursor = max(0, min(len(x.rungs)-1, x.cursor+1))
	case key.Matches(k, keys.Accept) && len(x.rungs) > 0:
		if q, ok := s.list.Find("budget.total_usd"); ok {
			s.answer(q, nil, house.Number(x.rungs[x.cursor].WholeDollars()))
		}
		return x, send(backMsg{})
	case key.Matches(k, keys.Back):
		return x, send(backMsg{})
	}
	return x, nil
}

func (x *ladder) View(p *page, s *session) {
	p.line(style.Title, say.Ladder)
	p.para(style.Dim, 0, "Each line is the best set for the whole house at its price, by what matters to you other than price. Targets are kept on all of them. "+report.StakesText(s.answered().Text(house.Budget, nil, "stakes")))
	p.blank()
	if x.failed != "" {
		p.para(style.Warn, 0, say.NoLadder+x.failed)
		return
	}
	for i, r := range x.rungs {
		x.rung(p, s, i, r)
	}
	if len(x.rungs) == 0 {
		p.line(style.Warn, say.NothingYet)
	}
}

func (x *ladder) rung(p *page, s *session, i int, r plan.Rung) {
	mark, tone := "  ", style.Plain
	if i == x.cursor {
		mark, tone = s.g.Pointer+" ", style.Chosen
	}
	head := fmt.Sprintf("%s%-9s", mark, s.system.Money(r.Cost))
	switch {
	case i == 0:
		head += "the cheapest set"
	default:
		head += fmt.Sprintf("%s more", s.system.Money(r.Extra))
	}
	if r.Here {
		head += "   (the plan is here)"
	}
	p.line(tone, head)
	if i == x.cursor {
		for _, c := range r.Changes {
			p.para(style.Dim, 11, c.Label+": "+report.SwapText(c.From, c.To, s.system))
		}
		p.mark()
	}
}

func (x *ladder) Keys(*session) []key.Binding {
	return []key.Binding{bind("up/down", "more or less money", "up"), bind("enter", "take it as the budget", "enter"), keys.Back}
}
