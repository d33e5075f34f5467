package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/session"
	"battwright/tui/style"
)

// ladder shows what the next dollars buy: every set that no cheaper one
// matches, from the cheapest up. Enter makes one the plan.
type ladder struct {
	rungs  []plan.Rung
	cursor int
	on     bool // the plan is one of the rungs
	failed string
}

// openLadder works the ladder out and shows it. In a large house that takes
// seconds, and an enter typed meanwhile must take none of its lines.
func openLadder(s *state) tea.Cmd {
	now, c, how := s.Plan, s.Catalog(), s.Answered().Text(house.Budget, nil, "stakes")
	return s.work("Working out what the next dollars buy", func() func(*state) tea.Cmd {
		rungs, err := now.Ladder(c, how)
		return func(s *state) tea.Cmd {
			x := &ladder{rungs: rungs}
			if err != nil {
				x.failed = err.Error()
			}
			x.cursor, x.on = now.OnLadder(rungs)
			s.unread = x
			return nil
		}
	})
}

func (x *ladder) Step() step   { return stepMoney }
func (x *ladder) Typing() bool { return false }

func (x *ladder) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
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
		x.rungs[x.cursor].Take(s.List, func(q house.Question, a house.Answer) { s.answer(q, nil, a) })
		return x, send(backMsg{})
	case key.Matches(k, keys.Back):
		return x, send(backMsg{})
	}
	return x, nil
}

func (x *ladder) View(p *canvas, s *state) {
	p.line(style.Title, session.Ladder)
	p.para(style.Dim, 0, session.LadderIntro+" "+report.StakesText(s.Answered().Text(house.Budget, nil, "stakes")))
	if !x.on && len(x.rungs) > 0 {
		p.para(style.Plain, 0, session.OffLadder(s.System.MoneyOf(s.Plan.Money.Total.Typical, s.Plan.Money.Total)))
	}
	p.blank()
	if x.failed != "" {
		p.para(style.Warn, 0, session.NoLadder+x.failed)
		return
	}
	for i, r := range x.rungs {
		x.rung(p, s, i, r)
	}
	if len(x.rungs) == 0 {
		p.line(style.Warn, session.NothingYet)
	}
}

func (x *ladder) rung(p *canvas, s *state, i int, r plan.Rung) {
	mark, tone := "  ", style.Plain
	if i == x.cursor {
		mark, tone = s.g.Pointer+" ", style.Chosen
	}
	head := fmt.Sprintf("%s%-9s", mark, s.System.MoneyAbout(r.Cost))
	switch {
	case i == 0:
		head += "the cheapest set"
	default:
		head += fmt.Sprintf("%s more", s.System.MoneyAbout(r.Extra))
	}
	if r.Here {
		head += "   (the plan is here)"
	}
	p.line(tone, head)
	if i == x.cursor {
		for _, c := range r.Changes {
			p.para(style.Dim, 11, c.Label+": "+report.SwapText(c.From, c.To, s.System))
		}
		p.mark()
	}
}

func (x *ladder) Keys(*state) []key.Binding {
	return []key.Binding{bind("up/down", "more or less money", "up"), bind("enter", "make it the plan", "enter"), keys.Back}
}
