package house

import (
	"bytes"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// Write gives the text of a house file, in the order of the question list.
// Only what was said is written; defaults stay defaults.
func Write(l *QuestionList, h *House) string {
	var b strings.Builder
	b.WriteString("version = " + strconv.Itoa(Version) + "\n")
	writeAnswers(&b, l.In(Top, ""), h.Answers, true)
	for _, scope := range []Scope{Site, Shape, Drawings} {
		writeTable(&b, "["+tableOf[scope]+"]", l.In(scope, ""), h.Answers)
	}
	for _, p := range h.Places {
		b.WriteString("\n[[place]]\n" + line("id", p.ID) + line("kind", p.Kind))
		writeAnswers(&b, l.In(PlaceScope, p.Kind), p.Answers, false)
		if len(p.Measured) > 0 {
			b.WriteString(line("measured", p.Measured))
		}
	}
	writeTable(&b, "[priorities]", l.In(Priorities, ""), h.Answers)
	writeTable(&b, "[budget]", l.In(Budget, ""), h.Answers)
	for _, v := range h.Variants {
		b.WriteString("\n[[variant]]\n" + line("name", v.Name))
		writeTable(&b, "[variant.priorities]", l.In(Priorities, ""), v.Answers)
		writeTable(&b, "[variant.budget]", l.In(Budget, ""), v.Answers)
		if len(v.Was) > 0 {
			b.WriteString("\n[variant.was]\n")
			for _, id := range slices.Sorted(maps.Keys(v.Was)) {
				b.WriteString(line(quotedKey(id), v.Was[id]))
			}
		}
	}
	for _, q := range h.Quotes {
		writeQuote(&b, q)
	}
	return b.String()
}

func writeTable(b *strings.Builder, header string, qs []Question, answers Answers) {
	var body strings.Builder
	writeAnswers(&body, qs, answers, true)
	if body.Len() > 0 {
		b.WriteString("\n" + header + "\n" + body.String())
	}
}

func writeAnswers(b *strings.Builder, qs []Question, answers Answers, full bool) {
	for _, q := range qs {
		key := q.Key
		if full {
			key = q.FullKey()
		}
		a := answers[key]
		if a.State == Absent {
			continue
		}
		b.WriteString(line(q.Key, tomlValue(q, a)))
	}
}

func tomlValue(q Question, a Answer) any {
	if a.State == Unknown {
		return "unknown"
	}
	switch q.Kind {
	case NumberKind:
		if a.Number == float64(int64(a.Number)) {
			return int64(a.Number)
		}
		return a.Number
	case YesNoKind:
		return a.Bool
	case Many, Sizes:
		if a.List == nil {
			return []string{}
		}
		return a.List
	case Numbers:
		out := make([]float64, 0, len(a.List))
		for _, s := range a.List {
			v, _ := numberIn(s)
			out = append(out, v)
		}
		return out
	}
	return a.Text
}

// line writes one "key = value" with the library's own quoting. Dotted keys
// are written as such: framing.size = "2x6".
func line(key string, value any) string {
	var buf bytes.Buffer
	if err := toml.NewEncoder(&buf).Encode(map[string]any{"k": value}); err != nil {
		return "" // cannot happen: every value is a string, bool, number or list of them
	}
	_, rest, _ := strings.Cut(buf.String(), "=")
	return key + " =" + strings.TrimRight(rest, "\n") + "\n"
}

// quotedKey writes a key with the library's own quoting, for keys that a
// person may have chosen.
func quotedKey(key string) string {
	for _, r := range key {
		if !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_') {
			_, text, _ := strings.Cut(line("k", key), "= ")
			return strings.TrimSuffix(text, "\n")
		}
	}
	return key
}
