package rules

import (
	"fmt"
	"slices"
	"strings"
)

// FindingKind says what a proof found.
type FindingKind string

// The kinds of finding.
const (
	Dead          FindingKind = "dead"          // the rule can never fire
	Contradiction FindingKind = "contradiction" // two rules say what cannot both be
	Redundant     FindingKind = "redundant"     // a condition that changes nothing
	Shadowed      FindingKind = "shadowed"      // another rule always does the same
	NoReason      FindingKind = "no reason"     // a place and material without a reason for or against
	NoOption      FindingKind = "no option"     // every material is out and nothing says so
	Unmet         FindingKind = "unmet"         // an obligation does not hold everywhere
	BadExample    FindingKind = "example"       // an example does not come out as it says
	BadQuestion   FindingKind = "question"      // the proof itself was asked for something undeclared
	NotProved     FindingKind = "not proved"    // the limit of the proof was reached
)

// Finding is one result of a proof. Rule is the id of the rule or obligation
// concerned, empty when it is about the book.
type Finding struct {
	Rule string
	Kind FindingKind
	Text string
}

// String shows the finding on one line.
func (f Finding) String() string {
	if f.Rule == "" {
		return fmt.Sprintf("%s: %s", f.Kind, f.Text)
	}
	return fmt.Sprintf("%s: %s: %s", f.Rule, f.Kind, f.Text)
}

// prover gathers findings about the boxes of a book.
type prover struct {
	*Book
	boxes []box // of each rule, in the order of the rules
	found []Finding
}

func (b *Book) prover() *prover {
	p := &prover{Book: b}
	for i := range b.ready {
		p.boxes = append(p.boxes, b.box(b.ready[i].tests))
	}
	return p
}

// box is where all tests hold.
func (b *Book) box(tests []test) box {
	out := make(box, len(b.facts))
	for i, f := range b.facts {
		out[i] = f.all()
	}
	for _, t := range tests {
		out[t.fact] = t.span
	}
	return out
}

func (p *prover) add(rule string, kind FindingKind, format string, args ...any) {
	p.found = append(p.found, Finding{rule, kind, fmt.Sprintf(format, args...)})
}

// hole proves that some facts of a region lie in none of the boxes, nor in an
// impossible one, and names them.
func (p *prover) hole(about string, region box, by ...box) (string, bool) {
	at, ok := p.search(about, region, by)
	if !ok || at == nil {
		return "", false
	}
	return p.witness(at), true
}

// covered proves that there are no such facts.
func (p *prover) covered(about string, region box, by ...box) bool {
	at, ok := p.search(about, region, by)
	return ok && at == nil
}

func (p *prover) search(about string, region box, by []box) (box, bool) {
	steps := p.maxSteps
	at, ok := hole(region, slices.Concat(p.impossible, by), &steps)
	if !ok {
		p.add(about, NotProved, "too many cases to decide")
	}
	return at, ok
}

// witness describes a point of a box by the facts it narrows; of a number it
// names one from the middle.
func (b *Book) witness(x box) string {
	var out []string
	for i, f := range b.facts {
		s := x[i]
		if s == f.all() {
			continue
		}
		out = append(out, fmt.Sprintf("%s = %v", f.Name, f.unpack(slot{num: s.lo/2 + s.hi/2, bits: s.bits & -s.bits})))
	}
	if len(out) == 0 {
		return "any facts"
	}
	return strings.Join(out, ", ")
}

// Prove runs every proof that needs nothing but the book. It finds
//   - rules that never fire, because their facts are impossible together;
//   - pairs that cannot both hold where both are heard: two requires of one
//     need with different values, two adjusts of one criterion in one group
//     (the same cause counted twice); and what speaks for candidates that are
//     all excluded;
//   - conditions that rule nothing out;
//   - rules that add nothing, because another with the same effect and target
//     fires wherever they do; of two equal ones the later is named;
//   - examples that do not come out as they say.
func (b *Book) Prove() []Finding {
	p := b.prover()
	alive := make([]bool, len(b.rules))
	for i := range b.rules {
		alive[i] = !p.covered(b.rules[i].ID, p.boxes[i])
		if !alive[i] {
			p.add(b.rules[i].ID, Dead, "it fires only for facts declared impossible")
		}
	}
	for i := range b.rules {
		p.clashes(i)
		if alive[i] {
			p.praisesExcluded(i)
			p.shadowed(i)
		}
		p.redundant(i)
		p.examples(i)
	}
	return p.found
}

// clashes looks for later rules that must never be heard together with this.
func (p *prover) clashes(i int) {
	x := p.rules[i].Effect
	for j := i + 1; j < len(p.rules); j++ {
		y := p.rules[j].Effect
		what := ""
		switch {
		case x.Kind == Require && y.Kind == Require && x.Need == y.Need && x.NeedValue != y.NeedValue:
			what = "they ask for different " + x.Need
		case x.Kind == Adjust && y.Kind == Adjust && x.Criterion == y.Criterion && x.Group == y.Group:
			what = "they count group " + x.Group + " twice"
		default:
			continue
		}
		if at, ok := p.hole(p.rules[i].ID, p.boxes[i].meet(p.boxes[j])); ok {
			p.add(p.rules[i].ID, Contradiction, "with %s: %s at %s", p.rules[j].ID, what, at)
		}
	}
}

func (p *prover) praisesExcluded(i int) {
	e := p.rules[i].Effect
	if e.Kind != For && e.Kind != Require && !(e.Kind == Adjust && e.Delta > 0) {
		return
	}
	if p.covered(p.rules[i].ID, p.boxes[i], p.of(Exclude)...) {
		p.add(p.rules[i].ID, Contradiction, "it speaks only of candidates that are excluded")
	}
}

// of lists the boxes of the rules of a kind.
func (p *prover) of(kind EffectKind) []box {
	var out []box
	for i := range p.rules {
		if p.rules[i].Effect.Kind == kind {
			out = append(out, p.boxes[i])
		}
	}
	return out
}

// redundant finds what is asked of a fact that is always so, one of two ends of
// a number too.
func (p *prover) redundant(i int) {
	for _, t := range p.ready[i].tests {
		f := p.facts[t.fact]
		ends, _ := p.rules[i].Where[f.Name].(map[string]any)
		if t.span == f.all() || len(ends) == 2 && (t.lo == f.Min || t.hi == f.Max) {
			p.add(p.rules[i].ID, Redundant, "what it asks of %s is always so", f.Name)
		}
	}
}

// target is what a rule does, apart from when. Two rules with one target do
// the same thing. Notes are the same only when they say the same words, and
// excludes only on the same subject: each reason is worth showing.
func (r *Rule) target() (Effect, string) {
	e := r.Effect
	e.Order = 0
	switch e.Kind {
	case Safety, Install, For, Against:
		return e, r.Reason
	}
	return e, ""
}

func (p *prover) shadowed(i int) {
	effect, words := p.rules[i].target()
	for j := range p.rules {
		e, w := p.rules[j].target()
		if i == j || e != effect || w != words || !p.covered(p.rules[i].ID, p.boxes[i], p.boxes[j]) {
			continue
		}
		if i > j || !p.covered(p.rules[j].ID, p.boxes[j], p.boxes[i]) {
			p.add(p.rules[i].ID, Shadowed, "%s does the same for all its facts", p.rules[j].ID)
			return
		}
	}
}

func (p *prover) examples(i int) {
	try := func(key string, list []Case, fires bool, but string) {
		for k, x := range list {
			if p.ready[i].fires(x.facts(p.Book).slots) != fires {
				p.add(p.rules[i].ID, BadExample, "%s[%d]: %s", key, k+1, but)
			}
		}
	}
	try("fires_on", p.rules[i].FiresOn, true, "it stays silent")
	try("silent_on", p.rules[i].SilentOn, false, "it fires")
}

// Condition is what a rule asks of one fact.
type Condition struct{ Rule, Fact string }

// Untried lists the conditions that no example tries alone: no example is
// silent because of this condition and no other, so it could be dropped and
// all examples would still hold.
func (b *Book) Untried() []Condition {
	var out []Condition
	for i := range b.rules {
		tried := map[int]bool{}
		for _, x := range b.rules[i].SilentOn {
			var missed []int
			slots := x.facts(b).slots
			for _, t := range b.ready[i].tests {
				if t.on(slots[t.fact]) != yes {
					missed = append(missed, t.fact)
				}
			}
			if len(missed) == 1 {
				tried[missed[0]] = true
			}
		}
		for _, t := range b.ready[i].tests {
			if !tried[t.fact] {
				out = append(out, Condition{b.rules[i].ID, b.facts[t.fact].Name})
			}
		}
	}
	return out
}

// Obligation states what the book must do for all facts that satisfy Where: a
// rule with the effect must be heard and, when Rule is given, its id is that or
// begins with it.
type Obligation struct {
	ID     string     `toml:"id,required"`
	Where  Where      `toml:"where,required"`
	Effect EffectKind `toml:"effect,required"`
	Rule   string     `toml:"rule"`
	Rules  []string   `toml:"-"` // those that count, by id; nil for all
}

// CheckObligations proves that each obligation holds for all known facts that
// can occur: its region is covered by the boxes of the rules that meet it. With
// unknown facts the proof still holds for safety rules, which fire wherever
// they might apply.
func (b *Book) CheckObligations(list []Obligation) []Finding {
	p := b.prover()
	for _, o := range list {
		tests, problems := b.tests(o.Where)
		for _, x := range problems {
			p.add(o.ID, BadQuestion, "%v", x)
		}
		if len(problems) > 0 {
			continue
		}
		region := b.box(tests)
		if p.covered(o.ID, region) {
			p.add(o.ID, BadQuestion, "no facts satisfy its condition, so it asks for nothing")
			continue
		}
		var by []box
		for i, r := range b.rules {
			if r.Effect.Kind == o.Effect && strings.HasPrefix(r.ID, o.Rule) && (o.Rules == nil || slices.Contains(o.Rules, r.ID)) {
				by = append(by, p.boxes[i])
			}
		}
		if at, ok := p.hole(o.ID, region, by...); ok {
			p.add(o.ID, Unmet, "no %s at %s", strings.TrimSpace(string(o.Effect)+" rule "+o.Rule), at)
		}
	}
	return p.found
}
