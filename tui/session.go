package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/rules/units"
	"battwright/tui/say"
	"battwright/tui/style"
)

// Store is the world outside the program, as far as answers are concerned.
// Its work is done in commands, never while a screen is drawn.
type Store interface {
	// Autosave keeps the answers in the state folder. Later numbers win: a slow
	// write never overwrites a newer one.
	Autosave(n int, text string) error
	// Belongs sets which file the kept answers belong to.
	Belongs(path string)
	// Resume gives the kept answers, the file they belong to, and whether there are any.
	Resume() (text, path string, ok bool)
	// Forget drops the kept answers, after they were saved.
	Forget() error
	// SetAside copies answers that are about to be replaced to a file of their
	// own, and says which. Without a text it is those kept earlier.
	SetAside(text string) (where string, err error)
	// Same reports whether two names are of one file.
	Same(a, b string) bool
	// Folder reports whether a name is of a folder.
	Folder(path string) bool
	// Read reads a house file.
	Read(path string) (text string, err error)
	// Changed reports whether the file is no longer what was read or written.
	Changed(path, text string) bool
	// Write writes a file whole or not at all. It refuses to overwrite unless
	// told so, with an error that is fs.ErrExist.
	Write(path, text string, overwrite bool) error
	// Where names the file the answers are in, empty when they are in none.
	Where() string
}

// session is the state that all screens share.
type session struct {
	list    *house.QuestionList
	house   *house.House
	path    string // the person's own file, empty when none yet
	fresh   string // the file that was named at the start and is not there yet, until a house is begun
	onDisk  string // its text as last read or written
	saved   bool   // everything said is in the person's own file
	edits   int
	opened  int    // edits when this house was opened: nothing is kept before the next
	drop    string // what would replace answers that are in no file, asked once
	store   Store
	system  units.System
	assess  plan.Assessment
	plan    plan.Plan
	changed string // what the last edit changed, in one line; gone with the next key
	notice  string // what just happened: saved, exported, could not; gone with the next key
	unkept  string // why the answers could not be kept, until they can
	resume  keptAnswers
	g       style.Glyphs
	found   []plan.Said // the find-out list as of edit foundAt
	foundAt int
	near    string            // whether another listed place's weather would change the plan, as of then
	isFound bool              // both were worked out
	minds   []plan.MindChange // what would change the plan as of edit mindAt
	minded  bool
	mindAt  int
	ordered *order.Order // what is ordered, as of edit orderAt
	orderAt int
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
	kept    func() // set where answers are kept beside the house: what to do after one
	check   checkState
	sized   map[string]bool // places led through on the way to an order
	rough   bool            // the rough look: only the few questions that decide most
}

func newSession(l *house.QuestionList, store Store, shown units.System) *session {
	s := &session{list: l, store: store, system: shown, rough: true, saved: true}
	s.open(house.New(), "", "")
	return s
}

// open takes a house as the one worked on. The text is that of its file.
func (s *session) open(h *house.House, path, text string) {
	s.house, s.path, s.onDisk, s.saved, s.changed, s.notice, s.isFound = h, path, text, true, "", "", false
	s.opened, s.drop, s.minded, s.ordered = s.edits, "", false, nil
	if s.store != nil {
		s.store.Belongs(path)
	}
	s.assess = plan.Assess(s.answered())
	s.weigh()
	s.check, s.sized, s.fresh = checkState{}, map[string]bool{}, ""
	s.takeWalk(text) // a copy of kept answers holds it
}

// begun reports whether anything was answered, now or earlier.
func (s *session) begun() bool {
	return s.edits > s.opened || s.path != "" && s.fresh == "" || !s.saved || len(s.house.Answers)+len(s.house.Places) > 0
}

// mayReplace asks before the house of a file, or a new one when target is
// empty, takes the place of answers that are in no file of the person: the same
// choice a second time means yes.
func (s *session) mayReplace(choice, target string) bool {
	lost := say.Replaced(s.saved, s.walkUnsaved(), s.resume, target)
	if lost == "" || s.drop == choice {
		return true
	}
	s.drop = choice
	s.notice = lost + map[string]string{
		say.UnsavedHouse: ": the same again to go on, or save them first.",
		say.UnsavedWalk:  ": the same again to go on, or write it to a file first, under check.",
		say.KeptEarlier:  ": the same again to go on, or 1 to take them up.",
	}[lost]
	return false
}

// replaced keeps a copy of what is in no file of the person before then puts
// another house in its place, and says where the copy is. Without a copy nothing
// is replaced.
func (s *session) replaced(target string, then func(*session) tea.Cmd) tea.Cmd {
	text, store := "", s.store
	switch say.Replaced(s.saved, s.walkUnsaved(), s.resume, target) {
	case "":
		return then(s)
	case say.UnsavedHouse, say.UnsavedWalk:
		text = s.keptText()
	}
	if store == nil {
		return then(s)
	}
	return s.work("Keeping a copy", func() func(*session) tea.Cmd {
		where, err := store.SetAside(text)
		return func(s *session) tea.Cmd {
			if err != nil {
				s.notice = say.NoCopy + err.Error() + "."
				return nil
			}
			s.resume = keptAnswers{}
			cmd := then(s)
			s.notice = say.CopyIn(where)
			return cmd
		}
	})
}

func (s *session) answered() house.Answered {
	return house.Answered{List: s.list, House: s.house, System: s.system}
}

func (s *session) catalog() *catalog.Catalog { return s.list.Catalog() }

func (s *session) options() report.Options {
	return report.Options{Catalog: s.catalog(), System: s.system}
}

func (s *session) weigh() {
	s.plan = s.assess.Weigh(plan.PreferencesOf(s.answered(), nil))
}

// How much an edit of a screen reaches; for answers plan.ReachOf tells.
const (
	onePlace   = plan.OnePlace
	wholeHouse = plan.WholeHouse
)

// edited works the plan out again after an answer changed and says what
// changed. Priorities and budget only need weighing.
func (s *session) edited(what plan.Reach, placeID string) {
	before := s.plan
	s.assess = s.assess.Redo(s.answered(), what, placeID)
	s.weigh()
	s.edits++
	s.saved = false
	s.notice, s.drop = "", ""
	s.changed = ""
	if len(s.plan.Places)+len(before.Places) > 0 {
		s.changed = report.ChangeText(plan.Changes(before, s.plan), s.system)
	}
}

// answer stores one answer and works out what follows.
func (s *session) answer(q house.Question, p *house.Place, a house.Answer) {
	old := s.answered().Raw(q, p)
	if old.Equal(a) {
		return
	}
	s.answered().Store(q, p, a)
	if s.kept != nil { // not an answer about the house
		s.kept()
		return
	}
	id := ""
	if p != nil {
		id = p.ID
	}
	s.edited(plan.ReachOf(q, p), id)
}

func (s *session) text() string { return house.Write(s.list, s.house) }

// place finds a place of the plan by id.
func (s *session) place(id string) *plan.Place {
	for i := range s.plan.Places {
		if s.plan.Places[i].Surface.ID == id {
			return &s.plan.Places[i]
		}
	}
	return nil
}

// findOut ranks what is unknown, and tells whether the weather of another listed
// place would change the plan. Both try many answers, so that in a large house
// it takes seconds: it is worked out when its screen comes up.
func (s *session) findOut() tea.Cmd {
	if s.foundOut() {
		return nil
	}
	assess, prefs, base, at := s.assess, plan.PreferencesOf(s.answered(), nil), s.plan, s.edits
	return s.work("Trying other answers", func() func(*session) tea.Cmd {
		found, near := assess.FindOut(prefs, base), assess.NearClimates(prefs, base)
		return func(s *session) tea.Cmd {
			s.found, s.near, s.foundAt, s.isFound = found, near, at, true
			return nil
		}
	})
}

// foundOut reports whether it is worked out for the plan as it is.
func (s *session) foundOut() bool { return s.isFound && s.foundAt == s.edits }

// mind lists what would change the plan; worked out when its screen is shown.
func (s *session) mind() []plan.MindChange {
	if s.minded && s.mindAt == s.edits {
		return s.minds
	}
	s.minds = s.assess.WouldChange(plan.PreferencesOf(s.answered(), nil), s.plan)
	s.minded, s.mindAt = true, s.edits
	return s.minds
}

// siteKnown is the plan with the question answered whether the weather of
// another listed place would change it.
func (s *session) siteKnown() plan.Plan {
	p := s.plan
	p.NearClimate = s.near
	return p
}
