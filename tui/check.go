package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/inspect"
	"battwright/rules/report"
	"battwright/tui/say"
)

// check is the last step: what is handed over, what is offered, what was
// done, and what must be seen before anything is covered.
type check struct{ menu }

func newCheck() *check {
	return &check{menu{title: say.Check, intro: say.CheckIntro, at: stepCheck, rows: checkMenu}}
}

func (x *check) Update(msg tea.Msg, s *session) (screen, tea.Cmd) {
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

func (x *check) Keys(s *session) []key.Binding {
	return append(x.menu.Keys(s), keys.FindOut, keys.Export)
}

func checkMenu(s *session) []choiceRow {
	push := func(make func() screen) func(*session) tea.Cmd {
		return func(*session) tea.Cmd { return send(pushMsg{make()}) }
	}
	return []choiceRow{
		{"Before anything is covered", say.CoverNote, push(func() screen { return newCautions() })},
		{"Handover sheets", say.SheetsNote, push(func() screen { return newSheets() })},
		{"A page per person", say.PagesNote, push(func() screen { return newPages() })},
		{"Offers", report.OffersNote(len(s.check.offers)), push(func() screen { return newOffers() })},
		{"Finished work", report.WalkNote(s.job(), s.walk()), push(func() screen { return newWalk() })},
		{"Ready to close", say.ReadyNote, push(func() screen { return newReady() })},
		{"Find-out list", "", push(func() screen { return newFindOut() })},
		{"Export the recommendation", "", push(func() screen { return newExport() })},
	}
}

// job is the house with its plan as it is now.
func (s *session) job() inspect.Job { return inspect.NewJob(s.assess, s.plan, s.system) }

// newCautions gathers the cautions of the whole house before the walls close.
func newCautions() *reading {
	r := &reading{at: stepCheck, extra: []key.Binding{keys.FindOut, keys.Export}}
	r.on = func(k tea.KeyMsg, s *session) tea.Cmd {
		switch {
		case key.Matches(k, keys.FindOut), key.Matches(k, keys.Next), key.Matches(k, keys.Accept):
			return send(pushMsg{newFindOut()})
		case key.Matches(k, keys.Export):
			return send(pushMsg{newExport()})
		}
		return nil
	}
	r.draw = func(p *canvas, s *session) { showBlocks(p, s, report.CoverBlocks(s.plan, s.options())) }
	return r
}

// newReady lists what to see, sign, photograph and keep, and what the walk
// through the finished work still says.
func newReady() *reading {
	return &reading{at: stepCheck, draw: func(p *canvas, s *session) { showBlocks(p, s, report.ReadyBlocks(s.job(), s.walkResult())) }}
}
