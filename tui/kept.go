package tui

import (
	tea "github.com/charmbracelet/bubbletea"
)

// newKeptChoice asks first when a house file is opened while answers from an
// earlier time are kept that are in no file: the first change would replace
// them.
func newKeptChoice(path string) *menu {
	whose := "a house that is in no file"
	if path != "" {
		whose = path
	}
	m := &menu{title: "Answers were kept that are not saved", intro: "They are for " + whose + ". The program ended before they were saved.", at: stepNone}
	m.rows = func(*session) []choiceRow {
		return []choiceRow{
			{"Go on with the kept answers", "", resume},
			{"Go on with the file as it is", "The kept answers are dropped once you change something.", func(s *session) tea.Cmd { return send(goMsg{firstOpenStep(s)}) }},
		}
	}
	return m
}

// keptBeside tells whether answers are kept that the opened file does not hold,
// and which file they belong to.
func keptBeside(s *session, text string) (path string, ok bool) {
	if s.store == nil {
		return "", false
	}
	kept, path, ok := s.store.Resume()
	return path, ok && kept != text
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
