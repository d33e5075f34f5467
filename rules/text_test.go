package rules

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestReasonShowsTheFacts(t *testing.T) {
	r := rule("r", Effect{Kind: Install}, is("place", "attic"))
	r.Reason = "{place}: {depth_in} deep, peak {peak}, wet {wet}."
	b := newBook(t, houseFacts(), []Rule{r})
	f := factsOf(t, b, map[string]Value{"place": Text("attic"), "depth_in": Number(5.5), "peak": Number(1112.7)})
	require.Equal(t, "attic: 5.5 in deep, peak 1113 g/m2, wet unknown.", b.Eval(f).Install[0].Text)
	metric := func(fact Fact, v Value) string {
		if n, ok := v.AsNumber(); ok && fact.Unit == "in" {
			return shortNumber(n*25.4) + " mm"
		}
		return Plain(fact, v)
	}
	own, ok := b.Rule("r")
	require.True(t, ok)
	require.Equal(t, "attic: 140 mm deep, peak 1113 g/m2, wet unknown.", b.Render(own, f, metric))
	require.Equal(t, b.Eval(f).Install[0].Text, b.Render(own, f, nil))
	require.Empty(t, b.Render(&r, f, nil), "a rule of no book")
	require.Empty(t, b.Render(nil, f, nil))
}

// A figure of the reason itself comes with its own unit, and the format decides
// how it is shown.
func TestReasonHoldsFiguresOfItsOwn(t *testing.T) {
	r := rule("r", Effect{Kind: Install}, is("place", "attic"))
	r.Reason = "Keep {3 in} free, {R-19} at least."
	b := newBook(t, houseFacts(), []Rule{r})
	f := factsOf(t, b, map[string]Value{"place": Text("attic")})
	require.Equal(t, "Keep 3 in free, R-19 at least.", b.Eval(f).Install[0].Text)
	own, _ := b.Rule("r")
	require.Equal(t, "Keep <3 in> free, <R-19> at least.", b.Render(own, f, func(fact Fact, v Value) string {
		require.Equal(t, Written, fact.Unit)
		return "<" + v.String() + ">"
	}))
	for _, wrong := range []string{"{inches}", "{ 3 in}", "{}", "{r-19}"} {
		r.Reason = wrong
		_, err := NewBook(houseFacts(), []Rule{r})
		require.ErrorContains(t, err, "rule[1].reason: found {"+strings.Trim(wrong, "{}")+"}; want a declared fact", wrong)
	}
}

func TestNumbersAreRoundedSensibly(t *testing.T) {
	for _, c := range []struct {
		v    float64
		unit string
		want string
	}{
		{0, "in", "0 in"},
		{math.Copysign(0, -1), "", "0"},
		{3.5, "in", "3.5 in"},
		{19, "R", "R-19"},
		{12.449, "R", "R-12.4"},
		{0.0625, "", "0.0625"},
		{0.33333, "", "0.333"},
		{99.96, "%", "100 %"},
		{1112.7, "g/m2", "1113 g/m2"},
		{89.06, "%", "89.1 %"},
		{-2.5, "C", "-2.5 C"},
		{1e-9, "", "0"},
		{-1e-9, "", "0"},
		{9.999, "", "10"},
		{100000, "", "100000"},
	} {
		require.Equal(t, c.want, Plain(Fact{Unit: c.unit}, Number(c.v)), c.v)
	}
	require.Equal(t, "mineral wool", Plain(Fact{}, Text("mineral-wool")))
	require.Equal(t, "yes", Plain(Fact{}, Bool(true)))
	require.Equal(t, "unknown", Plain(Fact{}, Unknown()))
}

// Whatever is typed as a reason is either refused or comes back whole when
// every fact is shown as its own placeholder.
func FuzzReason(f *testing.F) {
	for _, seed := range []string{"plain", "{wet}", "a {depth_in} b {peak}{wet}", "{", "}", "{}", "{{wet}}", "x{wet", "}{", "é {wet} ü", "{3 in} {R-19 min}", "{3 in", "{12 to 18 in} {wet}"} {
		f.Add(seed)
	}
	b, err := NewBook(houseFacts(), nil)
	require.NoError(f, err)
	facts := b.NewFacts()
	f.Fuzz(func(t *testing.T, reason string) {
		text, found, want := b.parse(reason)
		if found != "" {
			require.NotEmpty(t, want)
			return
		}
		got := b.fill(&text, facts, func(fact Fact, v Value) string {
			if fact.Unit == Written {
				return "{" + v.String() + "}"
			}
			return "{" + fact.Name + "}"
		})
		require.Equal(t, reason, got)
		require.NotContains(t, b.fill(&text, facts, Plain), "{")
		require.Equal(t, strings.Count(reason, "{"), strings.Count(reason, "}"))
	})
}
