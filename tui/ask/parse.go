package ask

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"battwright/rules/house"
	"battwright/rules/units"
	"battwright/tui/session"
)

// numbered reports whether options may be picked by number. Where an option
// is itself a number, as the climate zones 7 and 8 are, a number would be
// taken two ways.
func numbered(opts []house.Option) bool {
	return !slices.ContainsFunc(opts, func(o house.Option) bool {
		return countIn(o.Value) > 0 || countIn(string(o.Label)) > 0
	})
}

// wordsFor are the words an option may be picked by: those of the file, and
// those it is shown by in either system of units.
func wordsFor(o house.Option) []string {
	return []string{fold(o.Value), fold(o.Label.In(units.US)), fold(o.Label.In(units.SI))}
}

// countIn reads a whole number as a person counts options, 0 when it is none.
func countIn(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 || n > 999 {
		return 0
	}
	return n
}

// pick finds the option meant: its words, its number, or the beginning of the
// words when only one begins so.
func pick(opts []house.Option, typed string) (value string, ok bool) {
	said := fold(typed)
	for _, o := range opts {
		if slices.Contains(wordsFor(o), said) {
			return o.Value, true
		}
	}
	if n := countIn(strings.TrimSuffix(said, ".")); n > 0 && n <= len(opts) && numbered(opts) {
		return opts[n-1].Value, true
	}
	found := ""
	for _, o := range opts {
		if said == "" || !slices.ContainsFunc(wordsFor(o), func(w string) bool { return strings.HasPrefix(w, said) }) {
			continue
		}
		if found != "" {
			return "", false
		}
		found = o.Value
	}
	return found, found != ""
}

// answerTo reads what was typed as an answer. A problem is a sentence for the
// person; without one the answer is good.
func answerTo(q house.Question, typed string) (a house.Answer, problem string) {
	opts := session.Choices(q)
	switch q.Kind {
	case house.Choice, house.YesNoKind:
		v, ok := pick(opts, typed)
		if q.Kind == house.YesNoKind && countIn(strings.TrimSuffix(fold(typed), ".")) > 0 {
			ok = false // yes and no are read out without numbers
		}
		switch {
		case !ok:
			return house.Answer{}, noneOf(opts, typed)
		case q.Kind == house.YesNoKind:
			return house.YesNo(v == "yes"), ""
		}
		return house.Text(v), ""
	case house.Many:
		return someOf(opts, typed)
	}
	text := typed
	if q.Kind == house.TextKind {
		text, _ = unquoted(typed)
	}
	v, err := q.Parse(text)
	if err != nil {
		return house.Answer{}, sentence(err)
	}
	return v, ""
}

// someOf reads a list of options, parted by commas or, when they are numbers,
// by spaces.
func someOf(opts []house.Option, typed string) (a house.Answer, problem string) {
	if fold(typed) == "none" {
		return house.List(), ""
	}
	parts := strings.FieldsFunc(typed, func(r rune) bool { return r == ',' || r == ';' })
	if words := strings.Fields(typed); len(parts) == 1 && !slices.ContainsFunc(words, func(w string) bool { return countIn(w) == 0 }) {
		parts = words
	}
	var ids []string
	for _, part := range parts {
		v, ok := pick(opts, part)
		if !ok {
			return house.Answer{}, noneOf(opts, part)
		}
		if !slices.Contains(ids, v) {
			ids = append(ids, v)
		}
	}
	if len(ids) == 0 {
		return house.Answer{}, "Type numbers from the list with commas between them, or none."
	}
	return house.List(ids...), ""
}

func noneOf(opts []house.Option, typed string) string {
	how := "Type one of the words of the list."
	switch {
	case len(opts) == 2 && opts[0].Value == "yes":
		return fmt.Sprintf("%q is neither yes nor no.", short(typed))
	case numbered(opts):
		how = fmt.Sprintf("Type a number from 1 to %d, or the words.", len(opts))
	}
	return fmt.Sprintf("%q is not in the list. %s", short(typed), how)
}

// short keeps a message on its line whatever was typed.
func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:39]) + "..."
	}
	return s
}

// sentence takes the wrapping words off an error and says "don't know" as the
// person would.
func sentence(err error) string {
	text := err.Error()
	if _, after, ok := strings.Cut(text, ": "); ok && errors.Is(err, house.ErrAnswer) {
		text = after
	}
	return spokenProblem(text)
}

// spokenProblem says "don't know" as the person would, in a sentence.
func spokenProblem(text string) string {
	if text == "" {
		return ""
	}
	text = strings.ReplaceAll(text, `"unknown"`, "don't know")
	return strings.TrimRight(strings.Join(strings.Fields(session.Sentence(text)), " "), ".") + "."
}
