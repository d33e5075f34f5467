// Package session is the state that screens and lines share: the house worked
// on, what follows from it, what is unsaved, what is offered and what was found
// in the finished work. It knows no terminal. What may wait for a disk, or takes
// long, is handed out as a function, so that the screens can do it outside their
// loop.
package session

import (
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// Store is the world outside the program, as far as answers are concerned. All
// of it may wait for a disk, but Belongs.
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

// Session is the house worked on and what follows from it.
type Session struct {
	List    *house.QuestionList
	House   *house.House
	Store   Store // nil: nothing is kept, read or written
	System  units.System
	Path    string // the person's own file, empty when none yet
	Fresh   string // the file that was named at the start and is not there yet, until a house is begun
	OnDisk  string // its text as last read or written
	began   string // the line of kept answers that tells from which text of it the answers began
	Saved   bool   // everything said is in the person's own file
	Edits   int
	Opened  int // edits when this house was opened: nothing is kept before the next
	Assess  plan.Assessment
	Plan    plan.Plan
	Changed string          // what the last edit changed, in one line; empty when there is nothing to compare
	Rough   bool            // the rough look: only the few questions that decide most
	Sized   map[string]bool // places led through on the way to an order
	Offers  []inspect.OpenOffer
	Earlier Earlier // answers of an earlier time
	ASCII   bool
	settled bool   // the damp of the plan is worked out
	noted   func() // set where answers are kept beside the house: what to do after one

	ladder  ladder
	walk    *inspect.Walk // through the finished work, nil before it is asked for
	made    *order.Order  // what is ordered, as of edit madeAt
	madeAt  int
	tried   *Tried // as of edit triedAt
	triedAt int
	minds   []plan.MindChange // what would change the plan, as of edit mindAt
	minded  bool
	mindAt  int
}

// Config is what a session begins with.
type Config struct {
	List   *house.QuestionList
	Store  Store
	House  *house.House // nil: begin with the start menu
	Path   string       // the file of House
	Text   string       // the text of that file as read
	New    bool         // the file is not there yet: the house will be saved in it
	System units.System
}

// Begin is a session, and what comes first. It looks at what is kept, while
// nothing waits for the terminal yet.
func Begin(c Config) (*Session, Next) {
	s := &Session{List: c.List, Store: c.Store, System: c.System, Rough: true}
	s.Open(house.New(), "", "")
	if c.House != nil {
		s.Open(c.House, c.Path, c.Text)
	}
	kept := ""
	if s.Store != nil {
		kept, s.Earlier.Path, s.Earlier.There = s.Store.Resume()
	}
	if c.House == nil {
		return s, Go(AtStart)
	}
	if s.Earlier.There && c.Path != "" && SameFile(s.Earlier.Path, c.Path) {
		s.TakeWalk(kept)
	}
	n := s.goOn()
	beside := s.Earlier.There && WithoutWay(kept) != c.Text
	if onDisk := c.Text; beside && s.Earlier.Path != "" {
		if !SameFile(s.Earlier.Path, c.Path) {
			onDisk, _ = s.Store.Read(s.Earlier.Path)
		}
		s.Earlier.Newer = newer(s.Earlier.Path, beganOf(kept), onDisk)
	}
	if c.New { // how to begin it is asked first
		s.Fresh = c.Path
		n = Go(AtStart)
		if !beside {
			n.Say = NewFile(c.Path)
		}
	}
	if beside {
		n.Open = At{Kept, s.Earlier.Path}
	}
	return s, n
}

// Open takes a house as the one worked on. The text is that of its file; a copy
// of kept answers holds the walk through the finished work too.
func (s *Session) Open(h *house.House, path, text string) {
	s.House, s.Path, s.OnDisk, s.Saved, s.Changed = h, path, text, true, ""
	s.began, s.Opened = Began(text), s.Edits
	if s.Store != nil {
		s.Store.Belongs(path)
	}
	s.Assess = plan.Assess(s.Answered())
	s.weigh(plan.WholeHouse)
	s.Offers, s.walk, s.Sized, s.Fresh = nil, nil, map[string]bool{}, ""
	s.made, s.tried, s.minded = nil, nil, false
	s.TakeWalk(text)
}

// Answered is the house with the questions about it.
func (s *Session) Answered() house.Answered {
	return house.Answered{List: s.List, House: s.House, System: s.System}
}

// Catalog is the data behind the questions.
func (s *Session) Catalog() *catalog.Catalog { return s.List.Catalog() }

// Text is the house as its file holds it.
func (s *Session) Text() string { return house.Write(s.List, s.House) }

// Preferences are what matters, and the budget.
func (s *Session) Preferences() plan.Preferences { return plan.PreferencesOf(s.Answered(), nil) }

// weigh makes the plan anew. A year of damp is worked out only where what matters
// changed; after other answers the plan is settled before a page shows it.
func (s *Session) weigh(after plan.Reach) {
	s.settled = len(s.Assess.Places) == 0 || s.settled && after == plan.WeightsOnly
	if s.settled {
		s.Plan = s.Assess.Weigh(s.Preferences())
		return
	}
	s.Plan = s.Assess.WeighLike(s.Preferences(), s.Plan)
}

// WorkingOut is said while a year is worked out.
const WorkingOut = "Working out a year of damp"

// Settle works out the damp of the plan as it is; nil when that is done.
func (s *Session) Settle() *Work {
	if s.settled {
		return nil
	}
	work, at := s.Ahead(), s.Edits
	return &Work{Doing: WorkingOut, Do: func() func() Next {
		made := work()
		return func() Next {
			s.TakePlan(made, at)
			return Next{}
		}
	}}
}

// TakePlan takes a plan that was worked out beside, unless answers came meanwhile.
func (s *Session) TakePlan(made plan.Plan, at int) {
	if at == s.Edits {
		s.Plan, s.settled = made, true
		s.made = nil // it may be of a choice that did not stand
	}
}

// settledPlan is the plan with its damp worked out, for what leaves the program: a
// file must not say that a verdict is not worked out yet.
func (s *Session) settledPlan() plan.Plan {
	if !s.settled {
		s.TakePlan(s.Ahead()(), s.Edits)
	}
	return s.Plan
}

// Ahead makes the plan as it is with the damp of all its choices. It touches nothing
// of the session, so that it can go on while the person answers: what it works out
// is kept, and nobody waits for it a second time.
func (s *Session) Ahead() func() plan.Plan {
	assess, prefs := s.Assess, s.Preferences()
	assess.Answered.House = assess.Answered.House.Clone()
	return func() plan.Plan { return assess.Weigh(prefs) }
}

// Settled reports whether the damp of the plan is worked out.
func (s *Session) Settled() bool { return s.settled }

// Options are those of every page.
func (s *Session) Options() pages.Options {
	return pages.Options{Catalog: s.Catalog(), System: s.System}
}

// Answer stores one answer and works out what follows, false when it is the
// answer there was.
func (s *Session) Answer(q house.Question, p *house.Place, v house.Answer) bool {
	if s.Answered().Raw(q, p).Equal(v) {
		return false
	}
	s.Answered().Store(q, p, v)
	if s.noted != nil { // not an answer about the house
		s.noted()
		return true
	}
	id := ""
	if p != nil {
		id = p.ID
	}
	s.Edited(plan.ReachOf(q, p), id)
	return true
}

// Edited works the plan out again and says what changed. Priorities and budget
// only need weighing.
func (s *Session) Edited(what plan.Reach, placeID string) {
	before := s.Plan
	s.Assess = s.Assess.Redo(s.Answered(), what, placeID)
	s.weigh(what)
	s.Edits++
	s.Saved, s.Changed = false, ""
	if len(s.Plan.Places)+len(before.Places) > 0 {
		s.Changed = pages.ChangeText(plan.Changes(before, s.Plan), s.System)
	}
}

// EditedHouse is for edits that answer no question: places, prices, plans.
func (s *Session) EditedHouse() { s.Edited(plan.WholeHouse, "") }

// Place finds a place of the plan by id.
func (s *Session) Place(id string) *plan.Place {
	for i := range s.Plan.Places {
		if s.Plan.Places[i].Surface.ID == id {
			return &s.Plan.Places[i]
		}
	}
	return nil
}

// Label is the name of a place of the house.
func (s *Session) Label(p *house.Place) string {
	return s.Answered().Text(house.PlaceScope, p, "label")
}

// Begun reports whether anything was answered, now or earlier.
func (s *Session) Begun() bool {
	return s.Edits > s.Opened || s.Path != "" && s.Fresh == "" || !s.Saved || len(s.House.Answers)+len(s.House.Places) > 0
}

// Name is what the house is called.
func (s *Session) Name() string {
	if n := s.Answered().Text(house.Top, nil, "name"); n != "" {
		return n
	}
	if s.Path != "" {
		return s.Path
	}
	return "this house"
}

// Unsized is the first place whose size and frame are still to be asked on the
// way to an order, -1 when none is.
func (s *Session) Unsized() int {
	for i, p := range s.House.Places {
		if !s.Rough && !s.Sized[p.ID] {
			return i
		}
	}
	return -1
}

// WayChanged keeps the way with answers that are kept anyhow.
func (s *Session) WayChanged() {
	if !s.Saved {
		s.Edits++
	}
}

// Order is what would be bought as things stand; it is counted when a page of
// it is shown.
func (s *Session) Order() order.Order {
	if s.made == nil || s.madeAt != s.Edits {
		made := order.Make(s.Plan, s.Answered())
		s.made, s.madeAt = &made, s.Edits
	}
	return *s.made
}

// Tried is what trying other answers gave.
type Tried struct {
	Found []plan.Said
	Near  string // whether another listed place's weather would change the plan
}

// try ranks what is unknown, and tells whether the weather of another listed
// place would change the plan. Both try many answers, which in a large house
// takes seconds; nil when it is done for the plan as it is.
func (s *Session) try() *Work {
	if s.Tried() != nil {
		return nil
	}
	assess, prefs, base, at := s.Assess, s.Preferences(), s.Plan, s.Edits
	settled, ahead, track := s.settled, s.Ahead(), &Track{}
	return &Work{Doing: "Trying other answers", Track: track, Do: func() func() Next {
		if !settled {
			base = ahead()
		}
		found, ok := assess.FindOut(prefs, base, track.Tell)
		if !ok {
			return func() Next { return Next{Close: 1} }
		}
		out := &Tried{found, assess.NearClimates(base)}
		return func() Next {
			s.TakePlan(base, at)
			s.tried, s.triedAt = out, at
			return Next{}
		}
	}}
}

// Tried is what it gave for the plan as it is, nil before that.
func (s *Session) Tried() *Tried {
	if s.triedAt != s.Edits {
		return nil
	}
	return s.tried
}

// Minds lists what would change the plan, nothing before it is worked out.
func (s *Session) Minds() []plan.MindChange {
	if !s.minded || s.mindAt != s.Edits {
		return nil
	}
	return s.minds
}

// mind works out what would change the plan; nil when that is done.
func (s *Session) mind() *Work {
	if s.minded && s.mindAt == s.Edits {
		return nil
	}
	assess, prefs, base, at := s.Assess, s.Preferences(), s.Plan, s.Edits
	settled, ahead := s.settled, s.Ahead()
	return &Work{Doing: "Trying other priorities", Do: func() func() Next {
		if !settled {
			base = ahead()
		}
		found := assess.WouldChange(prefs, base)
		return func() Next {
			s.TakePlan(base, at)
			s.minds, s.minded, s.mindAt = found, true, at
			return Next{}
		}
	}}
}

// HelpOf is what stands behind a question: why it is asked, how to find out, and
// what to ask somebody.
func (s *Session) HelpOf(q house.Question) []string {
	h, ok := s.Catalog().Help(q.FullKey())
	if !ok {
		h.How = q.How
	}
	var out []string
	for _, l := range []struct {
		head string
		text units.Prose
	}{{"Why we ask: ", h.Why}, {"How to find out: ", h.How}, {"To ask: ", h.Ask}} {
		if l.text != "" {
			out = append(out, l.head+l.text.In(s.System))
		}
	}
	return out
}
