package rules

import (
	"fmt"
	"math"
	"slices"
)

// FactType says what values a fact takes.
type FactType int

// The types of facts. The zero type is not valid.
const (
	Enum    FactType = iota + 1 // one of Fact.Values
	Boolean                     // yes or no
	Numeric                     // a number from Fact.Min to Fact.Max, both included
)

// String names the type as rule files do.
func (t FactType) String() string {
	switch t {
	case Enum:
		return "enum"
	case Boolean:
		return "bool"
	case Numeric:
		return "number"
	}
	return "no type"
}

// Where the value of a fact comes from (Fact.From).
const (
	FromAnswer   = "answer"   // the builder said so
	FromMaterial = "material" // it follows from the material chosen
	FromComputed = "computed" // worked out for the place or the candidate
)

// maxEnumValues keeps an enum within one machine word, so that a test on it is
// a single AND. Longer lists belong in a table, not in a rule.
const maxEnumValues = 64

// Fact declares something rules may ask about.
type Fact struct {
	Name     string
	Type     FactType
	Unit     string   // for numbers; shown behind the number in reasons
	Values   []string // for enums; at most 64
	Min, Max float64  // for numbers: finite, Min < Max, both included
	From     string   // FromAnswer, FromMaterial or FromComputed
}

func (f Fact) problem() error {
	bad := func(format string, args ...any) error {
		return fmt.Errorf("%w: %q: %s", ErrDeclaration, f.Name, fmt.Sprintf(format, args...))
	}
	switch f.Type {
	case Enum:
		return f.enumProblem(bad)
	case Boolean:
		return nil
	case Numeric:
		if !finite(f.Min) || !finite(f.Max) || f.Min >= f.Max {
			return bad("range %v to %v; want two finite numbers, the lower first", f.Min, f.Max)
		}
		return nil
	}
	return bad("type %d; want enum, bool or number", int(f.Type))
}

func (f Fact) enumProblem(bad func(string, ...any) error) error {
	if len(f.Values) == 0 || len(f.Values) > maxEnumValues {
		return bad("%d values; want 1 to %d", len(f.Values), maxEnumValues)
	}
	for i, v := range f.Values {
		if v == "" || slices.Contains(f.Values[:i], v) {
			return bad("value %q is empty or listed twice", v)
		}
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// Value is what is known of one fact. The zero Value is unknown.
type Value struct {
	typ  FactType // 0 when unknown
	yes  bool
	num  float64
	text string
}

// Text is the value of an enum.
func Text(s string) Value { return Value{typ: Enum, text: s} }

// Bool is the value of a yes-or-no fact.
func Bool(b bool) Value { return Value{typ: Boolean, yes: b} }

// Number is the value of a number, in the unit of its fact.
func Number(n float64) Value { return Value{typ: Numeric, num: n} }

// Unknown is the value of a fact that nobody gave or that could not be worked out.
func Unknown() Value { return Value{} }

// Known reports whether there is a value at all.
func (v Value) Known() bool { return v.typ != 0 }

// Type is the type of the value, 0 when unknown.
func (v Value) Type() FactType { return v.typ }

// AsText returns the text of an enum value.
func (v Value) AsText() (string, bool) { return v.text, v.typ == Enum }

// AsBool returns the answer of a yes-or-no value.
func (v Value) AsBool() (value, ok bool) { return v.yes, v.typ == Boolean }

// AsNumber returns the number of a numeric value, in the unit of its fact.
func (v Value) AsNumber() (float64, bool) { return v.num, v.typ == Numeric }

// String shows the value without its unit.
func (v Value) String() string {
	switch v.typ {
	case Enum:
		return v.text
	case Boolean:
		if v.yes {
			return "yes"
		}
		return "no"
	case Numeric:
		return shortNumber(v.num)
	}
	return "unknown"
}
