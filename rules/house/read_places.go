package house

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/strict"
)

// tablesOf counts the [[tables]] of a name; none when they are too many or
// something else.
func (r *reader) tablesOf(name, plural string, limit int) int {
	v, ok := r.tree.Get(name)
	if !ok {
		return 0
	}
	list, isTables := v.([]map[string]any)
	if _, single := v.(map[string]any); single {
		r.add(strict.Problem{
			File: r.tree.File, Line: r.tree.Line(name), Key: name, Found: "a table with single brackets",
			Want: "a line [[" + name + "]] with double brackets for each, and its keys below it",
		})
		return 0
	}
	if !isTables {
		r.bad([]any{name}, v, "a line [["+name+"]] for each, and its keys below it")
		return 0
	}
	if len(list) > limit {
		// The line of the first that is too many.
		r.add(strict.Problem{
			File: r.tree.File, Line: r.tree.Line(name, limit), Key: name,
			Found: fmt.Sprintf("%d %s", len(list), plural), Want: fmt.Sprintf("at most %d", limit),
		})
		return 0
	}
	return len(list)
}

// text reads a name that must be there.
func (r *reader) text(path []any, want string) (string, bool) {
	v, ok := r.tree.Get(path...)
	if !ok {
		v = nil
	}
	s, isText := v.(string)
	_, changed := strict.CleanText(s)
	if !isText || strings.TrimSpace(s) == "" || changed || len([]rune(s)) > MaxText {
		if v != nil && !isText {
			want += " (between quote marks)"
		}
		r.bad(path, v, want)
		return "", false
	}
	return s, true
}

var wantName = fmt.Sprintf("one line of text of 1 to %d characters", MaxText)

func (r *reader) places() {
	n := r.tablesOf("place", "places", MaxPlaces)
	ids := map[string]int{} // by the place that has it first
	for i := range n {
		if _, there := r.tree.Get("place", i, "id"); !there {
			continue // it gets one when those that are written are known
		}
		path := []any{"place", i, "id"}
		id, ok := r.text(path, wantName)
		if !ok {
			continue
		}
		if first, taken := ids[id]; taken {
			r.bad(path, id, fmt.Sprintf("an id of its own; the place on line %d has this one", r.tree.Line("place", first)))
			continue
		}
		ids[id] = i
	}
	for i := range n {
		r.place(i, ids)
	}
}

func (r *reader) place(i int, ids map[string]int) {
	path := []any{"place", i}
	kind, known := r.kind(below(path, "kind"))
	qs := r.list.In(PlaceScope, kind)
	if !known { // its other mistakes are reported too, as far as they are some for every kind
		qs = r.list.everyPlaceQuestion()
	}
	p := Place{Kind: kind, Answers: Answers{}}
	r.questions(path, qs, p.Answers, false, []string{"id", "kind", "measured"}, func(key string) bool { return r.list.isRetired(PlaceScope, kind, key) })
	p.Measured = r.measured(below(path, "measured"), qs, kind)
	if v, there := r.tree.Get("place", i, "id"); there {
		p.ID, _ = v.(string)
	} else {
		p.ID = r.freeID(kind, ids)
		ids[p.ID] = i
	}
	r.house.Places = append(r.house.Places, p)
}

// freeID is an id that no place has and none further down names as its own.
func (r *reader) freeID(kind string, ids map[string]int) string {
	return firstFree(kind, "-", func(id string) bool {
		_, taken := ids[id]
		return taken
	})
}

func (r *reader) kind(path []any) (string, bool) {
	v, _ := r.tree.Get(path...)
	kinds := r.list.PlaceKinds()
	if kind, ok := v.(string); ok && slices.Contains(kinds, kind) {
		return kind, true
	}
	r.bad(path, v, "one of "+strings.Join(kinds, ", ")+meant(v, kinds))
	return "", false
}

func (l *QuestionList) everyPlaceQuestion() []Question {
	var out []Question
	for _, q := range l.Questions {
		if q.Scope == PlaceScope {
			out = append(out, q)
		}
	}
	return out
}

func (r *reader) measured(path []any, qs []Question, kind string) []string {
	v, ok := r.tree.Get(path...)
	if !ok {
		return nil
	}
	list, isList := v.([]any)
	if !isList {
		r.bad(path, v, `a list of the keys that were measured, like ["area_ft2"]`)
		return nil
	}
	keys := make([]string, len(qs))
	for i, q := range qs {
		keys[i] = q.Key
	}
	var out []string
	for i, e := range list {
		key, isText := e.(string)
		if isText && r.list.isRetired(PlaceScope, kind, key) {
			continue
		}
		if !isText || !slices.Contains(keys, key) {
			r.bad(below(path, i), e, "a key that such a place has, like area_ft2"+meant(e, keys))
			continue
		}
		out = append(out, key)
	}
	return unique(out)
}

func (r *reader) variants() {
	names := map[string]int{}
	for i := range r.tablesOf("variant", "saved plans", MaxVariants) {
		path := []any{"variant", i}
		name, ok := r.text(below(path, "name"), wantName)
		if first, taken := names[name]; ok && taken {
			r.bad(below(path, "name"), name, fmt.Sprintf("a name of its own; the saved plan on line %d has this one", r.tree.Line("variant", first)))
		} else if ok {
			names[name] = i
		}
		v := Variant{Name: name, Answers: Answers{}}
		r.table(below(path, "priorities"), Priorities, v.Answers)
		r.table(below(path, "budget"), Budget, v.Answers)
		for _, key := range r.tree.Keys(path...) {
			if known := []string{"name", "priorities", "budget", "was"}; !slices.Contains(known, key) {
				r.unknownKey(below(path, key), known)
			}
		}
		v.Was = r.was(below(path, "was"))
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

// was reads what a saved plan chose when it was kept: place ids to words.
func (r *reader) was(path []any) map[string]string {
	v, ok := r.tree.Get(path...)
	if !ok {
		return nil
	}
	if _, isTable := v.(map[string]any); !isTable {
		r.bad(path, v, "a table of place ids and words, written when the plan was kept")
		return nil
	}
	out := map[string]string{}
	for _, id := range r.tree.Keys(path...) {
		if text, ok := r.text(below(path, id), "text"); ok {
			out[id] = text
		}
	}
	return out
}
