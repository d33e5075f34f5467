package tui

import (
	"math"
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/tui/session"
)

// An enter behind a key that chose and went on is meant for that choice: taken
// for the next question it would pass it unread.
const (
	oneEnter     = "A digit, y or n chooses and goes on at once. An enter right after it is left out, so that it skips nothing."
	alreadyTaken = "Your choice was taken already, so that enter was left out. Enter again goes on."
	enterEarly   = "That enter came right after the page opened, so it was left out. Enter again takes the line."
)

// key takes a key from the terminal. Keys wait behind those of a burst that
// came before; stopping and pausing never wait.
func (m Model) key(msg tea.KeyMsg) (tea.Model, tea.Cmd) {
	switch {
	case msg.Type != tea.KeyRunes && key.Matches(msg, keys.Interrupt):
		again := m.interrupted
		m.interrupted, m.queue = true, nil
		m.settle()
		if !again && m.lost() != "" { // one key must not lose everything: it asks, a second one ends
			m.asking = true
			return m, nil
		}
		m.done = true
		if again {
			m.hurried = true
			return m, tea.Quit
		}
		return m, tea.Sequence(m.autosave(), tea.Quit)
	case msg.Type != tea.KeyRunes && key.Matches(msg, keys.Suspend):
		return m.pause()
	case m.s.busy > 0 && m.s.track != nil && key.Matches(msg, keys.Back):
		m.s.track.Leave()
		m.queue = nil
		return m, nil
	}
	m.queue = append(slices.Clone(m.queue), msg)
	if len(m.queue) > 1 || m.s.busy > 0 {
		return m, nil
	}
	return m.next()
}

// next takes the first waiting key. The one after it comes as a message behind
// what the key sets off, so that it meets the screen that the key led to.
func (m Model) next() (tea.Model, tea.Cmd) {
	if m.done || len(m.queue) == 0 {
		m.queue = nil
		return m, nil
	}
	if m.s.busy > 0 {
		return m, nil // they go on when it is done
	}
	m.queue = slices.Concat(m.apart(m.queue[0]), m.queue[1:])
	after, cmd := m.press(m.queue[0])
	next := after.(Model)
	next.queue = slices.Clone(m.queue[1:])
	return next.further(cmd)
}

// apart gives the keys that came in one message. A paste is one thing. So is a
// burst for a text field, and it is marked as a paste: keys are told by name, and
// letters that arrive together may spell one, "end" or "left".
func (m Model) apart(msg tea.KeyMsg) []tea.KeyMsg {
	if msg.Type != tea.KeyRunes || msg.Paste || len(msg.Runes) < 2 {
		return []tea.KeyMsg{msg}
	}
	if m.top().Typing() {
		msg.Paste = true
		return []tea.KeyMsg{msg}
	}
	out := make([]tea.KeyMsg, len(msg.Runes))
	for i, r := range msg.Runes {
		out[i] = tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: msg.Alt}
	}
	return out
}

// press is one key. What was said before it is gone with it, and so is a
// question asked that way: the same choice later is asked about again.
func (m Model) press(msg tea.KeyMsg) (tea.Model, tea.Cmd) {
	picked := m.s.picked
	m.s.picked = false
	if picked && msg.Type == tea.KeyEnter {
		if m.s.notice == "" {
			m.s.notice = alreadyTaken
			if x, on := m.top().(*viewScreen); on && x.at.ID == session.Rungs {
				m.s.notice = enterEarly
			}
		}
		return m, nil
	}
	asked := ""
	if m.s.notice != "" {
		asked = m.s.drop
	}
	m.s.notice, m.s.Changed = "", ""
	after, cmd := m.pressed(msg)
	if m.s.notice == "" && asked != "" && m.s.drop == asked && m.s.busy == 0 {
		m.s.drop = ""
	}
	return after, cmd
}

func (m Model) pressed(msg tea.KeyMsg) (tea.Model, tea.Cmd) {
	switch {
	case m.asking:
		return m.leave(msg)
	case m.width < minWidth || m.height < minHeight:
		if key.Matches(msg, keys.Quit) {
			m.settle()
			return m.quit()
		}
		return m, nil
	}
	top := m.top()
	m.paging = key.Matches(msg, keys.PageDown, keys.PageUp) || !top.Typing() && key.Matches(msg, keys.Top, keys.Bottom)
	if !top.Typing() || msg.Type != tea.KeyRunes {
		if next, cmd, used := m.everywhere(msg, top); used {
			return next, cmd
		}
	}
	switch {
	case msg.String() == "ctrl+s":
		return m.saveKey(msg)
	case m.paging && key.Matches(msg, keys.Top):
		m.scroll[len(m.stack)] = 0
		return m, nil
	case m.paging && key.Matches(msg, keys.Bottom):
		m.scroll[len(m.stack)] = math.MaxInt32 // the window stops at the last row
		return m, nil
	case key.Matches(msg, keys.PageDown):
		m.scroll[len(m.stack)] += max(1, m.height-8)
		return m, nil
	case key.Matches(msg, keys.PageUp):
		m.scroll[len(m.stack)] = max(0, m.scroll[len(m.stack)]-max(1, m.height-8))
		return m, nil
	}
	return m.toTop(msg)
}

// everywhere are the keys that every screen has; in a text field only those that
// are no letters.
func (m Model) everywhere(msg tea.KeyMsg, top screen) (Model, tea.Cmd, bool) {
	if x, ok := top.(settler); ok && key.Matches(msg, keys.Quit, keys.GoTo) {
		if x.holds(msg.String(), m.s) {
			return m, nil, true
		}
		if x, ok := top.(*prompt); ok && x.taken {
			m = m.back()
		}
	}
	switch {
	case key.Matches(msg, keys.Quit):
		next, cmd := m.quit()
		return next.(Model), cmd, true
	case key.Matches(msg, keys.GoTo):
		if x, ok := top.(*viewScreen); ok && x.at.ID == session.Steps {
			next, cmd := m.back().shown()
			return next.(Model), cmd, true
		}
		return m.push(newScreen(session.At{ID: session.Steps}, m.s, top.Step())), nil, true
	case key.Matches(msg, keys.Words):
		return m.push(newGlossary()), nil, true
	case key.Matches(msg, keys.All) && !asksWhy(top, m.s):
		return m.push(newKeyList(top, m.s)), nil, true
	case key.Matches(msg, keys.Save) && msg.String() == "s":
		return m, m.s.next(m.s.Save(), nil), true
	}
	return m, nil, false
}

// settle takes in what is still being typed, where it is valid: whoever stops
// the program loses no letter of it.
func (m Model) settle() {
	if x, ok := m.top().(settler); ok && m.s.busy == 0 && !x.settle(m.s) {
		x.settle(m.s) // what is odd can be asked about no more
	}
}

// settler is a screen where something may still be typed: whatever ends it asks
// one of these.
type settler interface {
	settle(*state) (whole bool)      // takes in what can be taken
	holds(key string, s *state) bool // the same, and stays at what cannot
}

// held keeps a screen open at what was typed and cannot be taken: an answer about
// safety must not go without a word.
type held struct {
	by string // the key that would have left it
}

func (h *held) release() bool { h.by = ""; return false }

// hold is true the first time. The same key again leaves what was typed, and says
// so.
func (h *held) hold(k, typed, asked string, s *state) bool {
	if h.by == k {
		s.notice = "Not kept: \"" + typed + "\"."
		return false
	}
	h.by = k
	s.notice = "Not kept: \"" + typed + "\" (" + asked + "). Mend it, or " + k + " again leaves it out."
	return true
}

// saveKey saves with what is still being typed, where that is valid.
func (m Model) saveKey(msg tea.KeyMsg) (tea.Model, tea.Cmd) {
	if x, ok := m.top().(*prompt); ok && x.Saves {
		return m.toTop(tea.KeyMsg{Type: tea.KeyEnter})
	}
	whole := true
	if x, ok := m.top().(settler); ok {
		whole = x.settle(m.s)
	}
	m, keep := m.keep(nil)
	m.s.partly = !whole
	return m, tea.Sequence(keep, m.s.next(m.s.Save(), nil))
}
