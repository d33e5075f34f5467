package tui

import (
	"battwright/rules/house"
	"battwright/tui/session"
	"battwright/tui/style"
)

// Store is the world outside the program. Its work is done in commands, never
// while a screen is drawn.
type Store = session.Store

// step is a stop of the path shown on top of every screen.
type step = session.Step

// state is the session with what the screens alone keep beside it.
type state struct {
	*session.Session
	drop    string // what would replace answers that are in no file, asked once
	notice  string // what just happened: saved, exported, could not; gone with the next key, as what an edit changed is
	unkept  string // why the answers could not be kept, until they can
	g       style.Glyphs
	busy    int                         // works that run outside the loop; keys wait for them
	doing   string                      // what they do
	track   *session.Track              // how far the last of them is, nil for what takes no longer than a disk
	slow    bool                        // something lasts longer than a person waits without a word
	keeping int                         // the newest edit handed to the store
	keptTo  int                         // the newest it has answered for
	leave   bool                        // once the house is saved, the program ends
	partly  bool                        // what is typed on the screen is not in what is being saved
	rewind  bool                        // the screen shows something else: from its top
	picked  bool                        // the last key chose and went on by itself
	views   map[session.At]session.View // as of edit viewsAt and since anything was done
	viewsAt int
	going   bool   // a plan is being worked out ahead
	unread  screen // comes up next: keys typed before it does are not for it
}

// answer stores one answer and works out what follows.
func (s *state) answer(q house.Question, p *house.Place, a house.Answer) {
	if s.Answer(q, p, a) {
		s.notice, s.drop = "", ""
	}
}

// view is a view of the session, made again only once something was done: the
// rows of a large house take long.
func (s *state) view(at session.At) (session.View, bool) {
	if s.views == nil || s.viewsAt != s.Edits {
		s.views, s.viewsAt = map[session.At]session.View{}, s.Edits
	}
	v, ok := s.views[at]
	if !ok {
		if v, ok = s.View(at); ok {
			s.views[at] = v
		}
	}
	return v, ok
}
