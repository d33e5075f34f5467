package house

import (
	"fmt"
	"slices"
	"strings"
)

// answer turns a TOML value into an answer, or reports what would be right.
func (r *reader) answer(q Question, path []any, v any) Answer {
	if list, isList := v.([]any); isList && (q.Kind == Many || q.Kind == Sizes && len(list) <= q.Most || q.Kind == Numbers && q.rightCount(len(list))) {
		return r.listAnswer(q, path, list)
	}
	a, ok := fromTOML(q, v)
	if err := q.Check(a); !ok || err != nil {
		want := q.Accepted() + q.hint(v)
		if ok && q.Valid != nil {
			if _, said, found := strings.Cut(err.Error(), wants); found {
				want = said
			}
		}
		r.bad(path, v, want)
		return Answer{}
	}
	return a
}

// listAnswer reads a list value by value, since each wrong one has a line of
// its own.
func (r *reader) listAnswer(q Question, path []any, list []any) Answer {
	one := Question{Kind: Choice, Options: q.Options}
	if q.Kind == Numbers {
		one = Question{Kind: NumberKind, Unit: q.Unit, Min: q.Min, Max: q.Max}
	}
	if q.Kind == Sizes {
		return r.openingsAnswer(path, list)
	}
	ids := make([]string, 0, len(list))
	good := true
	for i, e := range list {
		a, ok := fromTOML(one, e)
		if !ok || one.Check(a) != nil {
			r.bad(below(path, i), e, one.Accepted()+one.hint(e))
			good = false
			continue
		}
		if q.Kind == Numbers {
			a.Text = formatNumber(a.Number)
		}
		ids = append(ids, a.Text)
	}
	if !good {
		return Answer{}
	}
	if q.Kind == Many {
		ids = unique(ids)
	}
	return List(ids...)
}

// fromTOML takes a single value for what the question asks. An empty text is
// no answer, as an empty line is on the screen.
func fromTOML(q Question, v any) (Answer, bool) {
	if v == "unknown" && (q.DontKnow || q.Kind != TextKind) {
		return DontKnow(), true
	}
	switch q.Kind {
	case NumberKind:
		switch n := v.(type) {
		case int64:
			return Number(float64(n)), true
		case float64:
			return Number(n), true
		}
	case YesNoKind:
		if b, ok := v.(bool); ok {
			return YesNo(b), true
		}
	case Choice:
		if s, ok := v.(string); ok {
			return Text(s), true
		}
	case TextKind:
		if s, ok := v.(string); ok {
			return q.textAnswer(s), true
		}
	}
	return Answer{}, false
}

// textAnswer is free text as it is kept: without blanks around it, and in the
// spelling of the question.
func (q Question) textAnswer(s string) Answer {
	s = strings.TrimSpace(s)
	if s == "" {
		return Answer{}
	}
	if q.Normalize != nil {
		s = q.Normalize(s)
	}
	return Text(s)
}

// hint adds what people trip over in a file: quote marks, brackets, figures as
// they are spoken, and a word that is nearly right.
func (q Question) hint(v any) string {
	s, isText := v.(string)
	switch v.(type) {
	case []any, []map[string]any, map[string]any:
		isText = true // no quote marks would help
	}
	switch {
	case s == "unknown":
		return ` (leave the key out; "unknown" is not taken here)`
	case q.Kind == Many && len(q.Options) > 0:
		return ` (in brackets: ["` + q.Options[0].Value + `"])`
	case q.Kind == Choice:
		if value := q.match(fmt.Sprint(v)); slices.Contains(q.values(), value) {
			return ` (write "` + value + `")`
		}
		if isText {
			return meant(v, q.values())
		}
		return " (between quote marks)"
	case q.Kind == TextKind && !isText:
		return " (between quote marks)"
	case s != "" && (q.Kind == NumberKind || q.Kind == YesNoKind):
		if value, ok := q.written(s); ok {
			return " (write " + value + ", without quote marks)"
		}
	}
	return ""
}

// written is the value in a file of what a builder would say.
func (q Question) written(said string) (string, bool) {
	a, err := q.Parse(said)
	if err != nil || a.State == Absent {
		return "", false
	}
	a.Number = roundTo(a.Number*1e4, 1) / 1e4
	_, value, _ := strings.Cut(line("k", tomlValue(q, a)), "= ")
	return strings.TrimSpace(value), true
}
