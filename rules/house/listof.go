package house

import (
	"slices"

	"battwright/rules/catalog"
)

// ListOf makes a question list of other questions than those of a house: of
// what is seen and measured once the blankets are in, for instance. They are
// asked, checked and kept in the same way.
func ListOf(c *catalog.Catalog, qs []Question) *QuestionList {
	l := &QuestionList{Questions: qs, catalog: c, byKey: map[string]int{}, ofKind: map[string][]Question{}}
	for i, q := range qs {
		l.byKey[q.FullKey()] = i
	}
	for _, kind := range c.Kinds {
		l.ofKind[kind.ID] = l.pick(func(q Question) bool { return q.Scope == PlaceScope && q.For(kind.ID) })
	}
	return l
}

func (l *QuestionList) pick(is func(Question) bool) []Question {
	var out []Question
	for _, q := range l.Questions {
		if is(q) {
			out = append(out, q)
		}
	}
	return slices.Clip(out)
}
