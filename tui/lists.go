package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/report"
	"battwright/tui/style"
)

// reading is a screen that only shows; extra keys lead on from it.
type reading struct {
	at    step
	draw  func(*canvas, *state)
	extra []key.Binding
	on    func(tea.KeyMsg, *state) tea.Cmd
	ready func(*state) tea.Cmd // finds out what it shows
}

func (r *reading) prepare(s *state) tea.Cmd {
	if r.ready == nil {
		return nil
	}
	return r.ready(s)
}

func (r *reading) Step() step   { return r.at }
func (r *reading) Typing() bool { return false }

func (r *reading) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
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

func (r *reading) View(p *canvas, s *state) { r.draw(p, s) }

func (r *reading) Keys(*state) []key.Binding {
	return append(append([]key.Binding{}, r.extra...), bind("pgup/pgdn", "scroll", "pgup"), keys.Back)
}

// newFindOut is the list of what to find out, most plan-changing first.
func newFindOut() *reading {
	return &reading{at: stepCheck, ready: (*state).findOut, draw: func(p *canvas, s *state) {
		tried := s.Tried()
		if tried == nil {
			p.line(style.Title, "Find-out list")
			p.line(style.Dim, "Working it out ...")
			return
		}
		titled(p, s, report.FindOutPage(tried.FoundOut(s.Plan), tried.Found, s.Options()))
	}}
}

// newMind lists the changes of one priority that change the plan.
func newMind() *reading {
	return &reading{at: stepLook, draw: func(p *canvas, s *state) { titled(p, s, report.MindPage(s.Minds(), s.Options())) }}
}

func moneyBelow(p *canvas, s *state) { showPage(p, s, report.MoneyPage(s.Plan, s.Options())) }

// newProblems shows everything that is wrong with a file; the house that was
// open stays open.
func newProblems(title string, err error) *reading {
	return &reading{at: stepNone, draw: func(p *canvas, _ *state) {
		p.line(style.Title, title)
		p.para(style.Dim, 0, "The house that was open is still open and unchanged. Correct these lines in any editor, then open the file again:")
		p.blank()
		problemRows(p, err)
	}}
}

// problemRows lists what could not be read.
func problemRows(p *canvas, err error) {
	for _, l := range strings.Split(err.Error(), "\n") {
		p.para(style.Warn, 2, l)
	}
}
