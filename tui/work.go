package tui

import (
	"fmt"
	"runtime/debug"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// noticed is how long a person waits without a word about it. It only decides
// what is said.
const noticed = 300 * time.Millisecond

type (
	doneMsg   struct{ then func(*state) tea.Cmd }
	slowMsg   struct{ rest <-chan tea.Msg } // it lasts; the end comes through rest
	brokenMsg struct{ fault string }
)

// work does what takes files or time outside the loop, which goes on: ctrl-c
// always works. do must touch nothing of the session; what it gives back runs in
// the loop again. Keys pressed meanwhile wait, so that they meet what it leads
// to; where that is a screen that nobody has read yet (unread), they are dropped.
func (s *state) work(what string, do func() func(*state) tea.Cmd) tea.Cmd {
	s.busy++
	s.doing = what
	return inTime(func() tea.Msg { return doneMsg{do()} })
}

// inTime is a command that says so where it lasts.
func inTime(do func() tea.Msg) tea.Cmd {
	return func() tea.Msg {
		rest := make(chan tea.Msg, 1)
		go func() {
			defer func() {
				if r := recover(); r != nil {
					rest <- brokenMsg{fmt.Sprintf("%v\n%s", r, debug.Stack())}
				}
			}()
			rest <- do()
		}()
		return slowMsg{rest}.wait()
	}
}

// slow says on the screen that something lasts, and how far it is, and waits on.
func (m Model) slow(msg slowMsg) (tea.Model, tea.Cmd) {
	m.s.slow = true
	return m, msg.wait
}

// wait gives the end of a work, or that it still lasts.
func (msg slowMsg) wait() tea.Msg {
	select {
	case end := <-msg.rest:
		return end
	case <-time.After(noticed):
		return msg
	}
}

// worked goes on behind work that is done: with what it led to, and then with
// the keys that waited.
func (m Model) worked(msg doneMsg) (tea.Model, tea.Cmd) {
	m.s.views = nil
	if m.s.busy--; m.s.busy == 0 {
		m.s.track = nil
	}
	m.calm()
	var cmd tea.Cmd
	if msg.then != nil {
		cmd = msg.then(m.s)
	}
	if to := m.s.unread; to != nil {
		m.s.unread, m.s.picked, m.queue = nil, true, nil
		m.turn()
		m = m.push(to)
	}
	m, cmd = m.keep(cmd)
	return m.further(cmd)
}

// calm takes back that something lasts, once nothing does.
func (m Model) calm() {
	if m.s.busy == 0 && m.s.keptTo >= m.s.keeping {
		m.s.slow = false
	}
}

// further lets the next waiting key come behind what a command leads to. Only
// the last of several invitations counts.
func (m Model) further(cmd tea.Cmd) (tea.Model, tea.Cmd) {
	if len(m.queue) == 0 || m.s.busy > 0 {
		return m, cmd
	}
	m.turns++
	return m, tea.Sequence(cmd, send(nextMsg{m.turns}))
}

// lasting is what is said while something lasts, empty when nothing does.
func (s *state) lasting() string {
	switch {
	case !s.slow:
		return ""
	case s.busy > 0 && s.track != nil && s.track.Far() != "":
		return s.doing + ": " + s.track.Far() + " ... esc leaves it, ctrl+c stops."
	case s.busy > 0:
		return s.doing + " ... ctrl+c stops."
	case s.keptTo < s.keeping:
		return "Your last answers are not kept yet: the disk is slow."
	}
	return ""
}
