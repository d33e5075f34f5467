package rules

// Eval applies every rule to the facts. Nil facts, and facts of another book,
// are unknown.
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
		switch state := match(c.tests, c.state, f.slots); {
		case state == no:
		case state == undecided && !b.ready[c.rule].safety:
			v.Depends = b.hit(v.Depends, c.rule, f, state)
		default:
			b.apply(v, c.rule, f, state)
		}
	}
	for criterion, sum := range v.Adjust {
		v.Adjust[criterion] = min(max(sum, -1), 1)
	}
}

// own returns facts that are numbered as this book numbers them.
func (b *Book) own(f *Facts) *Facts {
	if f != nil && f.book == b {
		return f
	}
	return b.NewFacts()
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

// fires reports whether a rule acts.
func (r *ready) fires(slots []slot) bool {
	state := match(r.tests, yes, slots)
	return state == yes || state == undecided && r.safety
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

// unknownOf names the facts that leave a rule undecided.
func (b *Book) unknownOf(i int, f *Facts) []string {
	var out []string
	for _, t := range b.ready[i].tests {
		if f.slots[t.fact].bits == 0 {
			out = append(out, b.facts[t.fact].Name)
		}
	}
	return out
}
