package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/tui/session"
	"battwright/tui/style"
)

// Store is the world outside the program. Its work is done in commands, never
// while a screen is drawn.
type Store = session.Store

// state is the session with what the screens alone keep beside it.
type state struct {
	*session.Session
	drop    string // what would replace answers that are in no file, asked once
	notice  string // what just happened: saved, exported, could not; gone with the next key, as what an edit changed is
	unkept  string // why the answers could not be kept, until they can
	resume  keptAnswers
	g       style.Glyphs
	ascii   bool
	busy    int    // works that run outside the loop; keys wait for them
	doing   string // what they do
	slow    bool   // something lasts longer than a person waits without a word
	keeping int    // the newest edit handed to the store
	keptTo  int    // the newest it has answered for
	leave   bool   // once the house is saved, the program ends
	partly  bool   // what is typed on the screen is not in what is being saved
	rewind  bool   // the screen shows something else: from its top
	picked  bool   // the last key chose and went on by itself
	unread  screen // comes up next: keys typed before it does are not for it
}

// open takes a house as the one worked on. The text is that of its file.
func (s *state) open(h *house.House, path, text string) {
	s.notice, s.drop = "", ""
	s.Open(h, path, text)
}

// mayReplace asks before the house of a file, or a new one when target is
// empty, takes the place of answers that are in no file of the person: the same
// choice a second time means yes.
func (s *state) mayReplace(choice, target string) bool {
	lost := s.Replaced(s.resume, target)
	if lost == "" || s.drop == choice {
		return true
	}
	s.drop = choice
	s.notice = lost + map[string]string{
		session.UnsavedHouse: ": the same again to go on, or save them first.",
		session.UnsavedWalk:  ": the same again to go on, or write it to a file first, under check.",
		session.KeptEarlier:  ": the same again to go on, or 1 to take them up.",
	}[lost]
	return false
}

// replaced keeps a copy of what is in no file of the person before then puts
// another house in its place, and says where the copy is. Without a copy nothing
// is replaced.
func (s *state) replaced(target string, then func(*state) tea.Cmd) tea.Cmd {
	lost := s.Replaced(s.resume, target)
	if lost == "" || s.Store == nil {
		return then(s)
	}
	return s.copied(s.SetAside(lost), func(s *state, where string) tea.Cmd {
		s.resume = keptAnswers{}
		cmd := then(s)
		s.notice = where
		return cmd
	})
}

// copied goes on once a copy is made, and says where it is.
func (s *state) copied(aside func() (string, error), then func(s *state, where string) tea.Cmd) tea.Cmd {
	return s.work("Keeping a copy", func() func(*state) tea.Cmd {
		where, err := aside()
		return func(s *state) tea.Cmd {
			if err != nil {
				s.notice = session.NoCopy + err.Error() + "."
				return nil
			}
			return then(s, session.CopyIn(where))
		}
	})
}

// edited works the plan out again after something changed.
func (s *state) edited(what plan.Reach, placeID string) {
	s.Edited(what, placeID)
	s.notice, s.drop = "", ""
}

// answer stores one answer and works out what follows.
func (s *state) answer(q house.Question, p *house.Place, a house.Answer) {
	if s.Answer(q, p, a) && s.Noted == nil {
		s.notice, s.drop = "", ""
	}
}

// How much an edit of a screen reaches; for answers plan.ReachOf tells.
const (
	onePlace   = plan.OnePlace
	wholeHouse = plan.WholeHouse
)

// findOut tries other answers when the screen that tells of it comes up.
func (s *state) findOut() tea.Cmd {
	do := s.Try()
	if do == nil {
		return nil
	}
	return s.work("Trying other answers", func() func(*state) tea.Cmd {
		then := do()
		return func(*state) tea.Cmd { then(); return nil }
	})
}
