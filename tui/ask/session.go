package ask

import (
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/rules/units"
)

// session is the house worked on and what follows from it.
type session struct {
	list   *house.QuestionList
	house  *house.House
	path   string // the person's own file, empty when none yet
	fresh  string // the file that was named at the start and is not there yet, until a house is begun
	onDisk string // its text as last read or written
	saved  bool   // everything said is in the person's own file
	edits  int
	opened int   // edits when this house was opened: nothing is kept before the next
	kept   int   // the edit that was kept last
	failed error // why the last could not be kept
	store  Store
	system units.System
	sized  map[string]bool // places led through on the way to an order
	rough  bool            // only the few questions that decide most
	assess plan.Assessment
	plan   plan.Plan
	offers []inspect.OpenOffer
	found  *inspect.Walk // through the finished work, nil before it is asked for
	noted  func()        // set where answers are kept beside the house: what to do after one
}

func newSession(cfg Config) *session {
	s := &session{list: cfg.List, store: cfg.Store, system: cfg.System, rough: true}
	h := cfg.House
	if h == nil {
		h = house.New()
	}
	s.open(h, cfg.Path, cfg.Text)
	return s
}

// open takes a house as the one worked on.
func (s *session) open(h *house.House, path, text string) {
	s.house, s.path, s.onDisk, s.saved = h, path, text, true
	s.opened, s.kept = s.edits, s.edits
	if s.store != nil {
		s.store.Belongs(path)
	}
	s.assess = plan.Assess(s.answered())
	s.weigh()
	s.offers, s.found, s.sized, s.fresh = nil, nil, map[string]bool{}, ""
	s.takeWalk(text) // a copy of kept answers holds it
	s.keptWalk(path)
}

func (s *session) answered() house.Answered {
	return house.Answered{List: s.list, House: s.house, System: s.system}
}

func (s *session) catalog() *catalog.Catalog { return s.list.Catalog() }

func (s *session) text() string { return house.Write(s.list, s.house) }

func (s *session) preferences() plan.Preferences { return plan.PreferencesOf(s.answered(), nil) }

func (s *session) weigh() { s.plan = s.assess.Weigh(s.preferences()) }

func (s *session) options(width int) report.Options {
	return report.Options{Catalog: s.catalog(), System: s.system, Width: width}
}

// answer stores one answer and gives one line on what it changed, empty when
// there is nothing to compare.
func (s *session) answer(q house.Question, place string, v house.Answer) string {
	p := s.house.Place(place)
	if s.answered().Raw(q, p).Equal(v) {
		return ""
	}
	s.answered().Store(q, p, v)
	if s.noted != nil { // not an answer about the house
		s.noted()
		return ""
	}
	s.assess = s.assess.Redo(s.answered(), plan.ReachOf(q, p), place)
	return s.edited()
}

// changedPlaces is for edits that add, copy or take away places.
func (s *session) changedPlaces() string {
	s.assess = plan.Assess(s.answered())
	return s.edited()
}

// edited weighs again, keeps the answers and says what changed.
func (s *session) edited() string {
	before := s.plan
	s.weigh()
	s.edits++
	s.saved = false
	s.failed = s.keep()
	if len(s.plan.Places)+len(before.Places) == 0 {
		return ""
	}
	return report.ChangeText(plan.Changes(before, s.plan), s.system)
}

// keep writes the answers to the state folder, once for each edit.
func (s *session) keep() error {
	if s.store == nil || s.edits == s.kept {
		return nil
	}
	if err := s.store.Autosave(s.edits, s.keptText()); err != nil {
		return err
	}
	s.kept = s.edits
	return nil
}

// place finds a place of the plan by id.
func (s *session) place(id string) *plan.Place {
	for i := range s.plan.Places {
		if s.plan.Places[i].Surface.ID == id {
			return &s.plan.Places[i]
		}
	}
	return nil
}
