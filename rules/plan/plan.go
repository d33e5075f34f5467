// Package plan puts the places of a house together: it assesses each once,
// weighs them by the builder's priorities as often as those change, and says
// what was chosen, what it costs and what was taken for granted.
package plan

import (
	"battwright/rules"
	"battwright/rules/bill"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Assessment is everything about a house that priorities and budget cannot
// change. It is made once and weighed many times.
type Assessment struct {
	Answered house.Answered
	Site     candidate.Site
	Places   []candidate.PlaceResult

	counter *bill.Counter // of what its places take
}

// Plan is the recommendation for a house under one set of priorities.
type Plan struct {
	Name        string
	Stage       string
	Site        candidate.Site
	Priorities  []Priority
	Places      []Place
	Bill        bill.Bill
	Spend       Spend
	Assumed     []Said
	Unknown     []Said
	Undrawn     []string // places whose R the drawings are said to name, though nobody typed it
	Disagree    []string // answers that cannot both be true, a sentence each
	NearClimate string   // whether another listed place's weather would change the plan; worked out on demand
	NotCovered  []string
	Overlaid    []string
	Sources     []catalog.Source
}

// Priority is one priority with its level 0 to 5.
type Priority struct {
	ID, Name string
	Level    float64
}

// Place is one place of the plan.
type Place struct {
	candidate.PlaceResult
	candidate.Calls
	Entries []Entry // one a material: ranked first, then excluded
	Choice  *Entry  // nil when nothing may go here as it stands, or is stopped
	Best    *Entry  // the best of its own, when the choice is another
	Also    []Stop  // what could stop a stopped place as well and nobody has found out
	Stops   []Stop  // dangers that leave it without a plan, in the order of who goes first
	// Elsewhere names the places that a danger stops which is not ruled out here,
	// by the id of its rule.
	Elsewhere map[string][]string
	Install   []rules.Hit
	Depends   []rules.Hit
	Weights   []float64
	Levels    []float64       // 0 to 5, in the order of the criteria
	Own       bool            // the place has priorities of its own
	WaysOut   []WayOut        // what would cure a choice that gets wet or molds, each alone; none: nothing that was tried
	Hinges    []Hinge         // answers that nobody gave and that decide about damp there
	Cost      bill.PlaceMoney // its share of the bill
	shop      *shop
	Limited   bool // a budget for the whole house may choose otherwise than the priorities
}

// Entry is one material at one place.
type Entry struct {
	candidate.Assessed
	MaterialID string
	Name       string
	Rank       int // 0 when excluded or without a blanket that fits
	Score      float64
	Parts      []float64 // points by priority, adding up to Score
	NoFit      string    // why no blanket of the material fits
	Others     []Variant // the other stacks of the material that were looked at
}

// Variant is another stack of the same material, best first. It points into
// the assessment, which is never changed: a stack is not copied at every key.
type Variant struct {
	*candidate.Assessed
	Score float64
}

// Usable reports whether the entry may be chosen.
func (e Entry) Usable() bool { return e.NoFit == "" && !e.Excluded() }

// Said is one answer of the house as the outputs list it.
type Said struct {
	Place   string // id, empty for the house itself
	Label   string
	Key     string
	Prompt  string
	Value   string
	Matters bool
	Effect  string // what another answer would change; also a caution, which does not count as mattering
}

// Preferences are what Weigh needs beside the assessment.
type Preferences struct {
	Priorities map[string]float64            // level by criterion
	Places     map[string]map[string]float64 // overrides by place id
	Budget     units.Cents
	HasBudget  bool
	Spend      bool   // the budget is to be spent: the plan is the best set it buys, whatever it costs below that
	Stakes     string // how places weigh against each other within the budget: heat or alike
}
