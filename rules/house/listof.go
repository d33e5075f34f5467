package house

import "battwright/rules/catalog"

// ListOf makes a question list of other questions than those of a house: of
// what is seen and measured once the blankets are in, for instance. They are
// asked, checked and kept in the same way.
func ListOf(c *catalog.Catalog, qs []Question) *QuestionList {
	l := &QuestionList{Questions: qs, catalog: c, byKey: map[string]int{}}
	for i, q := range qs {
		l.byKey[q.FullKey()] = i
	}
	return l
}
