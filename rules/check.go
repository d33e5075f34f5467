package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// ruleProblems checks one rule on its own and makes it ready.
func (b *Book) ruleProblems(r *Rule, out *ready) []error {
	tests, errs := b.compileAll(r.When)
	if len(r.When) == 0 {
		errs = append(errs, fmt.Errorf("%w: no condition; a rule that always fires has no counter-example", ErrCondition))
	}
	out.tests = tests
	out.safety = r.Effect.Kind == Safety
	var err error
	if out.text, err = b.parse(r.Reason); err != nil {
		errs = append(errs, err)
	}
	errs = append(errs, r.Effect.problems()...)
	if !strings.Contains(r.Reason, r.Effect.Call) {
		errs = append(errs, fmt.Errorf("%w: the reason does not say to call %s", ErrEffect, r.Effect.Call))
	}
	errs = append(errs, r.groundProblems()...)
	return append(errs, b.exampleProblems(r)...)
}

func (b *Book) compileAll(when []Atom) ([]test, []error) {
	var tests []test
	var errs []error
	for i, a := range when {
		t, err := b.compile(a)
		if err != nil {
			errs = append(errs, fmt.Errorf("condition %d: %w", i+1, err))
			continue
		}
		tests = append(tests, t)
	}
	return tests, errs
}

// problems refuses parts that belong to another kind, because they would be
// dropped without a word.
func (e Effect) problems() []error {
	var errs []error
	bad := func(wrong bool, format string, args ...any) {
		if wrong {
			errs = append(errs, fmt.Errorf("%w: %s: %s", ErrEffect, e.Kind, fmt.Sprintf(format, args...)))
		}
	}
	kinds := []EffectKind{Exclude, Adjust, Require, Safety, Install, For, Against}
	if !slices.Contains(kinds, e.Kind) {
		bad(true, "no such kind; want one of %q", kinds)
		return errs
	}
	adjust, require, safety := e.Kind == Adjust, e.Kind == Require, e.Kind == Safety
	bad(adjust && e.Criterion == "", "no criterion")
	bad(adjust && e.Group == "", "no group, so the same cause could be counted twice")
	bad(adjust && (math.IsNaN(e.Delta) || math.Abs(e.Delta) > 1 || e.Delta == 0), "delta %v; want -1 to 1 and not 0", e.Delta)
	bad(!adjust && e.Delta != 0, "delta %v belongs to adjust", e.Delta)
	bad(!adjust && e.Kind != Exclude && e.Group != "", "group %q belongs to adjust or exclude", e.Group)
	bad(!adjust && e.Kind != For && e.Kind != Against && e.Criterion != "", "criterion %q belongs to adjust, for or against", e.Criterion)
	bad(require && e.Need == "", "no need named")
	bad(!require && !safety && e.Need+e.NeedValue != "", "need %q %q belongs to require or safety", e.Need, e.NeedValue)
	bad(safety && e.Severity < 1, "severity %d; want 1 or more", e.Severity)
	bad(!safety && e.Severity != 0, "severity %d belongs to safety", e.Severity)
	bad(!safety && e.Stops, "only a safety rule stops a plan")
	bad(!e.Stops && e.Spreads, "only what stops a plan spreads")
	bad((!safety || e.Stops) && e.AsksFirst, "only a safety rule that does not stop a plan asks first")
	bad((!safety || e.Stops || e.AsksFirst) && e.SettleFirst, "only a safety rule that neither stops a plan nor asks first is settled before work begins")
	bad(!e.Stops && e.Call != "", "call %q belongs to what stops a plan", e.Call)
	return errs
}

// groundProblems asks for a source, and for one that can carry the rule: what
// takes a choice away or warns of danger must not rest on memory alone.
func (r *Rule) groundProblems() []error {
	var errs []error
	if strings.TrimSpace(r.Source) == "" || r.Known == "" {
		errs = append(errs, fmt.Errorf("%w: source %q, known %q; want both", ErrGround, r.Source, r.Known))
	}
	hard := r.Effect.Kind == Exclude || r.Effect.Kind == Safety
	if hard && (r.Known == "memory" || r.Known == "invented") {
		errs = append(errs, fmt.Errorf("%w: %s rests on %q alone; want a published or practice ground", ErrGround, r.Effect.Kind, r.Known))
	}
	return errs
}

// exampleProblems checks that the examples exist and can be run; whether they
// hold is the work of RunExamples.
func (b *Book) exampleProblems(r *Rule) []error {
	var errs []error
	var fires, silent bool
	for i, x := range r.Examples {
		fires = fires || x.Fires
		silent = silent || !x.Fires
		for _, name := range sortedNames(x.Facts) {
			n, ok := b.index[name]
			if !ok {
				errs = append(errs, fmt.Errorf("example %d: %w: %q", i+1, ErrUnknownFact, name))
				continue
			}
			if _, err := b.facts[n].pack(x.Facts[name]); err != nil {
				errs = append(errs, fmt.Errorf("example %d: %w", i+1, err))
			}
		}
	}
	if !fires || !silent {
		errs = append(errs, fmt.Errorf("%w: want at least one that fires and one that does not", ErrExample))
	}
	return errs
}

// sortedNames keeps messages the same from run to run.
func sortedNames(m map[string]Value) []string {
	out := make([]string, 0, len(m))
	for name := range m {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

// overrideProblems checks Overrides once all ids are known.
func (b *Book) overrideProblems() []error {
	var errs []error
	for i := range b.rules {
		r := &b.rules[i]
		for _, id := range r.Overrides {
			j, ok := b.byID[id]
			switch {
			case !ok:
				errs = append(errs, fmt.Errorf("rule %s: %w: no rule %q", r.ID, ErrOverride, id))
			case b.rules[j].Effect.Kind == Safety || b.rules[j].Effect.Kind == Exclude:
				errs = append(errs, fmt.Errorf("rule %s: %w: %s is %s, which is never silenced", r.ID, ErrOverride, id, b.rules[j].Effect.Kind))
			case b.reaches(j, i):
				errs = append(errs, fmt.Errorf("rule %s: %w: %s overrides it back, so both would be silent", r.ID, ErrOverride, id))
			}
		}
	}
	return errs
}

// reaches reports whether following Overrides from one rule leads to the other.
func (b *Book) reaches(from, to int) bool {
	seen := make([]bool, len(b.rules))
	todo := []int{from}
	for len(todo) > 0 {
		i := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if i == to {
			return true
		}
		if seen[i] {
			continue
		}
		seen[i] = true
		for _, id := range b.rules[i].Overrides {
			if j, ok := b.byID[id]; ok {
				todo = append(todo, j)
			}
		}
	}
	return false
}
