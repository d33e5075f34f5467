package rules

import "math"

// Eval applies every rule to the facts. Nil facts, and facts of another book
// that this one does not know, are unknown.
func (b *Book) Eval(f *Facts) Verdict {
	var v Verdict
	b.EvalInto(f, &v)
	return v
}

// EvalInto is Eval into a verdict whose memory is used again; whatever the
// verdict held before is gone.
func (b *Book) EvalInto(f *Facts, v *Verdict) {
	v.reset()
	f = b.own(f)
	left := b.sieve.left(f.slots)
	for at := range left {
		c := &left[at]
		state := match(c.tests, c.state, f.slots)
		if state == no || b.silenced(c.rule, f.slots) {
			continue
		}
		i := c.rule
		if state == undecided && !b.ready[i].safety {
			v.Depends = b.hit(v.Depends, i, f, state)
			continue
		}
		b.apply(v, i, f, state)
	}
	for criterion, sum := range v.Adjust {
		v.Adjust[criterion] = min(max(sum, -1), 1)
	}
}

// own returns facts numbered as this book numbers them.
func (b *Book) own(f *Facts) *Facts {
	if f != nil && f.book == b {
		return f
	}
	out := b.NewFacts()
	out.CopyFrom(f)
	return out
}

// match is Kleene's strong conjunction: false beats undecided. It goes on from
// what other tests have answered.
func match(tests []test, state truth, slots []slot) truth {
	for i := range tests {
		t := &tests[i]
		switch t.on(slots[t.fact]) {
		case no:
			return no
		case undecided:
			state = undecided
		}
	}
	return state
}

// fires reports whether a rule acts, before any other rule silences it.
func (r *ready) fires(slots []slot) bool {
	state := match(r.tests, yes, slots)
	return state == yes || state == undecided && r.safety
}

// silenced reports whether a rule that overrides this one fires. It does not
// matter whether that rule is silenced in turn: what silences what is read off
// the conditions alone, so that it can be proved on boxes.
func (b *Book) silenced(i int, slots []slot) bool {
	for _, j := range b.ready[i].silencedBy {
		if b.ready[j].fires(slots) {
			return true
		}
	}
	return false
}

// counts reports whether an adjust is the strongest of its group here.
func (b *Book) counts(i int, slots []slot) bool {
	for _, j := range b.ready[i].strongerInGroup {
		if b.ready[j].fires(slots) && !b.silenced(j, slots) {
			return false
		}
	}
	return true
}

func sameGroup(a, b *Rule) bool {
	return a.Effect.Kind == Adjust && b.Effect.Kind == Adjust &&
		a.Effect.Criterion == b.Effect.Criterion && a.Effect.Group == b.Effect.Group
}

// stronger orders the adjusts of a group: the larger effect, then the one that
// lowers (the careful side), then the id.
func stronger(a, b *Rule) bool {
	da, db := math.Abs(a.Effect.Delta), math.Abs(b.Effect.Delta)
	if da != db {
		return da > db
	}
	if a.Effect.Delta != b.Effect.Delta {
		return a.Effect.Delta < b.Effect.Delta
	}
	return a.ID < b.ID
}

// apply adds a rule that fires to the verdict.
func (b *Book) apply(v *Verdict, i int, f *Facts, state truth) {
	e := &b.rules[i].Effect
	switch e.Kind {
	case Exclude:
		v.Excluded = b.hit(v.Excluded, i, f, state)
	case Safety:
		v.Safety = b.hit(v.Safety, i, f, state)
		v.Stopped = v.Stopped || e.Stops && state == yes
		v.MayStop = v.MayStop || e.Stops && state == undecided
	case Install:
		v.Install = b.hit(v.Install, i, f, state)
	case For:
		v.For = b.hit(v.For, i, f, state)
	case Against:
		v.Against = b.hit(v.Against, i, f, state)
	case Require:
		b.need(v, i, f, state)
	case Adjust:
		b.adjust(v, i, f, state)
	}
}

func (b *Book) adjust(v *Verdict, i int, f *Facts, state truth) {
	if !b.counts(i, f.slots) {
		return
	}
	e := &b.rules[i].Effect
	if v.Adjust == nil {
		v.Adjust = make(map[string]float64)
	}
	v.Adjust[e.Criterion] += e.Delta
	if e.Delta > 0 {
		v.For = b.hit(v.For, i, f, state)
		return
	}
	v.Against = b.hit(v.Against, i, f, state)
}

func (b *Book) need(v *Verdict, i int, f *Facts, state truth) {
	e := &b.rules[i].Effect
	for _, n := range v.Require {
		if n.Need == e.Need && n.Value == e.NeedValue {
			return
		}
	}
	v.Require = append(v.Require, Need{Need: e.Need, Value: e.NeedValue})
	b.say(&v.Require[len(v.Require)-1].Hit, i, f, state)
}

// hit appends what is said of a rule that fires. It is written in place: a book
// of a hundred rules says a dozen things of each candidate.
func (b *Book) hit(list []Hit, i int, f *Facts, state truth) []Hit {
	n := len(list)
	if n < cap(list) {
		list = list[:n+1]
	} else {
		list = append(list, Hit{})
	}
	b.say(&list[n], i, f, state)
	return list
}

func (b *Book) say(h *Hit, i int, f *Facts, state truth) {
	text := &b.ready[i].text
	h.Rule, h.Text, h.Unknown = &b.rules[i], text.whole, nil
	if text.facts {
		h.Text = b.fill(text, f, Plain)
	}
	if state == undecided {
		h.Unknown = b.unknownOf(i, f)
	}
}

// unknownOf names the facts that leave a rule undecided, each once.
func (b *Book) unknownOf(i int, f *Facts) []string {
	var out []string
	tests := b.ready[i].tests
	for k := range tests {
		if f.slots[tests[k].fact].bit != 0 || seenBefore(tests, k) {
			continue
		}
		out = append(out, b.facts[tests[k].fact].Name)
	}
	return out
}

func seenBefore(tests []test, k int) bool {
	for j := range k {
		if tests[j].fact == tests[k].fact {
			return true
		}
	}
	return false
}
