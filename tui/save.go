package tui

import (
	"errors"
	"io/fs"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/tui/session"
)

// save writes the person's own file. Where comments or somebody else's
// changes would be lost, it asks first, by asking for the name again; so it does
// where the file cannot be written.
func (m Model) save() tea.Cmd {
	s := m.s
	if s.Store == nil {
		return nil
	}
	if s.Path == "" {
		return send(pushMsg{newSaveAs("", "")})
	}
	path, text, do := s.Path, s.Text(), s.Save()
	return s.work("Saving "+path, func() func(*state) tea.Cmd {
		why := do()
		return func(s *state) tea.Cmd {
			if why != "" {
				return send(pushMsg{newSaveAs(path, why)})
			}
			return s.savedIn(path, text)
		}
	})
}

// savedIn takes in that a file holds everything.
func (s *state) savedIn(path, text string) tea.Cmd {
	var drop, quit tea.Cmd
	if s.SavedIn(path, text) {
		drop = forget(s.Store)
	}
	s.notice = "Saved in " + path
	if s.partly {
		s.notice += ". Not in it: what is still typed here."
	}
	s.partly = false
	if s.leave {
		quit = send(quitMsg{})
	}
	return tea.Sequence(drop, quit)
}

// write writes a file outside the loop and then goes on. Only a file that is
// there already can be overwritten, by the same name a second time or by yes;
// any other problem stays one. What the house was read from is nothing to write
// something else to.
func (x *prompt) write(s *state, path, text string, then func(*state) tea.Cmd) tea.Cmd {
	if s.Store == nil {
		x.problem = session.Sentence(session.NoWriting)
		return nil
	}
	do := s.Write(strings.TrimSpace(x.input.Value()), path, text, x.sure == path, x.saves)
	x.sure = ""
	return s.work("Writing "+path, func() func(*state) tea.Cmd {
		err := do()
		return func(s *state) tea.Cmd {
			switch {
			case errors.Is(err, fs.ErrExist):
				x.askTwice(path)
				x.problem = err.Error() + ". Enter again overwrites it, and so does yes."
			case err != nil:
				x.problem = err.Error() + "."
			default:
				return then(s)
			}
			return nil
		}
	})
}
