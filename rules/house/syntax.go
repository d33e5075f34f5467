package house

import (
	"strings"

	"battwright/rules/strict"
)

// explain makes a refusal of the format itself plainer where one of our keys
// has a value as a builder would say it: heel_in = 5 1/2, old = yes,
// name = Alder Street.
func (l *QuestionList) explain(text string, p strict.Problem) strict.Problem {
	key, value, ok := strings.Cut(lineAt(text, p.Line), "=")
	if !ok || p.Key != "" {
		return p
	}
	key = strings.TrimSpace(key)
	value, _, _ = strings.Cut(value, "#")
	value = strings.TrimSpace(value)
	if value == "" || strings.ContainsAny(value[:1], `"'[{`) {
		return p
	}
	if _, problems := strict.Parse("", "k = "+value); len(problems) == 0 {
		return p // the mistake is before this line
	}
	said := strings.Trim(value, "\u201c\u201d\u201e\u2018\u2019\u00ab\u00bb ")
	for _, q := range l.Questions {
		if q.Key != key {
			continue
		}
		if right, ok := q.written(said); ok {
			p.Key, p.Want = key, "it written as "+key+" = "+right
			return p
		}
	}
	return p
}

// lineAt gives a line of a text, counted from 1.
func lineAt(text string, n int) string {
	at := 0
	for row := range strings.Lines(text) {
		if at++; at == n {
			return row
		}
	}
	return ""
}
