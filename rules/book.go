package rules

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"sort"
)

// Book is a checked set of facts and rules.
type Book struct {
	facts []Fact
	index map[string]int // fact name to number

	rules []Rule // in the order hits are given, whatever the order they came in
	ready []ready
	byID  map[string]int

	impossible [][]test // combinations of facts that do not occur
	options    []option // kept to build the same book from shuffled rules

	sieve sieve // what Eval need not look at

	maxSteps, maxPieces int // limits of the proofs
}

// ready is a rule made ready for Eval.
type ready struct {
	tests  []test
	text   template
	safety bool
	// silencedBy are the rules that name this one in Overrides, strongerInGroup
	// the adjusts that count instead of this one when they fire too.
	silencedBy, strongerInGroup []int
}

type option struct {
	subject string
	boxes   [][]Atom
}

// Option states what the declarations alone cannot: which combinations of
// facts do not occur. Options sharpen the proofs; Eval does not look at them.
type Option func(*Book)

// Impossible states that the atoms never hold together (a wet basement in an
// attic). A rule that only fires there is dead.
func Impossible(when ...Atom) Option {
	return func(b *Book) {
		b.options = append(b.options, option{"impossible combination", [][]Atom{when}})
	}
}

// Profile states that whenever the enum fact has the value, the facts in holds
// have theirs: cotton is combustible and takes up water. Unknown values in
// holds state nothing.
func Profile(fact, value string, holds map[string]Value) Option {
	names := make([]string, 0, len(holds))
	for name := range holds {
		names = append(names, name)
	}
	sort.Strings(names)
	o := option{subject: fmt.Sprintf("profile of %s %s", fact, value)}
	for _, name := range names {
		not := Atom{Fact: name, Op: Ne}
		switch v := holds[name]; v.typ {
		case Enum:
			not.Values = []string{v.text}
		case Boolean:
			not.Bool = v.yes
		case Numeric:
			not.Num = v.num
		default:
			continue
		}
		o.boxes = append(o.boxes, []Atom{{Fact: fact, Op: Eq, Values: []string{value}}, not})
	}
	return func(b *Book) { b.options = append(b.options, o) }
}

// NewBook checks facts and rules and returns every problem at once, joined;
// each wraps one of the sentinel errors of this package. The order of the rules
// does not matter. Facts and rules are not to be changed afterwards.
func NewBook(facts []Fact, rules []Rule, opts ...Option) (*Book, error) {
	b := &Book{facts: slices.Clone(facts), maxSteps: maxSteps, maxPieces: maxPieces}
	for _, o := range opts {
		if o != nil {
			o(b)
		}
	}
	errs := b.declare()
	errs = append(errs, b.take(rules)...)
	errs = append(errs, b.ruleOut()...)
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	b.link()
	return b, nil
}

// declare numbers the facts.
func (b *Book) declare() []error {
	var errs []error
	b.index = make(map[string]int, len(b.facts))
	for i, f := range b.facts {
		if _, twice := b.index[f.Name]; twice || f.Name == "" {
			errs = append(errs, fmt.Errorf("%w: fact %d: name %q is empty or used twice", ErrDeclaration, i+1, f.Name))
			continue
		}
		b.index[f.Name] = i
		if err := f.problem(); err != nil {
			errs = append(errs, err)
		}
	}
	return errs
}

// take checks the rules and puts them in their order.
func (b *Book) take(rules []Rule) []error {
	b.rules = slices.Clone(rules)
	slices.SortStableFunc(b.rules, hitOrder)
	b.byID = make(map[string]int, len(rules))
	b.ready = make([]ready, len(rules))
	var errs []error
	for i := range b.rules {
		r := &b.rules[i]
		if _, twice := b.byID[r.ID]; twice || r.ID == "" {
			errs = append(errs, fmt.Errorf("%w: rule %q (%s): id is empty or used twice", ErrID, r.ID, r.Title))
		} else {
			b.byID[r.ID] = i
		}
		for _, err := range b.ruleProblems(r, &b.ready[i]) {
			errs = append(errs, fmt.Errorf("rule %s: %w", r.ID, err))
		}
	}
	return append(errs, b.overrideProblems()...)
}

// hitOrder puts the worst danger first, then everything else by Order. Ids are
// unique, so the order is total and that of the file cannot show.
func hitOrder(a, b Rule) int {
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

// ruleOut compiles the combinations that do not occur.
func (b *Book) ruleOut() []error {
	var errs []error
	for _, o := range b.options {
		for _, when := range o.boxes {
			tests, problems := b.compileAll(when)
			if len(when) == 0 {
				problems = append(problems, fmt.Errorf("%w: no condition, so nothing would be possible", ErrCondition))
			}
			for _, err := range problems {
				errs = append(errs, fmt.Errorf("%s: %w", o.subject, err))
			}
			b.impossible = append(b.impossible, tests)
		}
	}
	return errs
}

// link works out which rules can silence which.
func (b *Book) link() {
	b.sieve = b.newSieve()
	for i := range b.rules {
		for _, id := range b.rules[i].Overrides {
			j := b.byID[id]
			b.ready[j].silencedBy = append(b.ready[j].silencedBy, i)
		}
	}
	for i := range b.rules {
		for j := range b.rules {
			if i != j && sameGroup(&b.rules[i], &b.rules[j]) && stronger(&b.rules[j], &b.rules[i]) {
				b.ready[i].strongerInGroup = append(b.ready[i].strongerInGroup, j)
			}
		}
	}
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
