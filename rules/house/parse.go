package house

import (
	"slices"
	"strconv"
	"strings"

	"battwright/rules/strict"
	"battwright/rules/units"
)

// Parse reads what a person typed. An empty line is no answer (Absent).
func (q Question) Parse(typed string) (Answer, error) {
	s, _ := strict.CleanText(typed)
	s = strings.TrimSpace(s)
	if s == "" {
		return Answer{}, nil
	}
	if q.saysDontKnow(s) {
		return DontKnow(), q.Check(DontKnow())
	}
	a, err := q.parse(s)
	if err != nil {
		return Answer{}, err
	}
	return a, q.Check(a)
}

// saysDontKnow: free text that must be given may hold any of these words.
func (q Question) saysDontKnow(s string) bool {
	if q.Kind == TextKind && !q.DontKnow {
		return false
	}
	switch strings.ToLower(strings.ReplaceAll(s, "\u2019", "'")) {
	case "unknown", "don't know", "dont know", "not sure":
		return true
	case "?":
		return q.Kind != TextKind
	}
	return false
}

func (q Question) parse(s string) (Answer, error) {
	switch q.Kind {
	case Choice:
		return Text(q.match(s)), nil
	case Many:
		return q.parseMany(s), nil
	case NumberKind:
		return q.parseNumber(s)
	case Numbers:
		return q.parseNumbers(s)
	case Sizes:
		return q.parseOpenings(s)
	case YesNoKind:
		switch strings.ToLower(s) {
		case "y", "yes", "true":
			return YesNo(true), nil
		case "n", "no", "false":
			return YesNo(false), nil
		}
		return Answer{}, refuse("found %q; want yes or no", strict.Cut(s))
	}
	return q.textAnswer(s), nil
}

func (q Question) parseMany(s string) Answer {
	if strings.EqualFold(s, "none") {
		return List()
	}
	var ids []string
	for _, part := range parted(s) {
		if part = strings.TrimSpace(part); part != "" {
			ids = append(ids, q.match(part))
		}
	}
	return List(unique(ids)...)
}

// match finds the option meant by its value or its words, or returns s.
func (q Question) match(s string) string {
	for _, o := range q.Options {
		if strings.EqualFold(s, o.Value) || strings.EqualFold(s, o.Label.In(units.US)) || strings.EqualFold(s, o.Label.In(units.SI)) {
			return o.Value
		}
	}
	for _, o := range q.Options { // of the years of a code any is meant
		if yearIn(o.Label.In(units.US), s) {
			return o.Value
		}
	}
	return s
}

func (q Question) parseNumber(s string) (Answer, error) {
	read := units.ParseNumber
	switch q.Unit {
	case "ft":
		read = units.ParseFeet
	case "in":
		read = units.ParseInches
	case units.Pitch:
		read = units.ParsePitch
	}
	if q.Min < 0 {
		read = numberIn
	}
	if v, ok := units.ParseOther(s, q.Unit); ok {
		return Number(v), nil
	}
	v, err := read(bare(s, q.Unit))
	if err != nil {
		return Answer{}, refuse("found %q; want %s", strict.Cut(s), q.Accepted())
	}
	return Number(v), nil
}

// bare drops the unit that a builder writes beside a number: "$1,200",
// "R-21", "320 sq ft".
func bare(s, unit string) string {
	var before, after []string
	switch {
	case unit == "R":
		before = []string{"r-", "r"}
	case strings.HasPrefix(unit, "usd"):
		before, after = []string{"$", "usd"}, []string{"dollars", "usd"}
	case unit == "ft2":
		after = []string{"square feet", "sq. ft.", "sq. ft", "sq ft", "sqft", "ft2", "sf"}
	}
	low := strings.ToLower(s)
	for _, w := range before {
		if strings.HasPrefix(low, w) {
			return strings.TrimSpace(s[len(w):])
		}
	}
	for _, w := range after {
		if strings.HasSuffix(low, w) {
			return strings.TrimSpace(s[:len(s)-len(w)])
		}
	}
	return s
}

// parseNumbers keeps a list of numbers in plain digits, whatever way they
// were typed: others read them without a builder's fractions.
func (q Question) parseNumbers(s string) (Answer, error) {
	if q.Unit == "ft" || q.Unit == "in" {
		return q.parseLengths(s)
	}
	if list, ok := q.inOtherUnits(s); ok {
		return List(list...), nil
	}
	list := strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' || r == ' ' })
	for i, word := range list {
		v, err := numberIn(word)
		if err != nil {
			return Answer{}, refuse("found %q; want %s", strict.Cut(word), q.Accepted())
		}
		list[i] = formatNumber(v)
	}
	return List(slices.Clip(list)...), nil
}

// inOtherUnits reads a list of which each figure has a unit other than ours:
// "RSI 3.35, RSI 2.29".
func (q Question) inOtherUnits(s string) (list []string, ok bool) {
	for _, part := range parted(s) {
		v, ok := units.ParseOther(part, q.Unit)
		if !ok {
			return nil, false
		}
		list = append(list, formatNumber(v))
	}
	return list, len(list) > 0
}

// numberIn reads a number with or without a sign. Beyond what people type it
// takes plain digits of any length, which is how figures are kept.
func numberIn(s string) (float64, error) {
	s = strings.TrimSpace(s)
	digits, minus := strings.CutPrefix(s, "-")
	v, err := units.ParseNumber(digits)
	if err != nil && digits != "" && strings.Trim(digits, "0123456789.") == "" {
		v, err = strconv.ParseFloat(digits, 64)
	}
	if minus {
		v = -v
	}
	return v, err
}

// parted are the parts of a typed list, which a comma or a semicolon parts.
func parted(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' })
}
