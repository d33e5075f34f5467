package rules

import "slices"

// Contradictions finds pairs that cannot both hold where both are heard:
// two requires of one need with different values, two adjusts in one group of
// one criterion (the same cause counted twice), and reasons for, raising
// adjusts or requires that are only ever heard of excluded candidates.
func (b *Book) Contradictions() []Finding {
	r := b.reach()
	var out []Finding
	for i := range b.rules {
		for j := i + 1; j < len(b.rules); j++ {
			if what, ok := clash(&b.rules[i], &b.rules[j]); ok {
				out = append(out, b.clashAt(r, i, j, what)...)
			}
		}
	}
	return append(out, b.praiseOfExcluded(r)...)
}

// clash reports whether two rules must never be heard together.
func clash(a, b *Rule) (string, bool) {
	x, y := a.Effect, b.Effect
	switch {
	case x.Kind == Require && y.Kind == Require && x.Need == y.Need && x.NeedValue != y.NeedValue:
		return "they ask for different " + x.Need, true
	case sameGroup(a, b):
		return "they count group " + x.Group + " twice", true
	}
	return "", false
}

func (b *Book) clashAt(r *reach, i, j int, what string) []Finding {
	shared := meet(r.rule[i], r.rule[j])
	point, a := r.uncovered(shared, append(r.quiet(i), r.quiet(j)...))
	id, other := b.rules[i].ID, b.rules[j].ID
	switch a {
	case open:
		return []Finding{found(id, Contradiction, "with %s: %s at %s", other, what, r.witness(point))}
	case tooHard:
		return []Finding{hard(id, "whether it meets "+other)}
	}
	return nil
}

// praiseOfExcluded finds rules that speak for a candidate although excludes
// take away every candidate they speak of.
func (b *Book) praiseOfExcluded(r *reach) []Finding {
	out := []Finding(nil)
	excludes := r.of(func(rule *Rule) bool { return rule.Effect.Kind == Exclude })
	for i := range b.rules {
		e := b.rules[i].Effect
		praise := e.Kind == For || e.Kind == Adjust && e.Delta > 0 || e.Kind == Require && e.Need != NeedNoOption
		if !praise {
			continue
		}
		id := b.rules[i].ID
		if _, heard := r.uncovered(r.rule[i], r.quiet(i)); heard == covered {
			continue // dead already
		}
		switch _, a := r.uncovered(r.rule[i], slices.Concat(excludes, r.quiet(i))); a {
		case covered:
			out = append(out, found(id, Contradiction, "it speaks only of candidates that are excluded"))
		case tooHard:
			out = append(out, hard(id, "whether it speaks of a candidate that is not excluded"))
		}
	}
	return out
}

// of lists the boxes of the rules that pass.
func (r *reach) of(pass func(*Rule) bool) []box {
	var out []box
	for i := range r.book.rules {
		if pass(&r.book.rules[i]) {
			out = append(out, r.rule[i])
		}
	}
	return out
}
