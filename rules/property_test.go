package rules

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"
	"testing/quick"

	"github.com/stretchr/testify/require"
)

// randomPoint knows each fact four times in five; numbers lie on thresholds,
// beside them and right next to them.
func randomPoint(rng *rand.Rand) point {
	p := point{}
	for _, f := range smallFacts() {
		if rng.IntN(5) == 0 {
			continue
		}
		switch f.Type {
		case Enum:
			p[f.Name] = Text(f.Values[rng.IntN(len(f.Values))])
		case Boolean:
			p[f.Name] = Bool(rng.IntN(2) == 0)
		default:
			v := float64(rng.IntN(11)) / 2
			p[f.Name] = Number([]float64{v, min(above(v), f.Max), max(below(v), f.Min)}[rng.IntN(3)])
		}
	}
	return p
}

// said writes a verdict the way the slow engine does.
func said(v Verdict) []string {
	var out []string
	add := func(kind EffectKind, hits []Hit) {
		for _, h := range hits {
			k := kind
			if h.Rule.Effect.Kind == Adjust && kind != "depends" {
				k = Adjust
			}
			out = append(out, fmt.Sprintf("%s %s", k, h.Rule.ID))
		}
	}
	add(Exclude, v.Excluded)
	add(Safety, v.Safety)
	add(Install, v.Install)
	add(For, v.For)
	add(Against, v.Against)
	add("depends", v.Depends)
	slices.Sort(out)
	return out
}

func TestVerdictAgreesWithSlowEngine(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 400 {
		list := randomRules(rng, 3+rng.IntN(12))
		b := newBook(t, smallFacts(), list)
		for range 25 {
			p := randomPoint(rng)
			v := b.Eval(factsOf(t, b, p))
			want, sums := naiveVerdict(list, p)
			needs := map[string]bool{}
			want = slices.DeleteFunc(want, func(s string) bool {
				var id string
				if n, _ := fmt.Sscanf(s, "require %s", &id); n == 0 {
					return false
				}
				r, _ := b.Rule(id)
				needs[r.Effect.Need+"="+r.Effect.NeedValue] = true
				return true
			})
			require.Equal(t, len(want), len(said(v)), "%v at %v", list, p)
			require.ElementsMatch(t, want, said(v), "%v at %v", list, p)
			require.Len(t, v.Require, len(needs))
			for _, n := range v.Require {
				require.True(t, needs[n.Need+"="+n.Value])
			}
			require.Len(t, v.Adjust, len(sums))
			for criterion, sum := range sums {
				require.InDelta(t, min(max(sum, -1), 1), v.Adjust[criterion], 1e-12)
			}
		}
	}
}

// Learning a fact never brings up a danger that was not warned of before, never
// takes an exclusion back, and leaves nothing open when all is known.
func TestMoreKnowledgeNeverSurprises(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 400 {
		b := newBook(t, smallFacts(), randomRules(rng, 4+rng.IntN(10)))
		full := rng.IntN(len(allPoints()))
		known := allPoints()[full]
		part := point{}
		for name, v := range known {
			if rng.IntN(2) == 0 {
				part[name] = v
			}
		}
		before, after := b.Eval(factsOf(t, b, part)), b.Eval(factsOf(t, b, known))
		require.Subset(t, ids(before.Safety), ids(after.Safety))
		require.Subset(t, ids(after.Excluded), ids(before.Excluded))
		require.Subset(t, append(ids(before.Excluded), ids(before.Depends)...), ids(after.Excluded))
		require.Empty(t, after.Depends)
		require.False(t, after.MayStop)
		if after.Stopped {
			require.True(t, before.Stopped || before.MayStop)
		}
		for _, h := range after.Safety {
			require.Empty(t, h.Unknown)
		}
	}
}

// A hit in Depends names exactly the facts whose values are missing.
func TestDependsNamesWhatIsMissing(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for range 300 {
		b := newBook(t, smallFacts(), randomRules(rng, 8))
		p := randomPoint(rng)
		v := b.Eval(factsOf(t, b, p))
		for _, h := range append(v.Depends, v.Safety...) {
			var want []string
			for _, f := range smallFacts() {
				if h.Rule.Where[f.Name] != nil && !p[f.Name].Known() {
					want = append(want, f.Name)
				}
			}
			require.Equal(t, want, h.Unknown)
		}
	}
}

// The order of the rules in the files does not show in a verdict.
func TestOrderOfRulesDoesNotShow(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	for range 100 {
		list := randomRules(rng, 10)
		b := newBook(t, smallFacts(), list)
		rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		other := newBook(t, smallFacts(), list)
		for range 32 {
			p := randomPoint(rng)
			require.Equal(t, b.Eval(factsOf(t, b, p)), other.Eval(factsOf(t, other, p)))
		}
	}
}

// Any number at all is either taken as it is or refused, and a threshold parts
// the numbers exactly at its own value.
func TestNumbersPartExactly(t *testing.T) {
	facts := []Fact{{Name: "n", Type: Numeric, Min: -1e6, Max: 1e6}}
	check := func(x, y float64, near bool) bool {
		limit := math.Mod(y, 1e6)
		v := x
		if near {
			v = []float64{limit, above(limit), below(limit)}[int(math.Float64bits(x)%3)]
		}
		b, err := NewBook(facts, []Rule{
			rule("eq", Effect{Kind: Install}, Where{"n": limit}),
			rule("lt", Effect{Kind: Install}, num("n", "below", limit)), rule("le", Effect{Kind: Install}, num("n", "at_most", limit)),
			rule("gt", Effect{Kind: Install}, num("n", "above", limit)), rule("ge", Effect{Kind: Install}, num("n", "at_least", limit)),
		})
		if err != nil {
			return math.IsNaN(limit)
		}
		f := b.NewFacts()
		if err := f.Set("n", Number(v)); err != nil {
			return !(v >= -1e6 && v <= 1e6) && !f.Get("n").Known()
		}
		want := map[string]bool{"eq": v == limit, "lt": v < limit, "le": v <= limit, "gt": v > limit, "ge": v >= limit}
		got := ids(b.Eval(f).Install)
		for id, ok := range want {
			if slices.Contains(got, id) != ok {
				return false
			}
		}
		return f.Get("n") == Number(v)
	}
	require.NoError(t, quick.Check(check, &quick.Config{MaxCount: 500}))
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, math.Copysign(0, -1), 1e6, -1e6} {
		require.True(t, check(v, 1, false), v)
		require.True(t, check(1, v, true), v)
	}
}

// Facts at the largest range a float64 has still get cells and witnesses.
func TestHugeRange(t *testing.T) {
	b := newBook(t, []Fact{{Name: "n", Type: Numeric, Min: -math.MaxFloat64, Max: math.MaxFloat64}},
		[]Rule{rule("r", Effect{Kind: Install}, num("n", "at_least", -math.MaxFloat64)), rule("s", Effect{Kind: For}, num("n", "below", 0))})
	require.Contains(t, kinds(b.Prove()), Redundant)
	require.NotContains(t, kinds(b.Prove()), Dead)
	list := b.CheckObligations([]Obligation{{ID: "o", Effect: For}})
	require.Len(t, list, 1)
	require.NotContains(t, list[0].Text, "Inf")
	// Between two neighbouring numbers there is nothing, so nothing is missing.
	b = newBook(t, []Fact{{Name: "n", Type: Numeric, Min: 0, Max: 1}},
		[]Rule{rule("a", Effect{Kind: For}, num("n", "at_most", 0.5)), rule("b", Effect{Kind: For}, num("n", "at_least", above(0.5)))})
	require.Empty(t, b.CheckObligations([]Obligation{{ID: "o", Effect: For}}))
}

// A book is shared by goroutines; the race detector watches.
func TestBookIsShared(t *testing.T) {
	b := newBook(t, smallFacts(), randomRules(rand.New(rand.NewPCG(15, 16)), 20))
	want := b.Eval(b.NewFacts())
	got := make([]Verdict, 4)
	var wait sync.WaitGroup
	for i := range got {
		wait.Go(func() {
			b.Prove()
			got[i] = b.Eval(b.NewFacts())
		})
	}
	wait.Wait()
	for _, v := range got {
		require.Equal(t, want, v)
	}
}
