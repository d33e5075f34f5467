package house

import (
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
