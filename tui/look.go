package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/session"
	"battwright/tui/style"
)

// look is the house table: words and prices, no scores.
type look struct{ cursor int }

func newLook() *look { return &look{} }

func (x *look) Step() step   { return stepLook }
func (x *look) Typing() bool { return false }

func (x *look) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return x, nil
	}
	n := len(s.Plan.Places)
	x.cursor = max(0, min(x.cursor, n-1))
	switch {
	case key.Matches(k, keys.Up):
		x.cursor = max(0, x.cursor-1)
	case key.Matches(k, keys.Down):
		x.cursor = min(max(0, n-1), x.cursor+1)
	case key.Matches(k, keys.Accept) && n > 0:
		return x, send(pushMsg{newPlacePage(s.Plan.Places[x.cursor].Surface.ID)})
	case key.Matches(k, keys.FindOut):
		return x, send(pushMsg{newFindOut()})
	case key.Matches(k, keys.Export):
		return x, send(pushMsg{newExport()})
	case key.Matches(k, keys.Keep):
		return x, send(pushMsg{newVariants()})
	case key.Matches(k, keyMatters):
		return x, send(goMsg{to: stepMatters})
	case key.Matches(k, keys.Reasons):
		return x, send(pushMsg{newMind()})
	case key.Matches(k, keys.Next):
		return x, send(goMsg{to: stepMoney})
	case key.Matches(k, keys.Back):
		return x, send(backMsg{})
	}
	return x, nil
}

func (x *look) View(p *canvas, s *state) {
	p.line(style.Title, session.Glance)
	p.para(style.Dim, 0, report.MoneyText(s.Plan, s.System))
	for _, text := range s.Plan.First() {
		p.para(style.Warn, 0, text)
	}
	p.blank()
	if p.width >= wideWidth && len(s.Plan.Places) > 0 {
		x.wide(p, s)
		return
	}
	for i, pl := range s.Plan.Places {
		x.place(p, s, pl, i == x.cursor)
	}
	if len(s.Plan.Places) == 0 {
		p.line(style.Warn, "No place yet: g, then places.")
	}
}

func (x *look) place(p *canvas, s *state, pl plan.Place, here bool) {
	first := len(p.rows)
	if here && x.cursor == 0 { // the first look opens at its top, with the total
		p.here, first = first, 0
	}
	glance(p, s, pl, here)
	for i, r := range report.RankRows(pl, s.Options()) {
		cell := r.Fit
		if r.Price != "" {
			cell += ", " + r.Price
		}
		note := ""
		switch {
		case r.Rank == "":
			note = r.Minus
		case r.Plus != "":
			note = "+ " + r.Plus
		}
		lead := "      "
		if i < len(pl.Entries) && takes(pl, pl.Entries[i]) {
			lead = "    " + takenMark + " "
		}
		p.hanging(toneOf[r.Tone], lead+padTo(r.Name, 14), 20, cell) // a price is never cut
		if here && note != "" {
			p.para(style.Dim, 20, note)
		}
	}
	if here {
		p.markFrom(first)
	}
}

// glance is one place in one entry: its name and what to do.
func glance(p *canvas, s *state, pl plan.Place, here bool) {
	mark, tone := "  ", style.Title
	if here {
		mark, tone = s.g.Pointer+" ", style.Chosen
	}
	p.line(tone, mark+pl.Surface.Label)
	body := style.Plain
	if pl.Choice == nil || len(pl.Asks()) > 0 {
		body = style.Danger
	}
	p.para(body, 4, report.Glance(pl, s.Options()))
}

func (x *look) Keys(s *state) []key.Binding {
	move, open := bind("up/down", "place", "up", "down"), bind("enter", "open it", "enter")
	move.SetEnabled(len(s.Plan.Places) > 0)
	open.SetEnabled(len(s.Plan.Places) > 0)
	return []key.Binding{move, open, keyMatters, bind("n", "money", "n"), bind("w", "what would change it", "w"), keys.FindOut, keys.Export, bind("k", "saved plans", "k"), keys.Back}
}
