package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/say"
)

// save writes the person's own file. Where comments or somebody else's
// changes would be lost, it asks first, by asking for the name again.
func (m Model) save() tea.Cmd {
	s := m.s
	if s.store == nil {
		return nil
	}
	if s.path == "" {
		return send(pushMsg{newSaveAs("", "")})
	}
	if s.store.Changed(s.path, s.onDisk) {
		return send(pushMsg{newSaveAs(s.path, say.ChangedByOther(s.path))})
	}
	if house.HasComments(s.onDisk) {
		return send(pushMsg{newSaveAs(s.path, say.DropsComments(s.path))})
	}
	text := s.text()
	if err := s.store.Write(s.path, text, true); err != nil {
		s.notice = err.Error()
		return nil
	}
	return s.savedIn(s.path, text)
}

// keptText is what is kept in the state folder: the house, and the walk through
// the finished work as far as it went.
func (s *session) keptText() string { return s.text() + s.walkText() }

// savedIn takes in that a file holds everything. Answers that were in no file
// until now need not be kept any longer; where nothing was to be saved, what is
// kept was never taken up, and stays.
func (s *session) savedIn(path, text string) tea.Cmd {
	had := !s.saved
	if path != s.path {
		s.store.Belongs(path)
		if s.walkBegun() {
			s.edits++ // what is kept of it belongs to the new file from now on
		}
	}
	s.path, s.onDisk, s.saved, s.notice = path, text, true, "Saved in "+path
	if !had {
		return nil
	}
	return s.forget()
}
