package rules

import (
	"fmt"
	"strings"
)

// Obligation states what the book must do for all facts that satisfy When: a
// rule with the effect NeedEffect, and, when NeedRule is given, an id that is
// or begins with it, must be heard. One of NeedEffect and NeedRule may be empty.
type Obligation struct {
	ID         string
	When       []Atom
	NeedEffect EffectKind
	NeedRule   string
}

func (o Obligation) met(r *Rule) bool {
	return (o.NeedEffect == "" || o.NeedEffect == r.Effect.Kind) && strings.HasPrefix(r.ID, o.NeedRule)
}

// CheckObligations proves that each obligation holds for all known facts that
// can occur: the region of When is covered by the boxes of the rules that meet
// it, less the places where those rules are overridden. With unknown facts the
// proof still holds for safety rules, which fire wherever they might apply.
func (b *Book) CheckObligations(list []Obligation) []Finding {
	var out []Finding
	for _, o := range list {
		tests, errs := b.compileAll(o.When)
		if o.NeedEffect == "" && o.NeedRule == "" {
			errs = append(errs, fmt.Errorf("%w: nothing is asked for", ErrEffect))
		}
		for _, err := range errs {
			out = append(out, found(o.ID, BadQuestion, "%v", err))
		}
		if len(errs) == 0 {
			out = append(out, b.obligation(o, tests)...)
		}
	}
	return out
}

func (b *Book) obligation(o Obligation, tests []test) []Finding {
	r := b.reach(tests)
	region := r.box(tests)
	if _, a := r.uncovered(region, r.impossible); a == covered {
		return []Finding{found(o.ID, BadQuestion, "no facts satisfy its condition, so it asks for nothing")}
	}
	by := append([]box(nil), r.impossible...)
	for i := range b.rules {
		if !o.met(&b.rules[i]) {
			continue
		}
		heard, ok := r.heard(i, region)
		if !ok {
			return []Finding{hard(o.ID, "where "+b.rules[i].ID+" is heard")}
		}
		by = append(by, heard...)
	}
	point, a := r.uncovered(region, by)
	switch a {
	case open:
		return []Finding{found(o.ID, Unmet, "no %s at %s", o.asked(), r.witness(point))}
	case tooHard:
		return []Finding{hard(o.ID, "whether it holds everywhere")}
	}
	return nil
}

func (o Obligation) asked() string {
	return strings.TrimSpace(strings.TrimSpace(string(o.NeedEffect)+" rule") + " " + o.NeedRule)
}

// heard returns the part of a region in which a rule fires and is not
// overridden.
func (r *reach) heard(i int, region box) ([]box, bool) {
	var over []box
	for _, j := range r.book.ready[i].silencedBy {
		over = append(over, r.rule[j])
	}
	return r.minus(meet(region, r.rule[i]), over)
}
