// Package inspect holds a job against its plan: what a hand-over sheet says,
// what an offer lacks and what in it does not add up, and what finished work
// is worth once it is measured.
//
// Files are read as far as possible: every problem is named with its line and
// the rest is used. No figure of the trade is here; they are in the catalog.
// Nothing is added up over the parts of a house but money and heat, never R:
// the R-value rule (16 CFR 460.17) forbids it, and it would mean nothing.
package inspect

import (
	"errors"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// The ways an input can be impossible.
var (
	ErrDate   = errors.New("not a day that can be planned for")
	ErrPerson = errors.New("there is no page for that person")
	ErrNumber = errors.New("number out of range")
	ErrGaps   = errors.New("gaps are written as length x width, with commas between")
)

// Job is a house with its plan: what offers and finished work are held
// against. System is how figures are shown in what is said.
type Job struct {
	Assessment plan.Assessment
	Plan       plan.Plan
	System     units.System
}

// NewJob puts a job together.
func NewJob(a plan.Assessment, p plan.Plan, s units.System) Job { return Job{a, p, s} }

// Catalog is the catalog of the job.
func (j Job) Catalog() *catalog.Catalog { return j.Assessment.Answered.List.Catalog() }

// Place finds a place of the plan by id.
func (j Job) Place(id string) (plan.Place, bool) {
	at := slices.IndexFunc(j.Plan.Places, func(p plan.Place) bool { return p.Surface.ID == id })
	if at < 0 {
		return plan.Place{}, false
	}
	return j.Plan.Places[at], true
}

// IDs are the ids of the places, in the order of the house.
func (j Job) IDs() []string {
	out := make([]string, len(j.Plan.Places))
	for i, p := range j.Plan.Places {
		out[i] = p.Surface.ID
	}
	return out
}

// planned reports whether a place has a blanket to hand over at all.
func planned(p plan.Place) bool { return p.Choice != nil }

// inspected reports whether finished work is looked at in a place: wherever a
// blanket is planned, wherever one must not lie, where a danger waits or something
// must be minded, and beside every chimney.
func inspected(p plan.Place) bool {
	return planned(p) || !p.Target.Idle || p.Stopped() || minded(p) || byChimney(p)
}

// minded reports whether something must be looked at in a place where no blanket is
// planned, whether one is asked for or not: what can hurt there does so all the same.
func minded(p plan.Place) bool {
	return !planned(p) && !p.Stopped() && len(p.Settles())+len(p.Minds(units.US)) > 0
}

// byChimney reports whether a place lies beside a chimney, whose air gap stays
// empty whatever is planned.
func byChimney(p plan.Place) bool { return p.Surface.Kind.BesideChimney }

// barred reports whether a blanket in a place can hurt people as things stand:
// a danger stops it, or the width that must stay empty is not known.
func barred(p plan.Place) bool { return p.Stopped() || p.Surface.Held() != "" }

// getsDamp reports whether the plan itself finds that a place gets damp.
func getsDamp(p plan.Place) bool {
	return planned(p) && p.Choice.Damp.Alarm()
}

// Level is how much a finding weighs.
type Level int

// The levels, lightest first.
const (
	Good  Level = iota
	Note        // worth knowing
	Ask         // missing, or not seen: ask or look
	Wrong       // does not hold, or falls short of the plan
	Stop        // nothing is closed before it is put right
)

// String is the word of a level.
func (l Level) String() string {
	return [...]string{"good", "note", "ask", "wrong", "stop"}[max(0, min(int(l), 4))]
}

// Finding is one thing that was found, in words for the builder.
type Finding struct {
	ID    string
	Level Level
	Text  string
	Ask   string // the sentence to say, empty when there is nothing to ask
	Line  int    // of the file, 0 when no line is to blame
	Ref   catalog.Ref
}

// Worst is the heaviest level of some findings.
func Worst(list []Finding) Level {
	out := Good
	for _, f := range list {
		out = max(out, f.Level)
	}
	return out
}
