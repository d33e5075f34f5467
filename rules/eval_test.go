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
		b := newBook(t, houseFacts(), []Rule{rule("r", e, is("place", "attic"), holds("wet"), num("depth_in", Ge, 4))})
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
	any := Atom{Fact: "place", Op: In, Values: []string{"attic", "wall"}}
	b := newBook(t, houseFacts(), []Rule{
		rule("note-z", Effect{Kind: Install, Order: -1}, any), rule("note-b", Effect{Kind: Install, Order: 2}, any),
		rule("note-a", Effect{Kind: Install, Order: 2}, any), rule("mild", Effect{Kind: Safety, Severity: 1}, any),
		rule("worse-b", Effect{Kind: Safety, Severity: 4, Order: -9}, any), rule("worse-a", Effect{Kind: Safety, Severity: 4, Order: 9}, any),
	})
	v := b.Eval(factsOf(t, b, map[string]Value{"place": Text("wall")}))
	require.Equal(t, []string{"worse-a", "worse-b", "mild"}, ids(v.Safety))
	require.Equal(t, []string{"note-z", "note-a", "note-b"}, ids(v.Install))
}

func TestAdjustsOfAGroupCountOnce(t *testing.T) {
	adjust := func(id, criterion, group string, delta float64, when ...Atom) Rule {
		return rule(id, Effect{Kind: Adjust, Criterion: criterion, Group: group, Delta: delta}, when...)
	}
	attic := is("place", "attic")
	b := newBook(t, houseFacts(), []Rule{
		adjust("small", "moisture", "damp", -0.2, attic), adjust("large", "moisture", "damp", -0.3, attic, holds("wet")),
		adjust("other", "moisture", "air", 0.1, attic), adjust("fire", "fire", "damp", 0.25, attic),
		adjust("up", "sound", "s", 0.4, attic), adjust("down", "sound", "s", -0.4, attic),
		adjust("much-1", "cost", "c1", 0.8, attic), adjust("much-2", "cost", "c2", 0.9, attic),
	})
	v := b.Eval(factsOf(t, b, map[string]Value{"place": Text("attic"), "wet": Bool(true)}))
	require.InDelta(t, -0.2, v.Adjust["moisture"], 1e-12) // -0.3 + 0.1
	require.InDelta(t, 0.25, v.Adjust["fire"], 1e-12)     // another criterion, another count
	require.InDelta(t, -0.4, v.Adjust["sound"], 1e-12)    // equal size: the careful side
	require.InDelta(t, 1, v.Adjust["cost"], 0)            // 1.7 is more than all
	require.Equal(t, []string{"fire", "much-1", "much-2", "other"}, ids(v.For))
	require.Equal(t, []string{"down", "large"}, ids(v.Against))
	v = b.Eval(factsOf(t, b, map[string]Value{"place": Text("attic"), "wet": Bool(false)}))
	require.InDelta(t, -0.1, v.Adjust["moisture"], 1e-12)
	// While the larger one is undecided the smaller one stands.
	v = b.Eval(factsOf(t, b, map[string]Value{"place": Text("attic")}))
	require.InDelta(t, -0.1, v.Adjust["moisture"], 1e-12)
	require.Equal(t, []string{"large"}, ids(v.Depends))
}

func TestOverridesSilence(t *testing.T) {
	general := rule("general", Effect{Kind: Adjust, Criterion: "fire", Group: "g", Delta: -0.6}, is("place", "attic"))
	special := rule("special", Effect{Kind: Adjust, Criterion: "fire", Group: "g", Delta: -0.1}, is("place", "attic"), holds("wet"))
	special.Overrides = []string{"general"}
	note := rule("note", Effect{Kind: Install}, is("place", "attic"))
	danger := rule("danger", Effect{Kind: Safety, Severity: 2}, num("depth_in", Gt, 12))
	danger.Overrides = []string{"note"}
	b := newBook(t, houseFacts(), []Rule{general, special, note, danger})
	attic := map[string]Value{"place": Text("attic"), "depth_in": Number(1), "wet": Bool(false)}
	v := b.Eval(factsOf(t, b, attic))
	require.InDelta(t, -0.6, v.Adjust["fire"], 1e-12)
	require.Equal(t, []string{"note"}, ids(v.Install))
	attic["wet"] = Bool(true)
	v = b.Eval(factsOf(t, b, attic))
	require.InDelta(t, -0.1, v.Adjust["fire"], 1e-12)
	require.Equal(t, []string{"special"}, ids(v.Against))
	// A danger that may be there silences too, an undecided rule does not.
	attic["wet"], attic["depth_in"] = Unknown(), Unknown()
	v = b.Eval(factsOf(t, b, attic))
	require.InDelta(t, -0.6, v.Adjust["fire"], 1e-12)
	require.Empty(t, v.Install)
	require.Equal(t, []string{"special"}, ids(v.Depends))
	require.Empty(t, b.Contradictions())
	require.Empty(t, b.Dead())
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
	require.Equal(t, b.Eval(dry).signature(), v.signature())
	require.Empty(t, v.Excluded)
	require.False(t, v.Stopped)
}

// Facts of another book are taken over by name.
func TestFactsOfAnotherBook(t *testing.T) {
	facts := houseFacts()
	list := []Rule{rule("r", Effect{Kind: Install}, is("place", "attic"), holds("wet"))}
	b := newBook(t, facts, list)
	swapped := append([]Fact(nil), facts...)
	swapped[0], swapped[3] = swapped[3], swapped[0]
	other := newBook(t, swapped[:4], nil)
	f := factsOf(t, other, map[string]Value{"place": Text("attic"), "wet": Bool(true)})
	require.Equal(t, []string{"r"}, ids(b.Eval(f).Install))
	g := b.NewFacts()
	g.CopyFrom(f)
	require.Equal(t, Text("attic"), g.Get("place"))
	own := b.NewFacts()
	own.CopyFrom(g)
	require.Equal(t, Bool(true), own.Get("wet"))
	g.CopyFrom(nil)
	require.False(t, g.Get("place").Known())
}
