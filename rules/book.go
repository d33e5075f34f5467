package rules

import (
	"cmp"
	"slices"
	"strconv"
)

// Book is a checked set of facts and rules.
type Book struct {
	facts []Fact
	index map[string]int // fact name to number

	rules []Rule // in the order hits are given, whatever the order they came in
	ready []ready
	byID  map[string]int

	impossible []box   // combinations of facts that do not occur
	sieve      sieve   // what Eval need not look at
	readers    [][]int // the rules that read each fact
	maxSteps   int     // limit of each proof
}

// NewBook checks facts and rules and returns every mistake at once, as
// Problems. The order of the rules does not matter. Facts and rules are not to
// be changed afterwards.
//
// What is impossible are combinations of facts that never occur, which the
// declarations alone cannot state: cotton that does not burn. They sharpen the
// proofs, a rule that only fires there is dead; Eval does not look at them.
func NewBook(facts []Fact, rules []Rule, impossible ...Where) (*Book, error) {
	b := &Book{facts: slices.Clone(facts), maxSteps: maxSteps}
	problems := b.declare()
	problems = append(problems, b.take(rules)...)
	for i, w := range impossible {
		tests, some := b.tests(w)
		if len(w) == 0 {
			some.add("no condition", "one, or nothing would be possible")
		}
		problems.under(some, "impossible", i)
		b.impossible = append(b.impossible, b.box(tests))
	}
	if len(problems) > 0 {
		return nil, problems
	}
	b.sieve, b.readers = b.newSieve(), b.newReaders()
	return b, nil
}

// declare numbers the facts.
func (b *Book) declare() Problems {
	var out Problems
	b.index = make(map[string]int, len(b.facts))
	for i, f := range b.facts {
		if _, twice := b.index[f.Name]; twice || f.Name == "" {
			out.add(strconv.Quote(f.Name), "a name of its own", "fact", i, "name")
			continue
		}
		b.index[f.Name] = i
		if key, found, want := f.problem(); found != "" {
			out.add(found, want, "fact", i, key)
		}
	}
	return out
}

// take checks the rules and puts them in their order.
func (b *Book) take(rules []Rule) Problems {
	var out Problems
	order := make([]int, len(rules))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return hitOrder(&rules[i], &rules[j]) })
	b.byID = make(map[string]int, len(rules))
	for at, i := range order {
		r := rules[i]
		if _, twice := b.byID[r.ID]; twice || r.ID == "" {
			out.add(strconv.Quote(r.ID), "an id of its own", "rule", i, "id")
		}
		made, some := b.prepare(&r)
		out.under(some, "rule", i)
		b.rules, b.ready, b.byID[r.ID] = append(b.rules, r), append(b.ready, made), at
	}
	return out
}

// hitOrder puts the worst danger first, then everything else by Order. Ids are
// unique, so the order is total and that of the file cannot show.
func hitOrder(a, b *Rule) int {
	as, bs := a.Effect.Kind == Safety, b.Effect.Kind == Safety
	switch {
	case as != bs:
		if as {
			return -1
		}
		return 1
	case as:
		return cmp.Or(cmp.Compare(b.Effect.Severity, a.Effect.Severity), cmp.Compare(a.ID, b.ID))
	}
	return cmp.Or(cmp.Compare(a.Effect.Order, b.Effect.Order), cmp.Compare(a.ID, b.ID))
}

// Facts returns the declared facts.
func (b *Book) Facts() []Fact { return slices.Clone(b.facts) }

// Rules returns the rules in the order their hits are given. They are shared
// with the book: do not change them.
func (b *Book) Rules() []*Rule {
	out := make([]*Rule, len(b.rules))
	for i := range b.rules {
		out[i] = &b.rules[i]
	}
	return out
}

// Rule finds a rule by its id.
func (b *Book) Rule(id string) (*Rule, bool) {
	i, ok := b.byID[id]
	if !ok {
		return nil, false
	}
	return &b.rules[i], true
}
