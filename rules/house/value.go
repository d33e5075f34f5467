package house

import "math"

import (
	"battwright/rules/catalog"
	"battwright/rules/units"
)

// Value is an answer as the rest of the program uses it.
type Value struct {
	Answer Answer // the answer, the default, or the stand-in while unknown
	Known  bool   // a given answer or a stated default; unknown is one more value to the rules
	Source Source
}

// Source says where a value is from.
type Source int

// The sources of a value.
const (
	FromNobody  Source = iota // no answer and none needed
	FromAnswer                // the builder said so
	FromDefault               // assumed until the builder says
	FromUnknown               // "don't know", or a safety question not answered
)

// Answered is a house seen through the question list.
type Answered struct {
	List   *QuestionList
	House  *House
	System units.System // how figures are written in texts made from the answers
}

// Asked reports whether a question applies to the house and place at all.
func (a Answered) Asked(q Question, p *Place) bool {
	if q.Scope == PlaceScope && (p == nil || !q.For(p.Kind)) {
		return false
	}
	return q.Asked == nil || q.Asked(a, p)
}

// Has reports whether places of that kind have a question.
func (a Answered) Has(p *Place, key string) bool {
	return a.question(PlaceScope, key).For(p.Kind)
}

// Question finds a question that the program names itself. A key that no question has
// is a slip in the program: nothing may take its silence for an answer.
func (a Answered) Question(scope Scope, key string) Question { return *a.question(scope, key) }

// question is Question without a copy: a place is worked out from some fifty answers.
func (a Answered) question(scope Scope, key string) *Question {
	i, ok := a.List.byKey[Question{Scope: scope, Key: key}.FullKey()]
	if !ok {
		panic("no question has the key " + Question{Scope: scope, Key: key}.FullKey())
	}
	return &a.List.Questions[i]
}

// Value gives the value of a question by scope and key. A question that does
// not apply has the zero Value.
func (a Answered) Value(scope Scope, p *Place, key string) Value {
	q := a.question(scope, key)
	if scope == PlaceScope && (p == nil || !q.For(p.Kind)) {
		return Value{}
	}
	return a.valueOf(q, p)
}

// ValueOf is Value for a question already at hand.
func (a Answered) ValueOf(q Question, p *Place) Value { return a.valueOf(&q, p) }

func (a Answered) valueOf(q *Question, p *Place) Value {
	if q.Scope == PlaceScope && p == nil {
		return Value{}
	}
	said, told := a.raw(q, p), Answer{}
	if q.Follows != nil && (said.State == Absent || said.State != Given && q.Scope != PlaceScope) {
		told = q.Follows(a, p)
	}
	switch {
	case q.Belied != nil && q.Belied(a, p):
		said = DontKnow()
	case said.State == Given:
		return Value{said, true, FromAnswer}
	case told.State == Given:
		return Value{told, true, FromDefault}
	case said.State == Absent && q.Optional:
		return Value{}
	case said.State == Absent && !q.Safety && q.Default != nil:
		return Value{q.Default(a, p), true, FromDefault}
	}
	v := Value{Source: FromUnknown}
	if q.Default != nil {
		v.Answer = q.Default(a, p)
	}
	return v
}

// BeliedText is an answer that was given and counts as not known because it cannot
// stand beside another, with what that is; empty for any other.
func (a Answered) BeliedText(q Question, p *Place) string {
	said := a.Raw(q, p)
	if q.Belied == nil || said.State != Given || !q.Belied(a, p) {
		return ""
	}
	return q.Show(said, a.System) + " (disagrees with " + q.BeliedBy + ")"
}

// Raw is what was said, without defaults.
func (a Answered) Raw(q Question, p *Place) Answer { return a.raw(&q, p) }

func (a Answered) raw(q *Question, p *Place) Answer {
	if q.Scope == PlaceScope {
		if p == nil {
			return Answer{}
		}
		return p.Answers[q.Key]
	}
	return a.House.Answers[q.FullKey()]
}

// Store sets or (with the zero Answer) clears what was said.
func (a Answered) Store(q Question, p *Place, v Answer) {
	if q.Scope == PlaceScope {
		if p != nil {
			p.Answers.Set(q.Key, v)
		}
		return
	}
	a.House.Answers.setTop(q.FullKey(), v)
}

// setTop stores an answer about the house. Without a sum nobody is asked what
// it is for: an answer to that would lie hidden, and spend the next sum.
func (a Answers) setTop(key string, v Answer) {
	a.Set(key, v)
	if key == "budget.total_usd" && v.State != Given {
		delete(a, "budget.use")
	}
}

// Answer, Num, Text and Bool give the value or its stand-in.
func (a Answered) Answer(scope Scope, p *Place, key string) Answer {
	return a.Value(scope, p, key).Answer
}

// Num is the number of a value, or of its stand-in.
func (a Answered) Num(scope Scope, p *Place, key string) float64 {
	return a.Answer(scope, p, key).Number
}

// Text is the choice or text of a value, or of its stand-in.
func (a Answered) Text(scope Scope, p *Place, key string) string {
	return a.Answer(scope, p, key).Text
}

// Bool is the yes or no of a value, or of its stand-in.
func (a Answered) Bool(scope Scope, p *Place, key string) bool {
	return a.Answer(scope, p, key).Bool
}

func (a Answered) kindOf(p *Place) *catalog.PlaceKind {
	if p == nil {
		return a.List.catalog.KindAt("")
	}
	return a.List.catalog.KindAt(p.Kind)
}

// KindOf is the kind a place is insulated as: that of its walls for a crawl space
// without vents.
func (a Answered) KindOf(p *Place) *catalog.PlaceKind {
	k := a.kindOf(p)
	if k.Unvented != "" && !a.Bool(PlaceScope, p, "vented") {
		return a.List.catalog.KindAt(k.Unvented)
	}
	return k
}

// placesLike are the places whose kind, as the builder chose it, has a trait.
func (a Answered) placesLike(has func(*catalog.PlaceKind) bool) []*Place {
	var out []*Place
	for i := range a.House.Places {
		if p := &a.House.Places[i]; has(a.kindOf(p)) {
			out = append(out, p)
		}
	}
	return out
}

func besideChimney(k *catalog.PlaceKind) bool { return k.BesideChimney }
func outsideWall(k *catalog.PlaceKind) bool   { return k.AreaOf == catalog.AreaWalls }
func underRoof(k *catalog.PlaceKind) bool     { return k.Airway != "" }

func roundTo(v, step float64) float64 { return math.Round(v/step) * step }
