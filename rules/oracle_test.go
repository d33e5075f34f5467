package rules

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// oracle decides every proof by visiting all points of the small facts.
type oracle struct {
	rules      []Rule
	points     []point
	fires      [][]bool // rule, point
	impossible []bool
}

func newOracle(list []Rule, points []point, never []Where) *oracle {
	o := &oracle{rules: list, points: points, impossible: make([]bool, len(points))}
	for k, p := range points {
		for _, when := range never {
			o.impossible[k] = o.impossible[k] || naiveAll(when, p) == yes
		}
	}
	for _, r := range list {
		row := make([]bool, len(points))
		for k, p := range points {
			row[k] = naiveAll(r.Where, p) == yes
		}
		o.fires = append(o.fires, row)
	}
	return o
}

func (o *oracle) heard(i, k int) bool { return o.fires[i][k] && !o.impossible[k] }

// some reports whether a point passes.
func (o *oracle) some(pass func(k int) bool) bool {
	for k := range o.points {
		if pass(k) {
			return true
		}
	}
	return false
}

func (o *oracle) excluded(k int) bool {
	for i, r := range o.rules {
		if r.Effect.Kind == Exclude && o.fires[i][k] {
			return true
		}
	}
	return false
}

func (o *oracle) dead(i int) bool { return !o.some(func(k int) bool { return o.heard(i, k) }) }

// redundant reports whether a fact, or one of two ends asked of it, could be
// left out.
func (o *oracle) redundant(i int, name string) bool {
	same := func(without any) bool {
		rest := maps.Clone(o.rules[i].Where)
		delete(rest, name)
		if without != nil {
			rest[name] = without
		}
		return !o.some(func(k int) bool { return (naiveAll(rest, o.points[k]) == yes) != o.fires[i][k] })
	}
	ends, _ := o.rules[i].Where[name].(map[string]any)
	for end := range ends {
		less := maps.Clone(ends)
		delete(less, end)
		if len(less) > 0 && same(less) {
			return true
		}
	}
	return same(nil)
}

// findings lists what the proofs must say, as "kind id" or "kind id id".
func (o *oracle) findings() []string {
	var out []string
	add := func(ok bool, format string, args ...any) {
		if ok {
			out = append(out, fmt.Sprintf(format, args...))
		}
	}
	for i, r := range o.rules {
		add(o.dead(i), "dead %s", r.ID)
		for name := range r.Where {
			add(o.redundant(i, name), "redundant %s", r.ID)
		}
		add(o.shadowed(i), "shadowed %s", r.ID)
		add(o.praisesExcluded(i), "contradiction %s alone", r.ID)
		for j := range o.rules {
			add(o.before(i, j) && o.clashes(i, j), "contradiction %s %s", r.ID, o.rules[j].ID)
		}
	}
	slices.Sort(out)
	return out
}

// before tells which rule of a pair the proof names first.
func (o *oracle) before(i, j int) bool { return hitOrder(&o.rules[i], &o.rules[j]) < 0 }

func (o *oracle) clashes(i, j int) bool {
	x, y := o.rules[i].Effect, o.rules[j].Effect
	needs := x.Kind == Require && y.Kind == Require && x.Need == y.Need && x.NeedValue != y.NeedValue
	twice := x.Kind == Adjust && y.Kind == Adjust && x.Criterion == y.Criterion && x.Group == y.Group
	return (needs || twice) && o.some(func(k int) bool { return o.heard(i, k) && o.heard(j, k) })
}

func (o *oracle) praisesExcluded(i int) bool {
	e := o.rules[i].Effect
	praise := e.Kind == For || e.Kind == Adjust && e.Delta > 0 || e.Kind == Require
	return praise && !o.dead(i) && !o.some(func(k int) bool { return o.heard(i, k) && !o.excluded(k) })
}

func (o *oracle) shadowed(i int) bool {
	live := func(i, k int) bool { return o.fires[i][k] && !o.impossible[k] }
	if !o.some(func(k int) bool { return live(i, k) }) {
		return false
	}
	for j := range o.rules {
		a, b := o.rules[i], o.rules[j]
		if i == j || !sameDoing(a, b) {
			continue
		}
		in := !o.some(func(k int) bool { return live(i, k) && !o.fires[j][k] })
		back := !o.some(func(k int) bool { return live(j, k) && !o.fires[i][k] })
		if in && (!back || o.before(j, i)) {
			return true
		}
	}
	return false
}

func sameDoing(a, b Rule) bool {
	x, y := a.Effect, b.Effect
	x.Order, y.Order = 0, 0
	if x != y {
		return false
	}
	silent := x.Kind == Exclude || x.Kind == Adjust || x.Kind == Require
	return silent || a.Reason == b.Reason
}

// proved turns the findings of the book into the words of the oracle.
func proved(t *testing.T, b *Book) []string {
	t.Helper()
	var out []string
	for _, f := range b.Prove() {
		if f.Kind == BadExample {
			continue
		}
		require.NotEqual(t, NotProved, f.Kind)
		line := fmt.Sprintf("%s %s", f.Kind, f.Rule)
		if f.Kind == Contradiction {
			line += " alone"
			if rest, ok := strings.CutPrefix(f.Text, "with "); ok {
				line = fmt.Sprintf("%s %s %s", f.Kind, f.Rule, rest[:strings.Index(rest, ":")])
			}
		}
		out = append(out, line)
	}
	slices.Sort(out)
	return out
}

func randomNever(rng *rand.Rand) (never []Where) {
	for range rng.IntN(3) {
		never = append(never, randomWhere(rng, 3))
	}
	return never
}

// The proofs on boxes and the enumeration of all points must agree, book after
// book, and every kind of finding must turn up often enough to be tried.
func TestProofsAgreeWithEnumeration(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	points := allPoints()
	seen := map[string]int{}
	for round := range 900 {
		list := randomRules(rng, 2+rng.IntN(6))
		never := randomNever(rng)
		b := newBook(t, smallFacts(), list, never...)
		want := newOracle(list, points, never).findings()
		got := proved(t, b)
		require.Equal(t, want, got, "round %d: %+v never %v", round, list, never)
		for _, f := range got {
			kind, _, _ := strings.Cut(f, " ")
			seen[kind]++
		}
	}
	for _, kind := range []FindingKind{Dead, Redundant, Shadowed, Contradiction} {
		require.Greater(t, seen[string(kind)], 60, kind)
	}
}

func TestObligationsAgreeWithEnumeration(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	points := allPoints()
	seen := map[FindingKind]int{}
	for range 700 {
		list := randomRules(rng, 3+rng.IntN(8))
		never := randomNever(rng)
		b := newBook(t, smallFacts(), list, never...)
		o := newOracle(list, points, never)
		ask := Obligation{ID: "o", Where: randomWhere(rng, 3), Effect: list[rng.IntN(len(list))].Effect.Kind}
		if rng.IntN(2) == 0 {
			ask.Rule = list[0].ID
			ask.Effect = list[0].Effect.Kind
			ask.Where = maps.Clone(list[0].Where)
			maps.Copy(ask.Where, randomWhere(rng, 1))
		}
		want := FindingKind("")
		region := func(k int) bool { return !o.impossible[k] && naiveAll(ask.Where, o.points[k]) == yes }
		if !o.some(region) {
			want = BadQuestion
		} else if o.some(func(k int) bool { return region(k) && !o.metAt(ask, k) }) {
			want = Unmet
		}
		got := FindingKind("")
		if f := b.CheckObligations([]Obligation{ask}); len(f) > 0 {
			require.Len(t, f, 1)
			got = f[0].Kind
		}
		require.Equal(t, want, got, "%+v %+v", ask, list)
		seen[got]++
	}
	for _, kind := range []FindingKind{"", Unmet, BadQuestion} {
		require.Greater(t, seen[kind], 50, "%q", kind)
	}
}

func (o *oracle) metAt(ask Obligation, k int) bool {
	for i, r := range o.rules {
		if r.Effect.Kind == ask.Effect && strings.HasPrefix(r.ID, ask.Rule) && o.heard(i, k) {
			return true
		}
	}
	return false
}
