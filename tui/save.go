package tui

import (
	"errors"
	"io/fs"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/say"
)

// save writes the person's own file. Where comments or somebody else's
// changes would be lost, it asks first, by asking for the name again; so it does
// where the file cannot be written.
func (m Model) save() tea.Cmd {
	s := m.s
	if s.store == nil {
		return nil
	}
	if s.path == "" {
		return send(pushMsg{newSaveAs("", "")})
	}
	path, onDisk, text, store := s.path, s.onDisk, s.text(), s.store
	ask := func(why string) func(*session) tea.Cmd {
		return func(*session) tea.Cmd { return send(pushMsg{newSaveAs(path, why)}) }
	}
	return s.work("Saving "+path, func() func(*session) tea.Cmd {
		if store.Changed(path, onDisk) {
			return ask(say.ChangedByOther(path))
		}
		if house.HasComments(onDisk) {
			return ask(say.DropsComments(path))
		}
		err := store.Write(path, text, true)
		return func(s *session) tea.Cmd {
			if err != nil {
				return send(pushMsg{newSaveAs(path, say.NotSaved(err))})
			}
			return s.savedIn(path, text)
		}
	})
}

// keptText is what is kept in the state folder: which way the questions go, the
// house, and the walk through the finished work as far as it went.
func (s *session) keptText() string {
	return say.KeptWay(s.rough, s.sized) + s.text() + s.walkText()
}

// wayChanged keeps the way with answers that are kept anyhow.
func (s *session) wayChanged() {
	if !s.saved {
		s.edits++
	}
}

// savedIn takes in that a file holds everything. Answers that were in no file
// until now need not be kept any longer; where nothing was to be saved, what is
// kept was never taken up, and stays.
func (s *session) savedIn(path, text string) tea.Cmd {
	had := !s.saved
	if path != s.path {
		s.store.Belongs(path)
	}
	if s.walkBegun() {
		s.edits++ // no file of a house holds it: it is kept, for this file from now on
	}
	s.path, s.onDisk, s.saved, s.notice = path, text, true, "Saved in "+path
	if s.partly {
		s.notice += ". Not in it: what is still typed here."
	}
	s.partly = false
	var forget, quit tea.Cmd
	if had {
		forget = s.forget()
	}
	if s.leave {
		quit = send(quitMsg{})
	}
	return tea.Sequence(forget, quit)
}

// write writes a file outside the loop and then goes on. Only a file that is
// there already can be overwritten, by the same name a second time or by yes;
// any other problem stays one. What the house was read from is nothing to write
// something else to.
func (x *prompt) write(s *session, path, text string, then func(*session) tea.Cmd) tea.Cmd {
	sure, inputs, store := x.sure == path, s.inputs(x.saves), s.store
	typed := strings.TrimSpace(x.input.Value())
	x.sure = ""
	if store == nil {
		x.problem = say.Sentence(say.NoWriting)
		return nil
	}
	return s.work("Writing "+path, func() func(*session) tea.Cmd {
		var err error
		if typed != path && store.Folder(typed) { // the ending was added to the name of a folder
			err = say.IsFolder(typed)
		} else {
			err = writeOther(store, path, text, sure, inputs)
		}
		return func(s *session) tea.Cmd {
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

// writeOther refuses to replace what the person's work is read from.
func writeOther(store Store, path, text string, overwrite bool, inputs []string) error {
	for _, in := range inputs {
		if store.Same(path, in) {
			return say.IsInput(path)
		}
	}
	return store.Write(path, text, overwrite)
}

// inputs are the files that what is written is made from; the house itself is
// saved in its own.
func (s *session) inputs(saves bool) []string {
	var out []string
	if s.path != "" && !saves {
		out = append(out, s.path)
	}
	for _, o := range s.check.offers {
		out = append(out, o.Path)
	}
	return out
}
