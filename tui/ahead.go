package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/tui/session"
)

// aheadMsg is a plan with its damp worked out, as of an edit.
type aheadMsg struct {
	made plan.Plan
	at   int
}

// ahead works out the damp of the plan while the person goes on answering: one plan
// at a time, then the one that is newest by then.
func (s *state) ahead() tea.Cmd {
	if s.going || s.Settled() {
		return nil
	}
	s.going = true
	work, at := s.Ahead(), s.Edits
	return func() tea.Msg { return aheadMsg{work(), at} }
}

// gone takes in what was worked out ahead.
func (m Model) gone(msg aheadMsg) (tea.Model, tea.Cmd) {
	m.s.going = false
	m.s.TakePlan(msg.made, msg.at)
	m.s.views = nil
	return m, m.s.ahead()
}

// showsPlan reports whether a screen shows what the plan chose; forms and prompts of
// a later step do not.
func showsPlan(x screen, s *state) bool {
	v, ok := x.(*viewScreen)
	return ok && v.made == nil && session.ShowsPlan(v.now(s).Step)
}

// waits is what stands where a page would show a choice that the year may take back.
func waits(p *canvas, s *state) {
	showBlocks(p, s, []page.Block{{Rows: []page.Row{{Tone: page.Quiet, Text: session.WorkingOut + " ..."}}}})
}
