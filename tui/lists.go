package tui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/report"
	"battwright/tui/say"
	"battwright/tui/style"
)

// reading is a screen that only shows; extra keys lead on from it.
type reading struct {
	at    step
	draw  func(*canvas, *session)
	extra []key.Binding
	on    func(tea.KeyMsg, *session) tea.Cmd
	ready func(*session) tea.Cmd // finds out what it shows
}

func (r *reading) prepare(s *session) tea.Cmd {
	if r.ready == nil {
		return nil
	}
	return r.ready(s)
}

func (r *reading) Step() step   { return r.at }
func (r *reading) Typing() bool { return false }

func (r *reading) Update(msg tea.Msg, s *session) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return r, nil
	}
	if key.Matches(k, keys.Back) {
		return r, send(backMsg{})
	}
	if r.on != nil {
		return r, r.on(k, s)
	}
	return r, nil
}

func (r *reading) View(p *canvas, s *session) { r.draw(p, s) }

func (r *reading) Keys(*session) []key.Binding {
	return append(append([]key.Binding{}, r.extra...), bind("pgup/pgdn", "scroll", "pgup"), keys.Back)
}

// newFindOut is the list of what to find out, most plan-changing first.
func newFindOut() *reading {
	return &reading{at: stepCheck, ready: (*session).findOut, draw: func(p *canvas, s *session) {
		p.line(style.Title, "Find-out list")
		p.para(style.Dim, 0, say.Sentence(say.FindOutNote)+". "+say.Matters)
		p.blank()
		if !s.foundOut() {
			p.line(style.Dim, "Working it out ...")
			return
		}
		list := s.found
		for i, u := range list {
			where := "House"
			if u.Place != "" {
				where = u.Label
			}
			tone, word := style.Dim, say.Effect(u.Matters, u.Effect)
			if u.Matters {
				tone = style.Warn
			}
			p.para(style.Plain, 2, fmt.Sprintf("%d. %s: %s", i+1, where, u.Prompt))
			p.para(tone, 5, word)
			if h, ok := s.catalog().Help(u.Key); ok && h.Ask != "" {
				p.para(style.Dim, 5, "To ask: "+h.Ask.In(s.system))
			}
		}
		if len(list) == 0 {
			p.para(style.Plain, 0, say.NoneOpen(len(s.plan.Assumed)))
		}
		p.blank()
		p.line(style.Title, "Whose weather")
		for _, l := range report.SiteLines(s.siteKnown(), s.options()) {
			p.para(style.Dim, 2, l)
		}
		p.blank()
		p.line(style.Title, say.Assumed)
		for _, a := range s.plan.Assumed {
			where := "House"
			if a.Place != "" {
				where = a.Label
			}
			p.para(style.Dim, 2, fmt.Sprintf("%s: %s %s", where, a.Prompt, a.Value))
		}
	}}
}

// newMind lists the changes of one priority that change the plan.
func newMind() *reading {
	return &reading{at: stepLook, draw: func(p *canvas, s *session) {
		p.line(style.Title, say.WouldChange)
		p.para(style.Dim, 0, "One priority of the house moved, the others as they are: the nearest level that turns a place.")
		p.blank()
		list := s.mind()
		for _, m := range list {
			p.para(style.Plain, 2, report.MindText(m, s.options()))
		}
		if len(list) == 0 {
			p.line(style.Good, say.NoMind)
		}
	}}
}

func moneyBelow(p *canvas, s *session) {
	p.para(style.Plain, 0, report.MoneyText(s.plan, s.system))
	p.blank()
	for _, pl := range s.plan.Places {
		if pl.Choice == nil {
			continue
		}
		m := pl.Choice.Money
		text := s.system.MoneyRange(m.Total)
		if m.Labour.High > 0 {
			text += " with the work"
		}
		p.labelled(style.Plain, "  "+pl.Surface.Label, max(12, min(34, p.width/2)), pl.Choice.Name+", "+text)
	}
}

// newProblems shows everything that is wrong with a file; the house that was
// open stays open.
func newProblems(title string, err error) *reading {
	return &reading{at: stepNone, draw: func(p *canvas, _ *session) {
		p.line(style.Title, title)
		p.para(style.Dim, 0, "The house that was open is still open and unchanged. Correct these lines in any editor, then open the file again:")
		p.blank()
		for _, l := range strings.Split(err.Error(), "\n") {
			p.para(style.Warn, 2, l)
		}
	}}
}
