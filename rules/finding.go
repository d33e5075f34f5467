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
	Dead          FindingKind = "dead"          // the rule can never fire or never be heard
	Contradiction FindingKind = "contradiction" // two rules say what cannot both be
	RedundantAtom FindingKind = "redundant"     // a condition that changes nothing
	Shadowed      FindingKind = "shadowed"      // another rule always does the same
	OrderMatters  FindingKind = "order"         // the verdict hangs on the order of rules
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

func found(rule string, kind FindingKind, format string, args ...any) Finding {
	return Finding{Rule: rule, Kind: kind, Text: fmt.Sprintf(format, args...)}
}

func hard(rule, what string) Finding {
	return found(rule, NotProved, "%s: too many cases to decide", what)
}

// Prove runs every proof that needs nothing but the book: Dead, Contradictions,
// RedundantAtoms, Shadowed and RunExamples.
func (b *Book) Prove() []Finding {
	return slices.Concat(b.Dead(), b.Contradictions(), b.RedundantAtoms(), b.Shadowed(), b.RunExamples())
}

// witness describes a point of a box that is not empty by the facts it narrows.
func (g *grid) witness(x box) string {
	var out []string
	for i, d := range g.dims {
		if slices.Equal(x[d.off:d.off+d.words()], g.full[d.off:d.off+d.words()]) {
			continue
		}
		cells := g.cellsOf(x, i)
		if len(cells) == 0 {
			return "nothing"
		}
		f := g.book.facts[i]
		out = append(out, fmt.Sprintf("%s = %v", f.Name, f.unpack(g.sample(i, cells[0]))))
	}
	if len(out) == 0 {
		return "any facts"
	}
	return strings.Join(out, ", ")
}

// sample returns a value of a cell, for numbers one from the middle.
func (g *grid) sample(fact, cell int) slot {
	d := g.dims[fact]
	if d.starts == nil {
		return slot{bit: 1 << cell}
	}
	lo, hi := d.starts[cell], g.end(fact, cell)
	mid := lo/2 + hi/2
	if mid < lo || mid > hi { // halving very small numbers can lose the last bit
		mid = lo
	}
	return slot{num: mid, bit: 1}
}
