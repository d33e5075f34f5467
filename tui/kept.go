package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/tui/session"
)

// newKeptChoice asks first when a house file is opened while answers from an
// earlier time are kept that are in no file.
func newKeptChoice(path string) *menu {
	m := &menu{title: session.KeptTitle, intro: session.KeptWhose(path), at: stepNone}
	m.rows = func(s *state) []choiceRow {
		return []choiceRow{
			{session.KeptGoOn, "", resume},
			{session.KeptLeave(s.Fresh != ""), session.KeptNote(path, s.Path), func(s *state) tea.Cmd { return s.leaveKept(path) }},
		}
	}
	return m
}

// keptAnswers is what the start screen knows of answers kept earlier.
type keptAnswers struct {
	there bool
	path  string // the file they belong to
}

// lookForKept does so before the screens begin.
func (s *state) lookForKept() {
	s.resume = keptAnswers{}
	if s.Store != nil {
		_, s.resume.path, s.resume.there = s.Store.Resume()
	}
}

// Resume tells of them as they were when the start screen came up. It opens no
// file: it is asked while a key is worked off.
func (k keptAnswers) Resume() (text, path string, ok bool) { return "", k.path, k.there }

// prepare looks for kept answers when the start screen comes up: it is drawn too
// often to read a disk.
func (m *menu) prepare(s *state) tea.Cmd {
	if !m.root || s.Store == nil {
		return nil
	}
	store := s.Store
	return s.work("Looking for kept answers", func() func(*state) tea.Cmd {
		_, path, there := store.Resume()
		return func(s *state) tea.Cmd {
			s.resume = keptAnswers{there, path}
			return nil
		}
	})
}

// leaveKept goes on with a file as it is. What was kept for that very file gets a
// place of its own, because what is typed next is kept where it was.
func (s *state) leaveKept(path string) tea.Cmd {
	on := goOn
	if s.Fresh != "" { // there is no such file: how to begin it is asked
		on = func(s *state) tea.Cmd {
			s.notice = strings.TrimSpace(s.notice + " " + NewFile(s.Fresh))
			return send(goMsg{to: stepNone})
		}
	}
	if !session.SameFile(path, s.Path) {
		return on(s)
	}
	return s.copied(s.SetAside(session.KeptEarlier), func(s *state, where string) tea.Cmd {
		s.notice = where
		return on(s)
	})
}
