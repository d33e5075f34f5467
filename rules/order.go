package rules

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"sort"
	"strings"
)

// factsPerRound is how many sets of facts each shuffled book is tried on.
const factsPerRound = 32

// OrderIndependence shuffles the rules the given number of times, builds the
// book anew each time and compares the verdicts on facts drawn from the cells
// of the book, unknown among them. The caller passes the generator, so that a
// seed repeats the check.
func (b *Book) OrderIndependence(rng *rand.Rand, rounds int) []Finding {
	if rng == nil || rounds <= 0 {
		return []Finding{found("", NotProved, "order of rules: no generator or no rounds given")}
	}
	g := b.grid()
	for round := range rounds {
		shuffled := slices.Clone(b.rules)
		rng.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		other, err := NewBook(b.facts, shuffled, func(x *Book) { x.options = b.options })
		if err != nil {
			return []Finding{found("", OrderMatters, "round %d: %v", round+1, err)}
		}
		for range factsPerRound {
			f := g.draw(rng)
			if x, y := b.Eval(f).signature(), other.Eval(f).signature(); x != y {
				return []Finding{found("", OrderMatters, "round %d: %s against %s", round+1, x, y)}
			}
		}
	}
	return nil
}

// draw picks a cell of each fact, one time in five unknown.
func (g *grid) draw(rng *rand.Rand) *Facts {
	f := g.book.NewFacts()
	for i, d := range g.dims {
		if rng.IntN(5) > 0 {
			f.slots[i] = g.sample(i, rng.IntN(d.cells))
		}
	}
	return f
}

// signature writes a verdict as one line, the same for equal verdicts.
func (v Verdict) signature() string {
	var out strings.Builder
	lists := []struct {
		name string
		hits []Hit
	}{
		{"excluded", v.Excluded},
		{"safety", v.Safety},
		{"install", v.Install},
		{"for", v.For},
		{"against", v.Against},
		{"depends", v.Depends},
	}
	for _, l := range lists {
		fmt.Fprintf(&out, "%s[", l.name)
		for _, h := range l.hits {
			fmt.Fprintf(&out, "%s %q %q;", h.Rule.ID, h.Text, h.Unknown)
		}
		out.WriteString("] ")
	}
	for _, n := range v.Require {
		fmt.Fprintf(&out, "need %q %q by %s; ", n.Need, n.Value, n.Hit.Rule.ID)
	}
	names := make([]string, 0, len(v.Adjust))
	for name := range v.Adjust {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		fmt.Fprintf(&out, "%s %v; ", name, v.Adjust[name])
	}
	fmt.Fprintf(&out, "stopped %v %v", v.Stopped, v.MayStop)
	return out.String()
}
