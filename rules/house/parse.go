package house

import (
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
