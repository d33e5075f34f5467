package rules

// reach is a grid with the box of every rule on it.
type reach struct {
	*grid
	rule       []box
	impossible []box
}

func (b *Book) reach(extra ...[]test) *reach {
	g := b.grid(extra...)
	r := &reach{grid: g, impossible: g.boxes(b.impossible)}
	for i := range b.ready {
		r.rule = append(r.rule, g.box(b.ready[i].tests))
	}
	return r
}

// quiet lists the boxes in which a rule is not heard: combinations that do not
// occur, and wherever a rule that overrides it fires.
func (r *reach) quiet(i int) []box {
	out := append([]box(nil), r.impossible...)
	for _, j := range r.book.ready[i].silencedBy {
		out = append(out, r.rule[j])
	}
	return out
}

// Dead finds rules that never fire: no facts satisfy the condition, only
// impossible ones do, or other rules silence it wherever it would fire.
func (b *Book) Dead() []Finding {
	r := b.reach()
	var out []Finding
	for i := range b.rules {
		id := b.rules[i].ID
		if r.empty(r.rule[i]) {
			out = append(out, found(id, Dead, "no facts satisfy its condition"))
			continue
		}
		switch _, a := r.uncovered(r.rule[i], r.impossible); a {
		case covered:
			out = append(out, found(id, Dead, "it fires only for facts declared impossible"))
			continue
		case tooHard:
			out = append(out, hard(id, "whether it can fire"))
			continue
		}
		switch _, a := r.uncovered(r.rule[i], r.quiet(i)); a {
		case covered:
			out = append(out, found(id, Dead, "it is overridden wherever it would fire"))
		case tooHard:
			out = append(out, hard(id, "whether it is ever heard"))
		}
	}
	return out
}

// RedundantAtoms finds conditions that can be left out without changing for
// which facts the rule fires.
func (b *Book) RedundantAtoms() []Finding {
	r := b.reach()
	var out []Finding
	for i := range b.rules {
		if r.empty(r.rule[i]) {
			continue // dead already; every other condition would look idle
		}
		tests := b.ready[i].tests
		for k := range tests {
			rest := append(append([]test(nil), tests[:k]...), tests[k+1:]...)
			// The rule's box lies in the wider one, so inside means equal.
			if inside(r.box(rest), r.rule[i]) {
				a := b.rules[i].When[k]
				out = append(out, found(b.rules[i].ID, RedundantAtom, "%q changes nothing", a.show(b.facts[tests[k].fact].Type)))
			}
		}
	}
	return out
}

// target is what a rule does, apart from when. Two rules with one target do
// the same thing. Notes are the same only when they say the same words, and
// excludes only on the same subject: each reason is worth showing.
type target struct {
	effect Effect
	words  string
}

func (r *Rule) target() target {
	t := target{effect: r.Effect}
	t.effect.Order = 0
	switch r.Effect.Kind {
	case Safety, Install, For, Against:
		t.words = r.Reason
	}
	return t
}

// Shadowed finds rules whose box lies inside that of another rule with the
// same effect and target: they add nothing. Of two equal boxes the one that
// comes later is named. A rule that overrides the other is left alone.
func (b *Book) Shadowed() []Finding {
	r := b.reach()
	var out []Finding
	for i := range b.rules {
		for j := range b.rules {
			if i == j || b.rules[i].target() != b.rules[j].target() || b.overrides(i, j) || b.overrides(j, i) {
				continue
			}
			if f, ok := b.shadow(r, i, j); ok {
				out = append(out, f)
				break
			}
		}
	}
	return out
}

// shadow checks whether rule i lies in rule j.
func (b *Book) shadow(r *reach, i, j int) (Finding, bool) {
	id := b.rules[i].ID
	// A dead rule has its own finding.
	if _, a := r.uncovered(r.rule[i], r.impossible); a == covered {
		return Finding{}, false
	}
	_, a := r.uncovered(r.rule[i], append([]box{r.rule[j]}, r.impossible...))
	switch a {
	case open:
		return Finding{}, false
	case tooHard:
		return hard(id, "whether "+b.rules[j].ID+" always does the same"), true
	}
	if _, back := r.uncovered(r.rule[j], append([]box{r.rule[i]}, r.impossible...)); back == covered && i < j {
		return Finding{}, false
	}
	return found(id, Shadowed, "%s does the same for all its facts", b.rules[j].ID), true
}

// overrides reports whether rule i names rule j.
func (b *Book) overrides(i, j int) bool {
	for _, k := range b.ready[j].silencedBy {
		if k == i {
			return true
		}
	}
	return false
}
