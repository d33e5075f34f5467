package session

import (
	"battwright/rules/house"
	"battwright/rules/inspect"
)

// Job is the house with its plan as it is now.
func (s *Session) Job() inspect.Job { return inspect.NewJob(s.Assess, s.settledPlan(), s.System) }

// Walk gives the walk through the finished work with every place that has a
// plan now.
func (s *Session) Walk() *inspect.Walk {
	if s.walk == nil {
		s.walk = inspect.NewWalk(s.Catalog())
	}
	s.walk.Follow(s.Job())
	return s.walk
}

// WalkBegun is cheaper than the walk itself where nobody began one.
func (s *Session) WalkBegun() bool { return s.walk != nil && s.walk.Begun() }

// WalkUnsaved reports whether it is in no file of the person.
func (s *Session) WalkUnsaved() bool { return s.walk != nil && s.walk.Unsaved() }

// WalkResult is what it says about the plan as it is.
func (s *Session) WalkResult() inspect.FoundResult { return s.Walk().Judge(s.Job()) }

// onWalk is a session that asks about the walk. Its answers are kept with those
// about the house.
func (s *Session) onWalk() *Session {
	w := s.Walk()
	return &Session{List: w.List, House: w.House, System: s.System, Saved: true, noted: func() {
		s.Walk().Changed()
		s.Edits++
		s.Changed = ""
	}}
}

// TakeWalk takes the walk out of kept answers, where they hold one.
func (s *Session) TakeWalk(text string) {
	if house.FinishedWork(text) != "" {
		s.Walk().TakeUp(s.Job(), text)
	}
}
