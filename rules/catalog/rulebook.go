package catalog

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"battwright/rules"
	"battwright/rules/strict"
	"battwright/rules/units"
)

// FactRecord declares a fact that rules may ask about.
type FactRecord struct {
	rules.Fact
	ValuesOf string `toml:"values_of"` // place, material or edition: its values are the ids of these records
	from     origin
}

// RuleRecord is one rule as written in data/.
type RuleRecord struct {
	rules.Rule
	Remove    bool        `toml:"remove"`
	IfUnknown units.Prose `toml:"if_unknown"` // what a caution says while its facts are unknown
	Danger    string      `toml:"danger"`     // it warns of it, in every kind of place where that may be
	from      origin
}

// stays reports whether a rule keeps people or the house safe against a change:
// it excludes, warns or wants something there. How something goes in may be said
// in other words, not dropped.
func (r RuleRecord) stays(by RuleRecord) bool {
	switch r.Effect.Kind {
	case rules.Safety, rules.Exclude, rules.Require:
		return true
	case rules.Install:
		return by.Remove || by.Effect.Kind != rules.Install
	}
	return false
}

// origin is where a record stands: its file and its place among the records of
// its list. The lines of the file are looked up when a problem asks for them.
type origin struct {
	lines func() *strict.Tree
	index int
}

// problem places a mistake in the file; below are the keys below the record.
func (o origin) problem(list string, below []any, found, want string) strict.Problem {
	return o.lines().Problem(append([]any{list, o.index}, below...), found, want)
}

// from notes where the records of a file stand.
func (r *records) from(lines func() *strict.Tree) {
	for i := range r.Facts {
		r.Facts[i].from = origin{lines, i}
	}
	for i := range r.Rules {
		r.Rules[i].from = origin{lines, i}
	}
	for i := range r.Kinds {
		r.Kinds[i].from = origin{lines, i}
	}
	for i := range r.Dangers {
		r.Dangers[i].from = origin{lines, i}
	}
}

// buildBook turns the records into the engine's book with every problem found.
func (c *Catalog) buildBook() (bookOfRules, error) {
	r, err := c.parts[ruleBook]()
	if err != nil {
		return bookOfRules{}, err
	}
	made := bookOfRules{ifUnknown: map[string]units.Prose{}, reasons: map[string][2]string{}, warnsOf: map[string][]string{}}
	var out strict.Problems
	facts := make([]rules.Fact, len(r.Facts))
	now := valuesOf(c.Kinds, c.Materials)
	if c.Codes != nil {
		now["edition"] = ids(c.Codes.Editions, func(e Edition) string { return e.ID })
	}
	for i, f := range r.Facts {
		facts[i] = f.Fact
		if f.ValuesOf == "" {
			continue
		}
		facts[i].Values = slices.Clone(c.were[f.ValuesOf])
		for _, id := range now[f.ValuesOf] {
			if !slices.Contains(facts[i].Values, id) {
				facts[i].Values = append(facts[i].Values, id)
			}
		}
		if now[f.ValuesOf] == nil {
			out = append(out, f.from.problem("fact", []any{"values_of"}, fmt.Sprintf("%q", f.ValuesOf), "place, material or edition"))
		}
	}
	list := make([]rules.Rule, len(r.Rules))
	for i, rule := range r.Rules {
		if rule.Danger != "" {
			out = append(out, rule.everywhere(c)...)
			made.warnsOf[rule.Danger] = append(made.warnsOf[rule.Danger], rule.ID)
		}
		list[i] = rule.Rule
		out = append(out, rule.figures()...)
		out = append(out, rule.needs()...)
		made.ifUnknown[rule.ID] = rule.IfUnknown
		if figures := len(rules.FiguresIn(rule.Reason)); figures > 0 && figures == strings.Count(rule.Reason, "{") {
			text := units.Prose(rule.Reason)
			made.reasons[rule.ID] = [2]string{text.In(units.US), text.In(units.SI)}
		}
	}
	never, of := profiles(c.Materials)
	made.Book, err = rules.NewBook(facts, list, never...)
	problems, _ := err.(rules.Problems)
	for _, p := range problems {
		at, below := p.Path[1].(int), p.Path[2:]
		switch p.Path[0] {
		case "fact":
			out = append(out, r.Facts[at].from.problem("fact", below, p.Found, p.Want))
		case "rule":
			if p.Found == rules.Undeclared {
				p.Want = nearFact(facts, below)
			}
			out = append(out, r.Rules[at].from.problem("rule", below, p.Found, p.Want))
		default:
			out = append(out, strict.Problem{Key: "material." + of[at], Found: p.Found, Want: p.Want + " in the facts, too"})
		}
	}
	if len(out) > 0 {
		out.Sort()
		return bookOfRules{}, out
	}
	return made, nil
}

// valuesOf are the values of facts that name records.
func valuesOf(kinds []PlaceKind, materials []Material) map[string][]string {
	return map[string][]string{
		"place":    ids(kinds, func(k PlaceKind) string { return k.ID }),
		"material": ids(materials, func(m Material) string { return m.ID }),
	}
}

// everywhere lets a rule that warns of a danger fire in every kind of place where
// that may be; one that names places itself stays with these.
func (r *RuleRecord) everywhere(c *Catalog) strict.Problems {
	if !slices.ContainsFunc(c.Dangers, func(d Danger) bool { return d.ID == r.Danger }) {
		return strict.Problems{r.from.problem("rule", []any{"danger"}, fmt.Sprintf("%q", r.Danger), "the id of a danger in dangers.toml")}
	}
	kinds := c.kindsWith(r.Danger)
	if _, own := r.Where["place"]; own || len(kinds) == len(c.Kinds) {
		return nil
	}
	places := make([]any, len(kinds))
	for i, id := range kinds {
		places[i] = id
	}
	r.Where = maps.Clone(r.Where)
	r.Where["place"] = places
	return nil
}

// nearFact guesses which fact was meant by the last of some keys.
func nearFact(facts []rules.Fact, keys []any) string {
	names := ids(facts, func(f rules.Fact) string { return f.Name })
	if near := strict.Nearest(fmt.Sprint(keys[len(keys)-1]), names); near != "" {
		return "did you mean " + near + "?"
	}
	return "the name of a fact in facts.toml"
}

// figures looks at the figures in braces of a rule. Its reason may also hold
// the names of facts, which the book looks at.
func (r RuleRecord) figures() strict.Problems {
	var out strict.Problems
	for _, body := range rules.FiguresIn(r.Reason) {
		if want := units.FigureProblem(body); want != "" {
			out = append(out, r.from.problem("rule", []any{"reason"}, "{"+body+"}", want))
		}
	}
	for key, text := range map[string]string{"need_value": r.Effect.NeedValue, "mind": r.Effect.Mind} {
		if found, want := units.Prose(text).Problem(); found != "" {
			out = append(out, r.from.problem("rule", []any{"effect", key}, found, want))
		}
	}
	return out
}

// profiles tell the proofs which facts go with which material: what cannot be,
// and of which material it is told.
func profiles(materials []Material) (never []rules.Where, of []string) {
	for _, m := range materials {
		for _, no := range []rules.Where{
			{"combustible": m.Noncombust},
			{"absorbent": !m.Absorbent},
			{"mineral_fiber": !m.MineralFiber},
			{"natural": !m.Natural},
			{"hard_to_find": !m.HardToFind},
		} {
			no["material"] = m.ID
			never, of = append(never, no), append(of, m.ID)
		}
	}
	return never, of
}
