package house

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/strict"
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
	Numbers // exactly Count numbers
)

// Scope says which part of the house a question is about.
type Scope int

// The scopes, in the order in which they are asked.
const (
	Top Scope = iota
	Site
	Shape
	PlaceScope
	Priorities
	Budget
)

// Option is one choice: the word in the file and the words on the screen.
type Option struct{ Value, Label string }

// Question is one question. The list of them is the only definition of the
// keys of a house file, of what the screens ask and of what is assumed.
type Question struct {
	Key       string // dotted below its scope: "area_ft2", "framing.size"
	Scope     Scope
	Kinds     []string // place scope: the kinds that have it; nil means all
	Prompt    string
	How       string // how to find out, one line
	Unit      string // ft, ft2, in, R, usd, ...
	Kind      Kind
	Options   []Option
	Min, Max  float64
	Count     int
	DontKnow  bool // "don't know" is offered
	Optional  bool // no answer is a full answer
	Rough     bool // part of the rough look
	Safety    bool // decides safety: unknown until answered
	Whole     bool // whole numbers only
	Asked     func(Answered, *Place) bool
	Default   func(Answered, *Place) Answer // what is assumed, and the stand-in for "don't know"
	Normalize func(string) string
}

// FullKey is the key with its table: "site.state", "place.area_ft2".
func (q Question) FullKey() string {
	switch q.Scope {
	case Site:
		return "site." + q.Key
	case Shape:
		return "shape." + q.Key
	case PlaceScope:
		return "place." + q.Key
	case Priorities:
		return "priorities." + q.Key
	case Budget:
		return "budget." + q.Key
	}
	return q.Key
}

// For reports whether places of a kind have the question at all.
func (q Question) For(kind string) bool {
	return q.Scope == PlaceScope && (q.Kinds == nil || slices.Contains(q.Kinds, kind))
}

// Range says in words what numbers are accepted.
func (q Question) Range() string {
	unit := ""
	if q.Unit != "" {
		unit = " " + UnitWords(q.Unit)
	}
	return fmt.Sprintf("a number%s from %s to %s", unit, formatNumber(q.Min), formatNumber(q.Max))
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
	case "R":
		return "(R-value)"
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
	case Numbers:
		s = fmt.Sprintf("%d numbers, each from %s to %s", q.Count, formatNumber(q.Min), formatNumber(q.Max))
	case YesNoKind:
		s = "true or false"
	case TextKind:
		s = fmt.Sprintf("text of at most %d characters", MaxText)
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

// ErrAnswer wraps every refusal of Check and Parse; its text is for the person.
var ErrAnswer = errors.New("that answer does not fit")

func refuse(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrAnswer, fmt.Sprintf(format, args...))
}

// Check says whether an answer fits the question, in words for the builder.
func (q Question) Check(a Answer) error {
	switch a.State {
	case Absent:
		return nil
	case Unknown:
		if !q.DontKnow {
			return refuse(`"don't know" is not offered here; %s`, q.Accepted())
		}
		return nil
	}
	switch q.Kind {
	case Choice:
		if !slices.Contains(q.values(), a.Text) {
			return refuse("found %q; want %s", clip(a.Text), q.Accepted())
		}
	case Many:
		for _, v := range a.List {
			if !slices.Contains(q.values(), v) {
				return refuse("found %q; want %s", clip(v), q.Accepted())
			}
		}
	case NumberKind:
		return q.checkNumber(a.Number)
	case Numbers:
		return q.checkNumbers(a.List)
	case TextKind:
		if _, changed := strict.CleanText(a.Text); changed || len([]rune(a.Text)) > MaxText {
			return refuse("want %s, without control characters", q.Accepted())
		}
	}
	return nil
}

func (q Question) checkNumber(v float64) error {
	if math.IsNaN(v) || math.IsInf(v, 0) || v < q.Min || v > q.Max {
		return refuse("found %s; want %s", formatNumber(v), q.Accepted())
	}
	if q.Whole && v != math.Trunc(v) {
		return refuse("found %s; want %s", formatNumber(v), q.Accepted())
	}
	return nil
}

func (q Question) checkNumbers(list []string) error {
	if len(list) != q.Count {
		return refuse("found %d numbers; want %s", len(list), q.Accepted())
	}
	for _, s := range list {
		v, err := parseSigned(s)
		if err != nil || v < q.Min || v > q.Max {
			return refuse("found %q; want %s", clip(s), q.Accepted())
		}
	}
	return nil
}

// Parse reads what a person typed. An empty line is no answer (Absent).
func (q Question) Parse(typed string) (Answer, error) {
	s, _ := strict.CleanText(typed)
	s = strings.TrimSpace(s)
	if s == "" {
		return Answer{}, nil
	}
	if low := strings.ToLower(s); low == "unknown" || low == "don't know" || low == "dont know" || low == "?" && q.Kind != TextKind {
		return DontKnow(), q.Check(DontKnow())
	}
	a, err := q.parse(s)
	if err != nil {
		return Answer{}, err
	}
	return a, q.Check(a)
}

func (q Question) parse(s string) (Answer, error) {
	switch q.Kind {
	case Choice:
		return Text(q.match(s)), nil
	case Many:
		if strings.EqualFold(s, "none") {
			return List(), nil
		}
		var ids []string
		for _, part := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' }) {
			if part = strings.TrimSpace(part); part != "" {
				ids = append(ids, q.match(part))
			}
		}
		return List(ids...), nil
	case NumberKind:
		return q.parseNumber(s)
	case Numbers:
		return List(strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' || r == ' ' })...), nil
	case YesNoKind:
		switch strings.ToLower(s) {
		case "y", "yes", "true":
			return YesNo(true), nil
		case "n", "no", "false":
			return YesNo(false), nil
		}
		return Answer{}, refuse("found %q; want yes or no", clip(s))
	}
	if q.Normalize != nil {
		s = q.Normalize(s)
	}
	return Text(s), nil
}

// match finds the option meant by its value or its words, or returns s.
func (q Question) match(s string) string {
	for _, o := range q.Options {
		if strings.EqualFold(s, o.Value) || strings.EqualFold(s, o.Label) {
			return o.Value
		}
	}
	return s
}

func (q Question) parseNumber(s string) (Answer, error) {
	s = strings.TrimPrefix(strings.TrimPrefix(s, "$"), "R-")
	read := units.ParseNumber
	switch q.Unit {
	case "ft":
		read = units.ParseFeet
	case "in":
		read = units.ParseInches
	}
	if q.Min < 0 {
		read = parseSigned
	}
	v, err := read(s)
	if err != nil {
		return Answer{}, refuse("%q is not a number; want %s", clip(s), q.Accepted())
	}
	return Number(v), nil
}

func parseSigned(s string) (float64, error) {
	s = strings.TrimSpace(s)
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		v, err := units.ParseNumber(rest)
		return -v, err
	}
	return units.ParseNumber(s)
}

// Show writes an answer in the builder's words.
func (q Question) Show(a Answer, s units.System) string {
	switch {
	case a.State == Absent:
		return ""
	case a.State == Unknown:
		return "don't know"
	}
	switch q.Kind {
	case Choice:
		return q.label(a.Text)
	case Many:
		if len(a.List) == 0 {
			return "none"
		}
		words := make([]string, len(a.List))
		for i, v := range a.List {
			words[i] = q.label(v)
		}
		return joinList(words)
	case YesNoKind:
		if a.Bool {
			return "yes"
		}
		return "no"
	case NumberKind:
		return q.showNumber(a.Number, s)
	case Numbers:
		return joinList(a.List)
	}
	clean, _ := strict.CleanText(a.Text)
	return clean
}

func (q Question) showNumber(v float64, s units.System) string {
	switch q.Unit {
	case "ft":
		return s.Feet(v)
	case "ft2":
		return s.Area(v)
	case "in":
		return s.Inches(v)
	case "R":
		return s.R(v)
	case "usd":
		return s.Money(units.FromDollars(v))
	}
	return formatNumber(v)
}

// Plain writes a number as a person would type it again: "5 1/2".
func (q Question) Plain(a Answer) string {
	if q.Unit == "in" {
		return units.Fraction(a.Number)
	}
	return formatNumber(a.Number)
}

func (q Question) label(value string) string {
	for _, o := range q.Options {
		if o.Value == value {
			return o.Label
		}
	}
	return value
}

func clip(s string) string {
	s, _ = strict.CleanText(s)
	if r := []rune(s); len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return s
}

// List is the one question list, made for a catalog: materials, places and
// framing that an overlay adds can be answered with too.
type QuestionList struct {
	Questions []Question
	byKey     map[string]int
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
func (l *QuestionList) In(scope Scope, kind string) []Question {
	var out []Question
	for _, q := range l.Questions {
		if q.Scope == scope && (scope != PlaceScope || q.For(kind)) {
			out = append(out, q)
		}
	}
	return out
}
