package rules

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// coverage lists what Coverage must say, by visiting points.
func (o *oracle) coverage(places, materials []string) []string {
	var out []string
	for _, p := range places {
		for _, m := range materials {
			in := func(k int) bool {
				return o.points[k]["place"] == Text(p) && o.points[k]["material"] == Text(m) && !o.impossible[k]
			}
			out = append(out, o.reasons(p+" / "+m, in)...)
		}
		if o.losesAll(p, materials) {
			out = append(out, "no option "+p)
		}
	}
	slices.Sort(out)
	return out
}

func (o *oracle) reasons(name string, in func(int) bool) []string {
	if !o.some(in) {
		return nil
	}
	says := func(counts func(Effect) bool) bool {
		return o.some(func(k int) bool {
			for i, r := range o.rules {
				if in(k) && counts(r.Effect) && o.heard(i, k) {
					return true
				}
			}
			return false
		})
	}
	var out []string
	if !says(func(e Effect) bool { return e.Kind == Exclude || e.Kind == Against || e.Delta < 0 }) {
		out = append(out, "no reason "+name+" against")
	}
	left := o.some(func(k int) bool { return in(k) && !o.excluded(k) })
	if left && !says(func(e Effect) bool { return e.Kind == For || e.Delta > 0 }) {
		out = append(out, "no reason "+name+" for")
	}
	return out
}

// given names what a choice cannot change at a point.
func given(p point) string { return fmt.Sprint(p["place"], p["wet"], p["depth"]) }

func (o *oracle) losesAll(place string, materials []string) bool {
	kept := map[string]bool{}
	asked := func(k int) bool {
		m, _ := o.points[k]["material"].AsText()
		return o.points[k]["place"] == Text(place) && slices.Contains(materials, m) && !o.impossible[k]
	}
	for k, p := range o.points {
		if asked(k) && !o.excluded(k) {
			kept[given(p)] = true
		}
	}
	lost := func(k int) bool { return !kept[given(o.points[k])] }
	return o.some(func(k int) bool { return asked(k) && lost(k) && !o.saysNone(k, asked, lost) })
}

func (o *oracle) saysNone(k int, asked, lost func(int) bool) bool {
	for i, r := range o.rules {
		e := r.Effect
		if e.Kind == Safety && e.Stops && o.fires[i][k] {
			return true
		}
		onlyThere := !o.some(func(k int) bool { return asked(k) && o.fires[i][k] && !lost(k) })
		if e.Kind == Safety && o.fires[i][k] && onlyThere {
			return true
		}
	}
	return false
}

func coverageFound(t *testing.T, list []Finding) []string {
	t.Helper()
	var out []string
	for _, f := range list {
		require.Contains(t, []FindingKind{NoReason, NoOption}, f.Kind)
		cell, rest, _ := strings.Cut(f.Text, ":")
		line := string(f.Kind) + " " + cell
		if f.Kind == NoReason {
			line += " " + rest[strings.LastIndex(rest, " ")+1:]
		}
		out = append(out, line)
	}
	slices.Sort(out)
	return out
}

func TestCoverageAgreesWithEnumeration(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	points := allPoints()
	places, materials := []string{"p0", "p1", "p2"}, []string{"m0", "m1", "m2"}
	seen := map[string]int{}
	for round := range 250 {
		list := randomRules(rng, 6+rng.IntN(8))
		list = append(list, randomExcludes(rng, 4+rng.IntN(4))...)
		never := randomNever(rng)
		if rng.IntN(2) == 0 {
			never = append(never, Where{"material": "m0", "burns": false})
		}
		asked := materials[:1+rng.IntN(3)]
		b := newBook(t, smallFacts(), list, never...)
		want := newOracle(list, points, never).coverage(places, asked)
		got := coverageFound(t, b.Coverage(places, asked))
		require.Equal(t, want, got, "round %d: %+v never %v", round, list, never)
		for _, f := range got {
			seen[f[:len("no reason")]]++
		}
		if len(got) == 0 {
			seen["fine"]++
		}
	}
	require.Greater(t, seen["no reason"], 60)
	require.Greater(t, seen["no option"], 60)
}

// randomExcludes take much away, so that places do lose everything.
func randomExcludes(rng *rand.Rand, n int) []Rule {
	var out []Rule
	for i := range n {
		out = append(out, rule(fmt.Sprintf("x%d", i), Effect{Kind: Exclude}, randomWhere(rng, 2)))
	}
	return out
}

func chimneyRules() []Rule {
	out := rule("chimney-burns", Effect{Kind: Exclude}, is("place", "chimney"), holds("burns"))
	gap := rule("chimney-no-room", Effect{Kind: Exclude, Group: "room"}, is("place", "chimney"), num("depth_in", "below", 2))
	return []Rule{out, gap}
}

// A place may lose everything only if something says so, and a caution that
// fires all over the place does not say it.
func TestChimneyWithoutRoomMustBeSaid(t *testing.T) {
	profile := []Where{
		{"material": []any{"glass", "rock"}, "burns": true},
		{"material": "wool", "burns": false},
	}
	materials := []string{"glass", "rock", "wool"}
	options := func(more ...Rule) []string {
		var out []string
		for _, f := range newBook(t, houseFacts(), append(chimneyRules(), more...), profile...).Coverage([]string{"chimney"}, materials) {
			if f.Kind == NoOption {
				out = append(out, f.Text)
			}
		}
		return out
	}
	require.Len(t, options(), 1)
	require.Contains(t, options()[0], "depth_in = 1")
	chimney := is("place", "chimney")
	short := num("depth_in", "below", 2)
	require.Len(t, options(rule("gloves", Effect{Kind: Safety, Severity: 1}, chimney)), 1)
	require.Empty(t, options(rule("stop", Effect{Kind: Safety, Severity: 5, Stops: true}, chimney)))
	require.Empty(t, options(rule("tell", Effect{Kind: Safety, Severity: 2}, chimney, short)))
	require.Len(t, options(rule("half", Effect{Kind: Safety, Severity: 2}, chimney, num("depth_in", "below", 1))), 1)
	wool := newBook(t, houseFacts(), chimneyRules(), profile...).Coverage([]string{"chimney"}, []string{"wool"})
	require.Len(t, wool, 1, "wool is always out, so nothing for it is needed, but the place is lost")
	require.Equal(t, NoOption, wool[0].Kind)
}

// Where a caution fires for facts that do not occur is no matter.
func TestCautionBeyondWhatOccurs(t *testing.T) {
	chimney, wet := is("place", "chimney"), holds("wet")
	list := []Rule{
		rule("out", Effect{Kind: Exclude}, chimney, wet, num("depth_in", "below", 2)),
		rule("tell", Effect{Kind: Safety, Severity: 1}, chimney, wet),
	}
	count := func(never ...Where) int {
		n := 0
		for _, f := range newBook(t, houseFacts(), list, never...).Coverage([]string{"chimney"}, []string{"glass"}) {
			if f.Kind == NoOption {
				n++
			}
		}
		return n
	}
	require.Equal(t, 1, count(), "it fires in deep wet chimneys too, so it is about something else")
	require.Equal(t, 0, count(all(chimney, wet, num("depth_in", "at_least", 2))), "there are none")
}

func TestFactsOfTheChoiceAreNamed(t *testing.T) {
	facts := append(houseFacts(), Fact{Name: "facing", Type: Enum, Values: []string{"none", "kraft"}, From: "computed"})
	b := newBook(t, facts, []Rule{rule("faced", Effect{Kind: Exclude}, is("place", "chimney"), is("facing", "kraft"))})
	has := func(list []Finding) bool {
		return slices.ContainsFunc(list, func(f Finding) bool { return f.Kind == NoOption })
	}
	require.True(t, has(b.Coverage([]string{"chimney"}, []string{"glass"})), "a given facing takes everything away")
	require.False(t, has(b.Coverage([]string{"chimney"}, []string{"glass"}, "facing")), "a chosen one does not")
}

func TestCoverageOfThingsUndeclared(t *testing.T) {
	b := newBook(t, houseFacts(), chimneyRules())
	for _, list := range [][]Finding{
		b.Coverage([]string{"roof"}, []string{"glass"}), b.Coverage([]string{"attic"}, []string{"straw"}),
		b.Coverage(nil, []string{"glass"}), b.Coverage([]string{"attic"}, nil), b.Coverage([]string{"attic"}, []string{"glass"}, "colour"),
		newBook(t, houseFacts()[2:], nil).Coverage([]string{"attic"}, []string{"glass"}),
	} {
		require.NotEmpty(t, list)
		for _, f := range list {
			require.Equal(t, BadQuestion, f.Kind)
		}
	}
}
