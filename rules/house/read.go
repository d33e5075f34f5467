package house

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/strict"
)

// Read reads a house file by the question list. Every mistake is reported at
// once, with its line; a file with mistakes gives no house.
func Read(l *QuestionList, file, text string) (*House, error) {
	tree, problems := strict.Parse(file, text)
	if _, isTOML := tree.Get(); !isTOML {
		for i, p := range problems {
			problems[i] = l.explain(text, p)
		}
		return nil, problems
	}
	r := &reader{list: l, tree: tree, house: New(), told: map[spot]bool{}, guesses: map[spot]func() string{}}
	for _, p := range problems { // of single values: the rest can be read beside them
		r.add(p)
	}
	if newer := r.version(); newer != nil { // it may mean other things by the same words
		return nil, strict.Problems{*newer}
	}
	r.top()
	for _, scope := range []Scope{Site, Shape, Drawings, Priorities, Budget} {
		r.table([]any{tableOf[scope]}, scope, r.house.Answers)
	}
	r.places()
	r.variants()
	r.quotes()
	if len(r.problems) > 0 {
		return nil, r.sorted()
	}
	return r.house, nil
}

type reader struct {
	list     *QuestionList
	tree     *strict.Tree
	house    *House
	problems strict.Problems
	told     map[spot]bool
	guesses  map[spot]func() string // what an unknown key was meant to be
}

// version reports a version that is missing or no version beside the other
// mistakes; a newer one is returned, since nothing else can be trusted then.
func (r *reader) version() (newer *strict.Problem) {
	v, ok := r.tree.Get("version")
	n, isInt := v.(int64)
	switch {
	case !ok:
		r.add(strict.Problem{File: r.tree.File, Key: "version", Found: "nothing", Want: fmt.Sprintf("version = %d on the first line", Version)})
	case !isInt || n < 1:
		r.bad([]any{"version"}, v, fmt.Sprintf("version = %d, a whole number without quote marks", Version))
	case n > Version:
		return &strict.Problem{
			File: r.tree.File, Line: r.tree.Line("version"), Key: "version", Found: fmt.Sprint(n),
			Want: fmt.Sprintf("at most %d: this file was written by a newer battwright; get the newer program, the file was not touched", Version),
		}
	}
	return nil
}

var tables = []string{"version", "site", "shape", "drawing_r", "place", "priorities", "budget", "variant", "quote"}

func (r *reader) top() {
	known := slices.Clone(tables)
	for _, q := range r.list.In(Top, "") {
		known = append(known, q.Key)
		if v, ok := r.tree.Get(q.Key); ok {
			r.house.Answers.Set(q.FullKey(), r.answer(q, []any{q.Key}, v))
		}
	}
	for _, key := range r.tree.Keys() {
		if !slices.Contains(known, key) {
			r.unknownKey([]any{key}, known)
		}
	}
}

// table reads one table of a scope, when it is there.
func (r *reader) table(path []any, scope Scope, into Answers) {
	v, ok := r.tree.Get(path...)
	if !ok {
		return
	}
	if _, isTable := v.(map[string]any); !isTable {
		r.bad(path, v, "a table: a line ["+tableName(path)+"] and its keys below it")
		return
	}
	r.questions(path, r.list.In(scope, ""), into, true, nil, func(key string) bool { return r.list.isRetired(scope, "", key) })
}

// questions reads the answers of a list of questions below a path. Dotted
// keys are one level of inline table: framing = { size = "2x6" }.
func (r *reader) questions(path []any, qs []Question, into Answers, full bool, extra []string, retired func(key string) bool) {
	known := slices.Clone(extra)
	sub := map[string][]string{}
	for _, q := range qs {
		head, tail, dotted := strings.Cut(q.Key, ".")
		if !slices.Contains(known, head) {
			known = append(known, head)
		}
		at := below(path, head)
		if dotted {
			sub[head] = append(sub[head], tail)
			at = append(at, tail)
		}
		v, ok := r.tree.Get(at...)
		if !ok && q.Earlier != "" {
			at = below(path, q.Earlier)
			if v, ok = r.tree.Get(at...); ok {
				known = append(known, q.Earlier)
			}
		}
		if !ok {
			continue
		}
		key := q.Key
		if full {
			key = q.FullKey()
		}
		into.Set(key, r.answer(q, at, v))
	}
	for _, key := range r.tree.Keys(path...) {
		at := below(path, key)
		if !slices.Contains(known, key) {
			if !retired(key) {
				r.unknownKey(at, known)
			}
			continue
		}
		if tails := sub[key]; tails != nil {
			r.inline(at, tails)
		}
	}
}

func (r *reader) inline(at []any, tails []string) {
	v, _ := r.tree.Get(at...)
	if _, isTable := v.(map[string]any); !isTable {
		r.bad(at, v, "a table like { "+tails[0]+" = ... }")
		return
	}
	for _, key := range r.tree.Keys(at...) {
		if !slices.Contains(tails, key) {
			r.unknownKey(below(at, key), tails)
		}
	}
}

// below is a path one step longer, in memory of its own.
func below(path []any, step any) []any { return append(slices.Clone(path), step) }

// tableName is how a table line names a path: variant.priorities.
func tableName(path []any) string {
	var names []string
	for _, p := range path {
		if s, ok := p.(string); ok {
			names = append(names, s)
		}
	}
	return strings.Join(names, ".")
}
