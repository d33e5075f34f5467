package rules

import "slices"

// Revise gives what Eval gives for facts of which some have another value than in
// those that a verdict was given on. It looks only at the rules that read these; say
// is what is done to each hit that is said anew. The verdict is left as it is.
func (b *Book) Revise(v Verdict, was, now *Facts, say func(*Hit)) Verdict {
	was, now = b.own(was), b.own(now)
	for _, i := range b.readersOf(was, now) {
		r := &b.ready[i]
		before, after := match(r.tests, yes, was.slots), match(r.tests, yes, now.slots)
		if before == no && after == no || before == yes && after == yes && !r.text.changed(was, now) {
			continue
		}
		if kind := b.rules[i].Effect.Kind; kind == Adjust || kind == Require || b.rules[i].Effect.Stops {
			return b.EvalWith(now, say) // what they add up to hangs on the others
		}
		if list := b.listOf(&v, i, before); list != nil {
			*list = b.without(*list, i)
		}
		if list := b.listOf(&v, i, after); list != nil {
			*list = b.with(*list, i, now, after, say)
		}
	}
	return v
}

// EvalWith is Eval with something done to each hit.
func (b *Book) EvalWith(f *Facts, say func(*Hit)) Verdict {
	v := b.Eval(f)
	for _, list := range [][]Hit{v.Excluded, v.Safety, v.Install, v.For, v.Against, v.Depends} {
		for i := range list {
			say(&list[i])
		}
	}
	for i := range v.Require {
		say(&v.Require[i].Hit)
	}
	return v
}

// readersOf are the rules that test or name a fact that has another value, in order.
func (b *Book) readersOf(was, now *Facts) []int {
	var out []int
	for fact, readers := range b.readers {
		if was.slots[fact] != now.slots[fact] {
			out = append(out, readers...)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// newReaders lists the rules that test or name each fact.
func (b *Book) newReaders() [][]int {
	out := make([][]int, len(b.facts))
	for i, r := range b.ready {
		for _, t := range r.tests {
			out[t.fact] = append(out[t.fact], i)
		}
		for _, p := range r.text.parts {
			if p.fact >= 0 {
				out[p.fact] = append(out[p.fact], i)
			}
		}
	}
	return out
}

// changed reports whether a text names a fact that has another value.
func (t *template) changed(was, now *Facts) bool {
	return t.facts && slices.ContainsFunc(t.parts, func(p part) bool { return p.fact >= 0 && was.slots[p.fact] != now.slots[p.fact] })
}

// listOf is the list of a verdict in which a rule stands; nil for none.
func (b *Book) listOf(v *Verdict, i int, state truth) *[]Hit {
	switch {
	case state == no:
		return nil
	case state == undecided && !b.ready[i].safety:
		return &v.Depends
	}
	switch b.rules[i].Effect.Kind {
	case Exclude:
		return &v.Excluded
	case Safety:
		return &v.Safety
	case Install:
		return &v.Install
	case For:
		return &v.For
	}
	return &v.Against
}

// without is a list without a rule, nil when nothing is left.
func (b *Book) without(list []Hit, i int) []Hit {
	list = slices.DeleteFunc(slices.Clone(list), func(h Hit) bool { return h.Rule == &b.rules[i] })
	if len(list) == 0 {
		return nil
	}
	return list
}

// with is a list with a rule at its place.
func (b *Book) with(list []Hit, i int, f *Facts, state truth, say func(*Hit)) []Hit {
	var h Hit
	b.say(&h, i, f, state)
	say(&h)
	at := slices.IndexFunc(list, func(other Hit) bool { return b.byID[other.Rule.ID] > i })
	if at < 0 {
		at = len(list)
	}
	return slices.Concat(list[:at], []Hit{h}, list[at:])
}
