package house

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

// Kind is the form of an answer.
type Kind int

// The kinds of question.
const (
	Choice Kind = iota
	NumberKind
	YesNoKind
	TextKind
	Many    // any of the options
	Numbers // exactly Count numbers, or 1 to Most when Count is 0
	Sizes   // up to Most openings, each like "2 of 36 in x 48 in"
)

// Scope says which part of the house a question is about.
type Scope int

// The scopes, in the order in which they are asked.
const (
	Top Scope = iota
	Site
	Shape
	Drawings
	PlaceScope
	Priorities
	Budget
)

// Option is one choice: the word in the file and the words on the screen.
type Option struct {
	Value string
	Label units.Prose
}

// Question is one question. The list of them is the only definition of the
// keys of a house file, of what the screens ask and of what is assumed.
type Question struct {
	Key      string // dotted below its scope: "area_ft2", "framing.size"
	Earlier  string // the key in files written before it was renamed; still read
	Scope    Scope
	Kinds    []string // place scope: the kinds that have it; nil means all
	ByKind   bool     // only places of a kind that asks it have it, or that may have its danger
	Prompt   units.Prose
	How      units.Prose // how to find out, one line
	Unit     string      // ft, ft2, in, R, usd, ...
	Kind     Kind
	Options  []Option
	Min, Max float64
	Count    int
	Most     int  // of a list without a fixed Count
	DontKnow bool // "don't know" is offered
	Optional bool // no answer is a full answer
	Rough    bool // part of the rough look
	ToOrder  bool // of a place: must be known before its blankets are ordered
	Safety   bool // decides safety: unknown until answered
	Whole    bool // whole numbers only
	ForDamp  bool // heard by the check of damp alone, which takes the worst until it is answered
	Record   bool // for the builder\'s own record: nothing is made of it, and How says so
	Asked    func(Answered, *Place) bool
	Default  func(Answered, *Place) Answer // what is assumed, and the stand-in for "don't know"
	// Follows is what other answers of the house tell already; it holds until
	// this one is given; "don't know" about a place is an answer of its own. The zero Answer: they leave it open.
	Follows   func(Answered, *Place) Answer
	Belied    func(Answered, *Place) bool         // the answer given cannot stand beside others, and counts as not known
	BeliedBy  string                              // what it cannot stand beside
	Offers    func(Answered, *Place, Option) bool // whether an option is shown; nil shows all. A file may hold any.
	Normalize func(string) string
	Valid     func(string) error // of a text; its error says what would be right
}

// tableOf is the table of a house file that holds the answers of a scope; the
// questions of the house itself stand at the top.
var tableOf = [...]string{
	Site: "site", Shape: "shape", Drawings: "drawing_r", PlaceScope: "place", Priorities: "priorities", Budget: "budget",
}

// FullKey is the key with its table: "site.state", "place.area_ft2".
func (q Question) FullKey() string {
	if table := tableOf[q.Scope]; table != "" {
		return table + "." + q.Key
	}
	return q.Key
}

// For reports whether places of a kind have the question at all.
func (q Question) For(kind string) bool {
	return q.Scope == PlaceScope && (q.Kinds == nil || slices.Contains(q.Kinds, kind))
}

// Range says in words what numbers are accepted.
func (q Question) Range() string {
	return fmt.Sprintf("a number%s from %s to %s", q.unitAfter(), formatNumber(q.Min), formatNumber(q.Max))
}

func (q Question) unitAfter() string {
	if words := UnitWords(q.Unit); q.Unit != "" && words != "" {
		return " " + words
	}
	return ""
}

// UnitWords spells a unit out for a person.
func UnitWords(unit string) string {
	switch unit {
	case "ft":
		return "of feet"
	case "ft2":
		return "of square feet"
	case "in":
		return "of inches"
	case "usd":
		return "of dollars"
	case "C":
		return "of degrees C"
	case "R":
		return "(R-value)"
	case units.Pitch:
		return "of inches of rise in 12"
	case "0-5":
		return ""
	}
	return "(" + unit + ")"
}

// Accepted says in words what the question takes.
func (q Question) Accepted() string {
	var s string
	switch q.Kind {
	case Choice:
		s = "one of " + strings.Join(q.values(), ", ")
	case Many:
		s = "a list with any of " + strings.Join(q.values(), ", ")
	case NumberKind:
		s = q.Range()
		if q.Whole {
			s = "a whole " + strings.TrimPrefix(s, "a ")
		}
	case Sizes:
		s = fmt.Sprintf("a list of up to %d openings", q.Most) + wantOpening
	case Numbers:
		if q.Count == 0 {
			s = fmt.Sprintf("a list of 1 to %d numbers%s, each from %s to %s", q.Most, q.unitAfter(), formatNumber(q.Min), formatNumber(q.Max))
			break
		}
		s = fmt.Sprintf("a list of %d numbers%s, each from %s to %s", q.Count, q.unitAfter(), formatNumber(q.Min), formatNumber(q.Max))
	case YesNoKind:
		s = "true or false"
	case TextKind:
		s = fmt.Sprintf("one line of text of at most %d characters", MaxText)
	}
	if q.DontKnow {
		s += `, or "unknown"`
	}
	return s
}

func (q Question) values() []string {
	out := make([]string, len(q.Options))
	for i, o := range q.Options {
		out[i] = o.Value
	}
	return out
}

// List is the one question list, made for a catalog: materials, places and
// framing that an overlay adds can be answered with too.
type QuestionList struct {
	Questions []Question
	byKey     map[string]int
	ofKind    map[string][]Question // those of a place of a kind: asked for at every key
	catalog   *catalog.Catalog
}

// Catalog is the catalog the list was made for.
func (l *QuestionList) Catalog() *catalog.Catalog { return l.catalog }

// Find gives a question by its full key.
func (l *QuestionList) Find(fullKey string) (Question, bool) {
	i, ok := l.byKey[fullKey]
	if !ok {
		return Question{}, false
	}
	return l.Questions[i], true
}

// In gives the questions of a scope in order; for PlaceScope those of a kind.
// They are not to be changed.
func (l *QuestionList) In(scope Scope, kind string) []Question {
	if qs, ok := l.ofKind[kind]; ok && scope == PlaceScope {
		return qs
	}
	return l.pick(func(q Question) bool { return q.Scope == scope && (scope != PlaceScope || q.For(kind)) })
}
