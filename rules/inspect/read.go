package inspect

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"battwright/rules/house"
	"battwright/rules/strict"
	"battwright/rules/units"
)

// reader reads a file by a list of questions and goes on after each problem.
// Notes are values that were read, though in other units than asked for.
type reader struct {
	tree     *strict.Tree
	problems strict.Problems
	notes    strict.Problems
	others   []otherUnit  // the notes again, with what was asked for
	unread   unread       // the problems of one table
	system   units.System // of what the notes say
}

// unread is what could not be read of one table, by the question it answers: it was
// said, so that nobody may call it left out.
type unread map[string]strict.Problem

// list is the same in the order of keys.
func (u unread) list() []house.Unread {
	var out []house.Unread
	for _, key := range slices.Sorted(maps.Keys(u)) {
		out = append(out, house.Unread{Key: key, Why: u[key].Error()})
	}
	return out
}

func (r *reader) add(list *strict.Problems, path []any, v any, want string) {
	*list = append(*list, r.tree.Problem(path, foundText(v), want))
}

func (r *reader) bad(path []any, v any, want string) { r.add(&r.problems, path, v, want) }

// sorted is what is wrong, by line, and no more than anybody reads.
func (r *reader) sorted() strict.Problems {
	r.notes.Sort()
	r.problems.Sort()
	return r.problems.Short()
}

// answers reads the answers below a path. extra are keys that the caller reads.
func (r *reader) answers(path []any, qs []house.Question, extra ...string) house.Answers {
	out := house.Answers{}
	r.unread = unread{}
	known := slices.Clone(extra)
	others := map[string]struct{}{}
	tails := map[string][]string{}
	for _, q := range qs {
		head, tail, dotted := strings.Cut(q.Key, ".")
		known = append(known, head)
		if dotted {
			tails[head] = append(tails[head], tail)
		}
		r.one(path, q, keyPath(path, q.Key), 1, out)
		for key, per := range otherKeys(q) {
			others[key] = struct{}{}
			r.one(path, q, keyPath(path, key), per, out)
		}
	}
	for _, key := range r.tree.Keys(path...) {
		at := keyPath(path, key)
		if _, other := others[key]; other {
			continue
		}
		if !slices.Contains(known, key) {
			r.unknown(at, key, known)
			continue
		}
		if list := tails[key]; list != nil {
			r.below(at, list)
		}
	}
	return out
}

// below reports keys of an inner table that nobody asks for.
func (r *reader) below(at []any, tails []string) {
	v, _ := r.tree.Get(at...)
	if _, isTable := v.(map[string]any); !isTable {
		r.bad(at, v, "a table with any of "+strings.Join(tails, ", "))
		return
	}
	for _, key := range r.tree.Keys(at...) {
		if !slices.Contains(tails, key) {
			r.unknown(keyPath(at, key), key, tails)
		}
	}
}

func (r *reader) unknown(at []any, key string, known []string) {
	want := "one of " + strings.Join(slices.Compact(slices.Clone(known)), ", ")
	near := strict.Nearest(key, known)
	if near != "" {
		want = "did you mean " + near + "?"
	}
	r.add(&r.problems, at, nil, want)
	last := &r.problems[len(r.problems)-1]
	last.Found = "a key that is not used here"
	r.unread[near] = *last
}

func (r *reader) one(path []any, q house.Question, at []any, per float64, into house.Answers) {
	v, ok := r.tree.Get(at...)
	if !ok {
		return
	}
	no := func(want string) {
		r.bad(at, v, want)
		r.unread[q.Key] = r.problems[len(r.problems)-1]
	}
	a, note, ok := r.valueOf(q, v, per)
	if !ok || q.Check(a) != nil {
		no(q.Accepted())
		return
	}
	if old := into[q.Key]; old.State == house.Given && a.State == house.Given {
		no("only one of the two units for " + q.Key)
		return
	}
	if note != "" {
		r.add(&r.notes, at, v, "the units of this program; read as "+note)
		r.others = append(r.others, otherUnit{r.notes[len(r.notes)-1], givenText(q, v, per), q.Unit})
	}
	into.Set(q.Key, a)
}

// givenText is a figure as its file gives it, with its unit: RSI 4.05, 140 mm.
func givenText(q house.Question, v any, per float64) string {
	text := fmt.Sprint(v)
	if per == 1 {
		return text // the unit stands in the text
	}
	for _, f := range units.Others(q.Unit) {
		switch {
		case f.Per != per:
		case f.Suffix == "rsi":
			return "RSI " + text
		default:
			return text + " " + f.Suffix
		}
	}
	return text
}

// valueOf takes a TOML value for an answer.
func (r *reader) valueOf(q house.Question, v any, per float64) (a house.Answer, note string, ok bool) {
	if s, isText := v.(string); isText {
		if strings.TrimSpace(s) == "" {
			return house.Answer{}, "", true
		}
		if s == "unknown" && q.Kind != house.TextKind {
			return house.Answer{State: house.Unknown}, "", q.DontKnow
		}
	}
	switch q.Kind {
	case house.NumberKind:
		n, note, ok := r.readNumber(q, v, per)
		return house.Number(n), note, ok
	case house.Numbers:
		return r.readNumbers(q, v, per)
	case house.Many:
		a, ok := readMany(v)
		return a, "", ok
	case house.YesNoKind:
		if b, isBool := v.(bool); isBool {
			return house.YesNo(b), "", true
		}
	case house.TextKind:
		switch x := v.(type) {
		case time.Time:
			return house.Text(x.Format(time.DateOnly)), "", true
		case []any:
			parts := make([]string, len(x))
			for i, e := range x {
				parts[i] = fmt.Sprint(e)
			}
			return house.Text(strings.Join(parts, ", ")), "", true
		}
	}
	s, isText := v.(string)
	if !isText {
		return house.Answer{}, "", false
	}
	a, err := q.Parse(s)
	return a, "", err == nil
}

// readMany takes a word or a list of words.
func readMany(v any) (house.Answer, bool) {
	list, isList := v.([]any)
	if !isList {
		list = []any{v}
	}
	words := make([]string, len(list))
	for i, e := range list {
		word, isText := e.(string)
		if !isText {
			return house.Answer{}, false
		}
		words[i] = word
	}
	return house.List(words...), true
}

func (r *reader) readNumbers(q house.Question, v any, per float64) (house.Answer, string, bool) {
	list, isList := v.([]any)
	if !isList {
		if s, isText := v.(string); isText && per == 1 {
			list = nil
			for _, part := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' }) {
				list = append(list, strings.TrimSpace(part))
			}
		} else {
			list = []any{v}
		}
	}
	words := make([]string, 0, len(list))
	var notes []string
	for _, e := range list {
		n, note, ok := r.readNumber(q, e, per)
		if !ok {
			return house.Answer{}, "", false
		}
		if note != "" {
			notes = append(notes, note)
		}
		words = append(words, strconv.FormatFloat(n, 'f', -1, 64))
	}
	return house.List(words...), strings.Join(notes, ", "), true
}

// tables gives how many tables [[name]] there are, at most limit.
func (r *reader) tables(name string, limit int) int {
	v, ok := r.tree.Get(name)
	if !ok {
		return 0
	}
	n := 0
	switch list := v.(type) {
	case []map[string]any:
		n = len(list)
	case []any:
		n = len(list)
		for i, e := range list {
			if _, isTable := e.(map[string]any); !isTable {
				r.bad([]any{name, i}, e, "tables [["+name+"]]")
			}
		}
	default:
		r.bad([]any{name}, v, "tables [["+name+"]]")
	}
	if n > limit {
		r.bad([]any{name}, v, fmt.Sprintf("at most %d", limit))
		n = limit
	}
	return n
}

// placeID reads which place a table is about.
func (r *reader) placeID(path []any, ids []string) (string, bool) {
	v, _ := r.tree.Get(path...)
	id, _ := v.(string)
	if slices.Contains(ids, id) {
		return id, true
	}
	want := "the id of a place of the house: " + strings.Join(ids, ", ")
	if near := strict.Nearest(id, ids); near != "" {
		want += " (did you mean " + near + "?)"
	}
	r.bad(path, v, want)
	return "", false
}

func keyPath(path []any, key string) []any {
	out := slices.Clone(path)
	for _, part := range strings.Split(key, ".") {
		out = append(out, part)
	}
	return out
}

func foundText(v any) string {
	const most = 60
	switch x := v.(type) {
	case nil:
		return "nothing"
	case string:
		if len([]rune(x)) > most {
			return fmt.Sprintf("a text of %d characters", len([]rune(x)))
		}
		return strconv.Quote(x)
	case []any:
		return fmt.Sprintf("a list of %d", len(x))
	case map[string]any, []map[string]any:
		return "a table"
	case time.Time:
		return "a date"
	}
	return fmt.Sprint(v)
}
