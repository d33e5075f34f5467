package rules

// ExampleRun tells what the examples of one rule cover.
type ExampleRun struct {
	Rule          string
	Fired, Silent int // examples that came out as firing and as not
	// Untested lists the conditions (numbers in Rule.When) that no example
	// tries alone: no example fails because of this condition and no other, so
	// it could be dropped and all examples would still hold.
	Untested []int
}

// Fires reports whether the condition of a rule holds for the facts: all of it
// true, or, for a safety rule, nothing of it false. Overrides do not count.
// It returns false for a rule of another book.
func (b *Book) Fires(r *Rule, f *Facts) bool {
	i, ok := b.place(r)
	return ok && b.ready[i].fires(b.own(f).slots)
}

// RunExamples runs the examples of every rule and reports those that do not
// come out as they say.
func (b *Book) RunExamples() []Finding {
	var out []Finding
	for i := range b.rules {
		for k, x := range b.rules[i].Examples {
			if fired := b.ready[i].fires(b.exampleFacts(x).slots); fired != x.Fires {
				out = append(out, found(b.rules[i].ID, BadExample, "example %d: fires is %v, the rule says %v", k+1, x.Fires, fired))
			}
		}
	}
	return out
}

// ExampleCoverage reports, rule by rule, which examples ran and which
// conditions they leave untried.
func (b *Book) ExampleCoverage() []ExampleRun {
	out := make([]ExampleRun, 0, len(b.rules))
	for i := range b.rules {
		run := ExampleRun{Rule: b.rules[i].ID}
		tests := b.ready[i].tests
		tried := make([]bool, len(tests))
		for _, x := range b.rules[i].Examples {
			f := b.exampleFacts(x)
			if b.ready[i].fires(f.slots) {
				run.Fired++
				continue
			}
			run.Silent++
			if k, ok := onlyFalse(tests, f.slots); ok {
				tried[k] = true
			}
		}
		for k, ok := range tried {
			if !ok {
				run.Untested = append(run.Untested, k)
			}
		}
		out = append(out, run)
	}
	return out
}

// exampleFacts cannot fail: NewBook packed the same values.
func (b *Book) exampleFacts(x Example) *Facts {
	f := b.NewFacts()
	for name, v := range x.Facts {
		_ = f.Set(name, v)
	}
	return f
}

// onlyFalse finds the single condition that keeps a rule from firing.
func onlyFalse(tests []test, slots []slot) (int, bool) {
	at, n := -1, 0
	for k := range tests {
		if tests[k].on(slots[tests[k].fact]) != yes {
			at, n = k, n+1
		}
	}
	return at, n == 1
}
