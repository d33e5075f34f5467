package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/tui/say"
)

// newKeptChoice asks first when a house file is opened while answers from an
// earlier time are kept that are in no file.
func newKeptChoice(path string) *menu {
	m := &menu{title: say.KeptTitle, intro: say.KeptWhose(path), at: stepNone}
	m.rows = func(s *session) []choiceRow {
		return []choiceRow{
			{say.KeptGoOn, "", resume},
			{say.KeptLeave(s.fresh != ""), say.KeptNote(path, s.path), func(s *session) tea.Cmd { return s.leaveKept(path) }},
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
func (s *session) lookForKept() {
	s.resume = keptAnswers{}
	if s.store != nil {
		_, s.resume.path, s.resume.there = s.store.Resume()
	}
}

// Resume tells of them as they were when the start screen came up. It opens no
// file: it is asked while a key is worked off.
func (k keptAnswers) Resume() (text, path string, ok bool) { return "", k.path, k.there }

// prepare looks for kept answers when the start screen comes up: it is drawn too
// often to read a disk.
func (m *menu) prepare(s *session) tea.Cmd {
	if !m.root || s.store == nil {
		return nil
	}
	store := s.store
	return s.work("Looking for kept answers", func() func(*session) tea.Cmd {
		_, path, there := store.Resume()
		return func(s *session) tea.Cmd {
			s.resume = keptAnswers{there, path}
			return nil
		}
	})
}

// leaveKept goes on with a file as it is. What was kept for that very file gets a
// place of its own, because what is typed next is kept where it was.
func (s *session) leaveKept(path string) tea.Cmd {
	on := goOn
	if s.fresh != "" { // there is no such file: how to begin it is asked
		on = func(s *session) tea.Cmd {
			s.notice = strings.TrimSpace(s.notice + " " + NewFile(s.fresh))
			return send(goMsg{to: stepNone})
		}
	}
	if !say.SameFile(path, s.path) {
		return on(s)
	}
	store := s.store
	return s.work("Keeping a copy", func() func(*session) tea.Cmd {
		where, err := store.SetAside("")
		return func(s *session) tea.Cmd {
			if err != nil {
				s.notice = say.NoCopy + err.Error() + "."
				return nil
			}
			s.notice = say.CopyIn(where)
			return on(s)
		}
	})
}
