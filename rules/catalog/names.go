package catalog

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules"
	"battwright/rules/strict"
)

// Needs are what a rule can require: the plan, the order, the sheets and the points
// of acceptance know each by its name. One misspelled would ask for nothing.
var Needs = strings.Fields(`
	baffle board burner-air cover crawl-air dehumidifier fill-cleared fire-mark fire-mark-fiber fireblock flue-retarder flue-shield foam-in-bays
	ground-cover ground-sheet hold-back layer-under-joists lead-test opened-wall retarder retarder-paint retarder-word
`)

// namings are what records can name, and the names there are. A book that cannot be
// read has its own errors: nothing is held to it then.
func (c *Catalog) namings() map[string][]string {
	out := map[string][]string{
		"place":    ids(c.Kinds, func(k PlaceKind) string { return k.ID }),
		"danger":   ids(c.Dangers, func(d Danger) string { return d.ID }),
		"material": ids(c.Materials, func(m Material) string { return m.ID }),
	}
	if book, err := c.book(); err == nil {
		out["rule"] = ids(book.Rules(), func(r *rules.Rule) string { return r.ID })
		out["need of a rule"] = ids(book.Rules(), func(r *rules.Rule) string { return r.Effect.Need })
		for _, f := range book.Facts() {
			if f.Name == "stage" {
				out["stage"] = f.Values
			}
		}
		out["fact"] = ids(book.Facts(), func(f rules.Fact) string { return f.Name })
	}
	return out
}

// names holds what a record names to what there is of a sort: nobody would miss a
// point or a note that never comes up.
func (k *checker) names(what, key, sort string, named ...string) {
	if k.known == nil {
		k.known = k.c.namings()
	}
	for _, name := range named {
		if known := k.known[sort]; name != "" && known != nil && !slices.Contains(known, name) {
			k.bad("%s: %s: %s %q is not listed; want %s", what, key, sort, name, strict.NearestOr(name, known, "one that is"))
		}
	}
}

// needs refuses a rule that asks for something nobody knows.
func (r RuleRecord) needs() strict.Problems {
	need := r.Effect.Need
	if need == "" || slices.Contains(Needs, need) {
		return nil
	}
	return strict.Problems{r.from.problem("rule", []any{"effect", "need"}, fmt.Sprintf("%q", need), strict.NearestOr(need, Needs, "one of "+strings.Join(Needs, ", ")))}
}
