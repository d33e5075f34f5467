package rules

import (
	"fmt"
	"math"
	"slices"
	"strconv"
)

// FactType says what values a fact takes, spelled as in data files.
type FactType string

// The types of facts.
const (
	Enum    FactType = "enum"   // one of Fact.Values
	Boolean FactType = "bool"   // yes or no
	Numeric FactType = "number" // a number from Fact.Min to Fact.Max, both included
)

// FromMaterial is the Fact.From of what follows from the material chosen.
const FromMaterial = "material"

// maxEnumValues keeps an enum within one machine word, so that a test on it is
// a single AND. Longer lists belong in a table, not in a rule.
const maxEnumValues = 64

// Fact declares something rules may ask about.
type Fact struct {
	Name   string   `toml:"name,required"`
	Type   FactType `toml:"type,required"`
	Unit   string   `toml:"unit"`          // for numbers; shown behind the number in reasons
	Values []string `toml:"values"`        // for enums; at most 64
	Min    float64  `toml:"min"`           // for numbers: finite, Min < Max, both included
	Max    float64  `toml:"max"`           //
	From   string   `toml:"from,required"` // answer, material or computed
}

// problem tells what is wrong with the declaration and what would be right.
func (f Fact) problem() (key, found, want string) {
	switch f.Type {
	case Enum:
		if len(f.Values) == 0 || len(f.Values) > maxEnumValues {
			return "values", fmt.Sprintf("%d values", len(f.Values)), fmt.Sprintf("1 to %d", maxEnumValues)
		}
		for i, v := range f.Values {
			if v == "" || slices.Contains(f.Values[:i], v) {
				return "values", strconv.Quote(v), "values that differ and are not empty"
			}
		}
	case Boolean:
	case Numeric:
		if !finite(f.Min) || !finite(f.Max) || f.Min >= f.Max {
			return "min", fmt.Sprintf("%v to %v", f.Min, f.Max), "two numbers, min below max"
		}
	default:
		return "type", strconv.Quote(string(f.Type)), "enum, bool or number"
	}
	return "", "", ""
}

// takes says in words what values the fact takes.
func (f Fact) takes() string {
	switch f.Type {
	case Boolean:
		return "true or false"
	case Numeric:
		return fmt.Sprintf("a number from %v to %v", f.Min, f.Max)
	}
	return "one of " + joined(f.Values, strconv.Quote)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// Value is what is known of one fact. The zero Value is unknown.
type Value struct {
	typ  FactType // empty when unknown
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
func (v Value) Known() bool { return v.typ != "" }

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

// valueOf takes a value as a data file holds it; the text "unknown" is Unknown.
func valueOf(v any) (Value, bool) {
	switch v := v.(type) {
	case string:
		if v == Unknown().String() {
			return Unknown(), true
		}
		return Text(v), true
	case bool:
		return Bool(v), true
	case int:
		return Number(float64(v)), true
	case int64:
		return Number(float64(v)), true
	case float64:
		return Number(v), true
	}
	return Unknown(), false
}
