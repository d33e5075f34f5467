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
	if len(problems) > 0 {
		return nil, problems
	}
	r := &reader{list: l, tree: tree, house: New()}
	r.version()
	if len(r.problems) > 0 { // a newer file may mean other things by the same words
		return nil, r.problems
	}
	r.top()
	for _, table := range []struct {
		name  string
		scope Scope
	}{{"site", Site}, {"shape", Shape}, {"priorities", Priorities}, {"budget", Budget}} {
		r.table(table.name, table.scope)
	}
	r.places()
	r.variants()
	if len(r.problems) > 0 {
		r.problems.Sort()
		return nil, r.problems
	}
	return r.house, nil
}

type reader struct {
	list     *QuestionList
	tree     *strict.Tree
	house    *House
	problems strict.Problems
}

func (r *reader) bad(path []any, found any, want string) {
	r.problems = append(r.problems, strict.Problem{
		File: r.tree.File, Line: r.tree.Line(path...), Key: keyText(path), Found: foundText(found), Want: want,
	})
}

func keyText(path []any) string {
	var b strings.Builder
	for _, p := range path {
		if i, ok := p.(int); ok {
			fmt.Fprintf(&b, "[%d]", i+1)
			continue
		}
		if b.Len() > 0 {
			b.WriteByte('.')
		}
		fmt.Fprint(&b, p)
	}
	clean, _ := strict.CleanText(b.String())
	return clean
}

func foundText(v any) string {
	switch v := v.(type) {
	case string:
		return fmt.Sprintf("%q", clip(v))
	case map[string]any:
		return "a table"
	case []any, []map[string]any:
		return clip(fmt.Sprint(v))
	}
	return clip(fmt.Sprint(v))
}

func (r *reader) version() {
	v, ok := r.tree.Get("version")
	n, isInt := v.(int64)
	switch {
	case !ok:
		r.problems = append(r.problems, strict.Problem{File: r.tree.File, Key: "version", Found: "nothing", Want: fmt.Sprintf("version = %d on the first line", Version)})
	case !isInt || n < 1:
		r.bad([]any{"version"}, v, fmt.Sprintf("version = %d", Version))
	case n > Version:
		r.bad([]any{"version"}, v, fmt.Sprintf("at most %d: this file was written by a newer battwright; get the newer program, the file was not touched", Version))
	}
}

var tables = []string{"version", "site", "shape", "place", "priorities", "budget", "variant"}

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

func (r *reader) unknownKey(path []any, known []string) {
	last := fmt.Sprint(path[len(path)-1])
	want := "one of " + strings.Join(known, ", ")
	if near := strict.Nearest(last, known); near != "" {
		want = "did you mean " + near + "?"
	}
	r.problems = append(r.problems, strict.Problem{
		File: r.tree.File, Line: r.tree.Line(path...), Key: keyText(path), Found: "a key that is not used here", Want: want,
	})
}

func (r *reader) table(name string, scope Scope) {
	v, ok := r.tree.Get(name)
	if !ok {
		return
	}
	if _, isTable := v.(map[string]any); !isTable {
		r.bad([]any{name}, v, "a table: a line ["+name+"] and its keys below it")
		return
	}
	r.questions([]any{name}, r.list.In(scope, ""), r.house.Answers, true, nil)
}

// questions reads the answers of a list of questions below a path. Dotted
// keys are one level of inline table: framing = { size = "2x6" }.
func (r *reader) questions(path []any, qs []Question, into Answers, full bool, extra []string) {
	known := slices.Clone(extra)
	sub := map[string][]string{}
	for _, q := range qs {
		head, tail, dotted := strings.Cut(q.Key, ".")
		if !slices.Contains(known, head) {
			known = append(known, head)
		}
		at := append(slices.Clone(path), head)
		if dotted {
			sub[head] = append(sub[head], tail)
			at = append(at, tail)
		}
		v, ok := r.tree.Get(at...)
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
		at := append(slices.Clone(path), key)
		if !slices.Contains(known, key) {
			r.unknownKey(at, known)
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
			r.unknownKey(append(slices.Clone(at), key), tails)
		}
	}
}

// answer turns a TOML value into an answer, or reports what would be right.
func (r *reader) answer(q Question, path []any, v any) Answer {
	a, ok := fromTOML(q, v)
	if !ok {
		r.bad(path, v, q.Accepted())
		return Answer{}
	}
	if q.Normalize != nil && a.State == Given {
		a.Text = q.Normalize(a.Text)
	}
	if err := q.Check(a); err != nil {
		r.bad(path, v, q.Accepted())
		return Answer{}
	}
	return a
}

func fromTOML(q Question, v any) (Answer, bool) {
	if v == "unknown" {
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
	case Many, Numbers:
		return listFromTOML(v)
	default:
		if s, ok := v.(string); ok {
			return Text(s), true
		}
	}
	return Answer{}, false
}

func listFromTOML(v any) (Answer, bool) {
	list, ok := v.([]any)
	if !ok {
		return Answer{}, false
	}
	var out []string
	for _, e := range list {
		switch e := e.(type) {
		case string:
			out = append(out, e)
		case int64:
			out = append(out, formatNumber(float64(e)))
		case float64:
			out = append(out, formatNumber(e))
		default:
			return Answer{}, false
		}
	}
	return List(out...), true
}

func (r *reader) tablesOf(name string, limit int) int {
	v, ok := r.tree.Get(name)
	if !ok {
		return 0
	}
	n := 0
	switch list := v.(type) {
	case []map[string]any:
		n = len(list)
	default:
		r.bad([]any{name}, v, "tables: a line [["+name+"]] for each")
		return 0
	}
	if n > limit {
		r.problems = append(r.problems, strict.Problem{File: r.tree.File, Line: r.tree.Line(name), Key: name, Found: fmt.Sprint(n), Want: fmt.Sprintf("at most %d", limit)})
		return 0
	}
	return n
}

func (r *reader) text(path []any) (string, bool) {
	v, ok := r.tree.Get(path...)
	if !ok {
		return "", false
	}
	s, isText := v.(string)
	if !isText || s == "" || len([]rune(s)) > MaxText {
		r.bad(path, v, fmt.Sprintf("text of 1 to %d characters", MaxText))
		return "", false
	}
	return s, true
}

func (r *reader) places() {
	for i := range r.tablesOf("place", MaxPlaces) {
		r.place(i)
	}
}

func (r *reader) place(i int) {
	path := []any{"place", i}
	kinds := r.list.PlaceKinds()
	kind, ok := r.text(append(slices.Clone(path), "kind"))
	if !ok || !slices.Contains(kinds, kind) {
		v, _ := r.tree.Get("place", i, "kind")
		if v == nil {
			v = "nothing"
		}
		r.bad(append(slices.Clone(path), "kind"), v, "one of "+strings.Join(kinds, ", "))
		return
	}
	id, hasID := r.text(append(slices.Clone(path), "id"))
	if !hasID {
		id = r.house.FreeID(kind)
	}
	if r.house.Place(id) != nil {
		r.bad(append(slices.Clone(path), "id"), id, "an id that no other place has")
		return
	}
	p := r.house.Add(kind)
	p.ID = id
	r.questions(path, r.list.In(PlaceScope, kind), p.Answers, false, []string{"id", "kind", "measured"})
	p.Measured = r.measured(append(slices.Clone(path), "measured"), kind)
}

func (r *reader) measured(path []any, kind string) []string {
	v, ok := r.tree.Get(path...)
	if !ok {
		return nil
	}
	a, ok := listFromTOML(v)
	if !ok {
		r.bad(path, v, "a list of keys of this place that were measured")
		return nil
	}
	for _, key := range a.List {
		if q, ok := r.list.Find("place." + key); !ok || !q.For(kind) {
			r.bad(path, key, "keys of this place, for instance area_ft2")
		}
	}
	return a.List
}

func (r *reader) variants() {
	for i := range r.tablesOf("variant", MaxVariants) {
		name, ok := r.text([]any{"variant", i, "name"})
		if !ok {
			if _, there := r.tree.Get("variant", i, "name"); !there {
				r.bad([]any{"variant", i, "name"}, "nothing", "a name")
			}
			continue
		}
		v := Variant{Name: name, Answers: Answers{}}
		for _, t := range []struct {
			name  string
			scope Scope
		}{{"priorities", Priorities}, {"budget", Budget}} {
			if _, there := r.tree.Get("variant", i, t.name); there {
				r.questions([]any{"variant", i, t.name}, r.list.In(t.scope, ""), v.Answers, true, nil)
			}
		}
		for _, key := range r.tree.Keys("variant", i) {
			if known := []string{"name", "priorities", "budget"}; !slices.Contains(known, key) {
				r.unknownKey([]any{"variant", i, key}, known)
			}
		}
		r.house.Variants = append(r.house.Variants, v)
	}
}

// PlaceKinds are the kinds of place that can be asked for.
func (l *QuestionList) PlaceKinds() []string {
	var out []string
	for _, k := range l.catalog.Kinds {
		if !k.Derived {
			out = append(out, k.ID)
		}
	}
	return out
}
