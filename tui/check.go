package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/inspect"
	"battwright/rules/report"
	"battwright/tui/style"
)

// check is the last step: what is handed over, what is offered, what was
// done, and what must be seen before anything is covered.
type check struct{ menu }

func newCheck() *check {
	return &check{menu{title: "Hand over and check", intro: "Write down what is agreed, compare offers, measure what was done. Do not cover a blanket before the insulation inspection.", at: stepCheck, rows: checkMenu}}
}

func (x *check) Update(msg tea.Msg, s *session) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		return x, nil
	case key.Matches(k, keys.Back):
		return x, send(goMsg{stepOrder})
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
		{"Before anything is covered", "the cautions and steps of every place", push(func() screen { return newCautions() })},
		{"Handover sheets", "what is agreed, place by place, with the points it is accepted by", push(func() screen { return newSheets() })},
		{"A page per person", "framer, electrician, plumber, installer, inspector, store, yourself", push(func() screen { return newPages() })},
		{"Offers", offersNote(s), push(func() screen { return newOffers() })},
		{"Finished work", walkNote(s), push(func() screen { return newWalk() })},
		{"Ready to close", "what to see, sign, photograph and keep", push(func() screen { return newReady() })},
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
	r.draw = cautionRows
	return r
}

func cautionRows(p *page, s *session) {
	p.line(style.Title, "Before anything is covered")
	p.para(style.Dim, 0, "Walk the house with this list. Do not cover a blanket before the insulation inspection.")
	for _, pl := range s.plan.Places {
		p.blank()
		p.line(style.Title, pl.Surface.Label)
		if pl.Stopped != "" {
			p.para(style.Danger, 2, "STOP: "+pl.Stopped)
			continue
		}
		if pl.Choice != nil {
			p.para(style.Plain, 2, s.g.NoTick+" the label says "+report.ProductText(pl.Choice.Assessed, s.system))
		}
		for _, c := range report.Cautions(pl, s.options()) {
			p.para(style.Warn, 2, s.g.NoTick+" "+c)
		}
		for _, h := range report.Steps(pl) {
			p.para(style.Plain, 2, s.g.NoTick+" "+h)
		}
	}
	p.blank()
	p.para(style.Dim, 0, report.Closing)
}

// newReady lists what to see, sign, photograph and keep, and what the walk
// through the finished work still says.
func newReady() *reading {
	return &reading{at: stepCheck, draw: func(p *page, s *session) {
		j := s.job()
		p.line(style.Title, "Ready to close")
		r := s.walkResult()
		tone := style.Warn
		switch {
		case r.Stops():
			tone = style.Danger
		case r.ReadyToClose():
			tone = style.Good
		}
		p.para(tone, 0, "Finished work: "+report.FoundVerdict(r))
		for _, g := range inspect.ClosingGroups {
			p.blank()
			p.line(style.Title, g.Title)
			for _, n := range inspect.HouseNotes(j, g.Group, "") {
				p.para(style.Plain, 2, s.g.NoTick+" "+n.Text.In(s.system))
			}
			if g.Group == "certificate" {
				for _, l := range inspect.CertificateLines(j) {
					p.para(style.Dim, 2, l)
				}
			}
		}
		p.blank()
		p.para(style.Dim, 0, report.Closing)
	}}
}

func offersNote(s *session) string {
	if n := len(s.check.offers); n > 0 {
		return fmt.Sprintf("%d open, up to %d side by side", n, report.MaxOffers)
	}
	return "open an offer file, or make one to fill in"
}
