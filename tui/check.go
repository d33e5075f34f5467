package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/report"
	"battwright/tui/session"
)

// check is the last step: what is handed over, what is offered, what was
// done, and what must be seen before anything is covered.
type check struct{ menu }

func newCheck() *check {
	return &check{menu{title: session.Check, intro: session.CheckIntro, at: stepCheck, rows: checkMenu}}
}

func (x *check) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		return x, nil
	case key.Matches(k, keys.Back):
		return x, send(backMsg{})
	case key.Matches(k, keys.FindOut), key.Matches(k, keys.Next):
		return x, send(pushMsg{newFindOut()})
	case key.Matches(k, keys.Export):
		return x, send(pushMsg{newExport()})
	}
	_, cmd := x.menu.Update(msg, s)
	return x, cmd
}

func (x *check) Keys(s *state) []key.Binding {
	return append(x.menu.Keys(s), keys.FindOut, keys.Export)
}

func checkMenu(s *state) []choiceRow {
	push := func(make func() screen) func(*state) tea.Cmd {
		return func(*state) tea.Cmd { return send(pushMsg{make()}) }
	}
	return []choiceRow{
		{"Before anything is covered", session.CoverNote, push(func() screen { return newCautions() })},
		{"Handover sheets", session.SheetsNote, push(func() screen { return newSheets() })},
		{"A page per person", session.PagesNote, push(func() screen { return newPages() })},
		{"Offers", report.OffersNote(len(s.Offers)), push(func() screen { return newOffers() })},
		{"Finished work", report.WalkNote(s.Job(), s.Walk()), push(func() screen { return newWalk() })},
		{"Ready to close", session.ReadyNote, push(func() screen { return newReady() })},
		{"Find-out list", "", push(func() screen { return newFindOut() })},
		{"Export the recommendation", "", push(func() screen { return newExport() })},
	}
}

// newCautions gathers the cautions of the whole house before the walls close.
func newCautions() *reading {
	r := &reading{at: stepCheck, extra: []key.Binding{keys.FindOut, keys.Export}}
	r.on = func(k tea.KeyMsg, s *state) tea.Cmd {
		switch {
		case key.Matches(k, keys.FindOut), key.Matches(k, keys.Next), key.Matches(k, keys.Accept):
			return send(pushMsg{newFindOut()})
		case key.Matches(k, keys.Export):
			return send(pushMsg{newExport()})
		}
		return nil
	}
	r.draw = func(p *canvas, s *state) { showBlocks(p, s, report.CoverBlocks(s.Plan, s.Options())) }
	return r
}

// newReady lists what to see, sign, photograph and keep, and what the walk
// through the finished work still says.
func newReady() *reading {
	return &reading{at: stepCheck, draw: func(p *canvas, s *state) { showBlocks(p, s, report.ReadyBlocks(s.Job(), s.WalkResult())) }}
}
