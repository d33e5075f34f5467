package house

import (
	"math"

	"battwright/rules/strict"
	"battwright/rules/units"
)

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
		return q.label(a.Text, s)
	case Many:
		if len(a.List) == 0 {
			return "none"
		}
		words := make([]string, len(a.List))
		for i, v := range a.List {
			words[i] = q.label(v, s)
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
		if q.Unit == "ft" || s == units.SI {
			return q.showNumbers(a.List, s)
		}
		return joinList(a.List)
	case Sizes:
		if len(a.List) == 0 {
			return "none"
		}
		return showOpenings(a.List, s)
	}
	clean, _ := strict.CleanText(a.Text)
	return clean
}

func (q Question) showNumber(v float64, s units.System) string {
	if text, ok := s.Of(v, q.Unit); ok {
		return text
	}
	return formatNumber(v)
}

// Plain writes a number as a person would type it again: "5 1/2", "8 ft 2 in".
// What is longer than anyone types is cut to four decimals.
func (q Question) Plain(a Answer) string {
	short := formatNumber(roundTo(a.Number*1e4, 1) / 1e4)
	switch {
	case q.Unit == "in":
		return units.Fraction(a.Number)
	case q.Unit == "ft" && len(short) > len("12.25"):
		return feetInches(a.Number, short)
	}
	return short
}

// feetInches writes feet that fall on a sixteenth of an inch, others as they
// are.
func feetInches(ft float64, otherwise string) string {
	sixteenths := math.Round(ft * 12 * 16)
	if math.Abs(sixteenths-ft*12*16) > 1e-6 {
		return otherwise
	}
	whole := math.Floor(sixteenths / (12 * 16))
	return formatNumber(whole) + " ft " + units.Fraction(sixteenths/16-whole*12) + " in"
}

func (q Question) label(value string, s units.System) string {
	for _, o := range q.Options {
		if o.Value == value {
			return o.Label.In(s)
		}
	}
	return value
}
