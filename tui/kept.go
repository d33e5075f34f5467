package tui

import (
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
			{say.KeptLeave, say.KeptNote(path, s.path), func(s *session) tea.Cmd { return send(goMsg{firstOpenStep(s)}) }},
		}
	}
	return m
}

// keptAnswers is what the start screen knows of answers kept earlier.
type keptAnswers struct {
	there bool
	path  string // the file they belong to
}

// lookForKept reads the state folder. Screens show what it found: they are
// drawn too often to read a disk.
func (s *session) lookForKept() {
	s.resume = keptAnswers{}
	if s.store != nil {
		_, s.resume.path, s.resume.there = s.store.Resume()
	}
}
