package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestUnknownDecidesNothingButDanger(t *testing.T) {
	effects := []Effect{
		{Kind: Exclude},
		{Kind: Adjust, Criterion: "fire", Delta: -0.5, Group: "g"},
		{Kind: Require, Need: "baffle"},
		{Kind: Install},
		{Kind: For},
		{Kind: Against},
	}
	for _, e := range effects {
		b := newBook(t, houseFacts(), []Rule{rule("r", e, is("place", "attic"), holds("wet"), num("depth_in", "at_least", 4))})
		v := b.Eval(factsOf(t, b, map[string]Value{"place": Text("attic")}))
		require.Equal(t, []string{"r"}, ids(v.Depends), e.Kind)
		require.Equal(t, []string{"wet", "depth_in"}, v.Depends[0].Unknown)
		v.Depends = nil
		require.Equal(t, Verdict{}, v, e.Kind)
		// One false condition is enough to know that the rule is out.
		v = b.Eval(factsOf(t, b, map[string]Value{"wet": Bool(false)}))
		require.Equal(t, Verdict{}, v, e.Kind)
	}
	b := newBook(t, houseFacts(), []Rule{rule("r", Effect{Kind: Safety, Severity: 5, Stops: true}, is("place", "attic"), holds("wet"))})
	v := b.Eval(factsOf(t, b, map[string]Value{"place": Text("attic")}))
	require.Equal(t, []string{"wet"}, v.Safety[0].Unknown)
	require.False(t, v.Stopped)
	require.True(t, v.MayStop)
	v = b.Eval(factsOf(t, b, map[string]Value{"place": Text("attic"), "wet": Bool(true)}))
	require.Empty(t, v.Safety[0].Unknown)
	require.True(t, v.Stopped)
	require.False(t, v.MayStop)
	require.Len(t, b.Eval(nil).Safety, 1, "nothing known at all: speak up")
}

func TestHitsComeInOrder(t *testing.T) {
	any := oneOf("place", "attic", "wall")
	b := newBook(t, houseFacts(), []Rule{
		rule("note-z", Effect{Kind: Install, Order: -1}, any), rule("note-b", Effect{Kind: Install, Order: 2}, any),
		rule("note-a", Effect{Kind: Install, Order: 2}, any), rule("mild", Effect{Kind: Safety, Severity: 1}, any),
		rule("worse-b", Effect{Kind: Safety, Severity: 4, Order: -9}, any), rule("worse-a", Effect{Kind: Safety, Severity: 4, Order: 9}, any),
	})
	v := b.Eval(factsOf(t, b, map[string]Value{"place": Text("wall")}))
	require.Equal(t, []string{"worse-a", "worse-b", "mild"}, ids(v.Safety))
	require.Equal(t, []string{"note-z", "note-a", "note-b"}, ids(v.Install))
}

func TestAdjustsAddUp(t *testing.T) {
	adjust := func(id, criterion string, delta float64, where ...Where) Rule {
		return rule(id, Effect{Kind: Adjust, Criterion: criterion, Group: id, Delta: delta}, where...)
	}
	attic := is("place", "attic")
	b := newBook(t, houseFacts(), []Rule{
		adjust("damp", "moisture", -0.3, attic, holds("wet")), adjust("air", "moisture", 0.1, attic),
		adjust("fire", "fire", 0.25, attic), adjust("much-1", "cost", 0.8, attic), adjust("much-2", "cost", 0.9, attic),
	})
	v := b.Eval(factsOf(t, b, map[string]Value{"place": Text("attic"), "wet": Bool(true)}))
	require.InDelta(t, -0.2, v.Adjust["moisture"], 1e-12) // -0.3 + 0.1
	require.InDelta(t, 0.25, v.Adjust["fire"], 1e-12)
	require.InDelta(t, 1, v.Adjust["cost"], 0) // 1.7 is more than all
	require.Equal(t, []string{"air", "fire", "much-1", "much-2"}, ids(v.For))
	require.Equal(t, []string{"damp"}, ids(v.Against))
	// While one is undecided the others stand.
	v = b.Eval(factsOf(t, b, map[string]Value{"place": Text("attic")}))
	require.InDelta(t, 0.1, v.Adjust["moisture"], 1e-12)
	require.Equal(t, []string{"damp"}, ids(v.Depends))
}

func TestNeedsAreNamedOnce(t *testing.T) {
	b := newBook(t, houseFacts(), []Rule{
		rule("b", Effect{Kind: Require, Need: "retarder", NeedValue: "kraft", Order: 2}, is("place", "attic")),
		rule("a", Effect{Kind: Require, Need: "retarder", NeedValue: "kraft", Order: 3}, holds("wet")),
		rule("c", Effect{Kind: Require, Need: "baffle"}, is("place", "attic")),
	})
	v := b.Eval(factsOf(t, b, map[string]Value{"place": Text("attic"), "wet": Bool(true)}))
	require.Len(t, v.Require, 2)
	require.Equal(t, "baffle", v.Require[0].Need)
	require.Equal(t, "kraft", v.Require[1].Value)
	require.Equal(t, "b", v.Require[1].Hit.Rule.ID)
}

// A verdict used again holds nothing of what it held before.
func TestEvalIntoStartsAfresh(t *testing.T) {
	b := newBook(t, houseFacts(), []Rule{
		rule("out", Effect{Kind: Exclude}, is("place", "chimney"), holds("burns")),
		rule("low", Effect{Kind: Adjust, Criterion: "fire", Group: "g", Delta: -0.5}, holds("burns")),
		rule("stop", Effect{Kind: Safety, Severity: 9, Stops: true}, holds("wet")),
	})
	var v Verdict
	b.EvalInto(factsOf(t, b, map[string]Value{"place": Text("chimney"), "burns": Bool(true), "wet": Bool(true)}), &v)
	require.True(t, v.Stopped)
	require.Len(t, v.Excluded, 1)
	dry := factsOf(t, b, map[string]Value{"place": Text("attic"), "burns": Bool(false), "wet": Bool(false)})
	b.EvalInto(dry, &v)
	require.Equal(t, said(b.Eval(dry)), said(v))
	require.Empty(t, v.Adjust)
	require.Empty(t, v.Excluded)
	require.False(t, v.Stopped)
}

// Facts of another book say nothing to this one.
func TestFactsOfAnotherBook(t *testing.T) {
	list := []Rule{rule("r", Effect{Kind: Safety, Severity: 1}, is("place", "attic"))}
	b, other := newBook(t, houseFacts(), list), newBook(t, houseFacts(), list)
	f := factsOf(t, other, map[string]Value{"place": Text("wall")})
	require.Empty(t, other.Eval(f).Safety)
	require.Equal(t, []string{"place"}, b.Eval(f).Safety[0].Unknown)
}
