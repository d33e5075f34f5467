package house

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"battwright/rules/strict"
)

// spot is where a mistake is. One spot is reported once: what is said first
// is nearer to the cause.
type spot struct {
	line int
	key  string
}

func (r *reader) add(p strict.Problem) {
	at := spot{p.Line, p.Key}
	if r.told[at] {
		return
	}
	r.told[at] = true
	r.problems = append(r.problems, p)
}

func (r *reader) bad(path []any, found any, want string) {
	r.add(r.tree.Problem(path, foundText(found), want))
}

// sorted gives the problems by line, and of too many only the first: nobody
// reads on.
func (r *reader) sorted() strict.Problems {
	ps := r.problems // of one file; those of one line stay in the order of the file
	slices.SortStableFunc(ps, func(a, b strict.Problem) int { return cmp.Compare(a.Line, b.Line) })
	for i, p := range ps[:min(len(ps), strict.MaxProblems)] {
		if guess := r.guesses[spot{p.Line, p.Key}]; guess != nil {
			ps[i].Want = guess() // only now: to guess takes long, and most may not be shown
		}
	}
	return ps.Short()
}

// unknownKey names where the key would be right, or the key that was meant.
func (r *reader) unknownKey(path []any, known []string) {
	p := r.tree.Problem(path, "a key that is not used here", "")
	if r.told[spot{p.Line, p.Key}] {
		return
	}
	r.add(p)
	r.guesses[spot{p.Line, p.Key}] = func() string { return r.list.guess(fmt.Sprint(path[len(path)-1]), known) }
}

func (l *QuestionList) guess(key string, known []string) string {
	homes := l.homes()
	if home := homes.of[key]; home != "" {
		return "it " + home
	}
	if near := strict.Nearest(key, known); near != "" {
		return "did you mean " + near + "?"
	}
	if near := strict.Nearest(key, homes.keys); near != "" {
		return "did you mean " + near + "? That belongs " + homes.of[near]
	}
	return "one of " + strings.Join(known, ", ")
}

// homes says where in the file each key belongs.
type homes struct {
	of   map[string]string
	keys []string // in the order of the list
}

const underPlace, atTop = "under [[place]]", "at the top, before the first line with [ ]"

func (l *QuestionList) homes() homes {
	h := homes{of: map[string]string{}}
	add := func(key, at string) {
		switch old := h.of[key]; {
		case old == "":
			h.of[key] = at
			h.keys = append(h.keys, key)
		case !slices.Contains(strings.Split(old, ", or "), at):
			h.of[key] = old + ", or " + at
		}
	}
	for _, q := range l.Questions {
		at := "under [" + tableOf[q.Scope] + "]"
		switch q.Scope {
		case Top:
			at = atTop
		case PlaceScope:
			at = underPlace
		}
		if len(q.Kinds) > 0 {
			at += " of kind " + strings.Join(q.Kinds, " or ")
		}
		head, _, dotted := strings.Cut(q.Key, ".")
		if dotted && head == "priorities" {
			at = "as [priorities], or " + underPlace
		}
		add(head, at)
	}
	for _, key := range []string{"id", "kind", "measured"} {
		add(key, underPlace)
	}
	add("version", atTop)
	for _, table := range []string{"site", "shape", "drawing_r", "budget"} {
		add(table, "as ["+table+"], a table of its own")
	}
	for _, table := range []string{"place", "variant", "quote"} {
		add(table, "as [["+table+"]], a table of its own")
	}
	return h
}

// meant adds the word that a person most likely meant.
func meant(v any, known []string) string {
	s, _ := v.(string)
	if near := nearestNumber(s, known); len(near) > 0 {
		return " (did you mean " + strings.Join(near, " or ") + "?)"
	}
	if near := strict.Nearest(s, known); near != "" {
		return " (did you mean " + near + "?)"
	}
	return ""
}

// foundText shows what stands in the file.
func foundText(v any) string {
	switch v := v.(type) {
	case string:
		if n := len([]rune(v)); n > MaxText {
			return fmt.Sprintf("text of %d characters", n)
		}
		if strings.Contains(v, "\n") {
			return "text of more than one line"
		}
		if strings.Contains(v, "\t") {
			return "text with a tab in it"
		}
		return fmt.Sprintf("%q", strict.Cut(v))
	case float64:
		return floatText(v)
	}
	return strict.Describe(v)
}

// floatText keeps the point of a whole number, which can be what is wrong
// with it.
func floatText(v float64) string {
	s := strconv.FormatFloat(v, 'g', -1, 64)
	if strings.Trim(s, "-0123456789") == "" {
		s += ".0"
	}
	return s
}
