package rules

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// Each proof on a case that can be checked by reading it.
func TestFindingsSayWhatIsWrong(t *testing.T) {
	attic, wet := is("place", "attic"), holds("wet")
	silencer := rule("silencer", Effect{Kind: Install}, attic)
	silencer.Overrides = []string{"victim"}
	cases := map[string]struct {
		rules []Rule
		want  []string
	}{
		"nothing between": {
			[]Rule{rule("r", Effect{Kind: Install}, num("depth_in", Lt, 3), num("depth_in", Ge, 5))},
			[]string{"r: dead: no facts satisfy its condition"},
		},
		"beyond the range": {
			[]Rule{rule("r", Effect{Kind: Install}, num("depth_in", Gt, 24))},
			[]string{"r: dead: no facts satisfy its condition"},
		},
		"impossible": {
			[]Rule{rule("r", Effect{Kind: Install}, is("place", "chimney"), wet)},
			[]string{"r: dead: it fires only for facts declared impossible"},
		},
		"never heard": {
			[]Rule{silencer, rule("victim", Effect{Kind: Install}, attic, wet)},
			[]string{"victim: dead: it is overridden wherever it would fire"},
		},
		"one of two limits idle": {
			[]Rule{rule("r", Effect{Kind: Install}, num("depth_in", Gt, 3), num("depth_in", Ge, 2))},
			[]string{`r: redundant: "depth_in ge 2" changes nothing`},
		},
		"all places": {
			[]Rule{rule("r", Effect{Kind: Install}, Atom{Fact: "place", Op: In, Values: []string{"attic", "wall", "chimney"}}, wet)},
			[]string{`r: redundant: "place in attic|wall|chimney" changes nothing`},
		},
		"wider rule does it": {
			[]Rule{rule("wide", Effect{Kind: Exclude}, attic), rule("narrow", Effect{Kind: Exclude, Order: 7}, attic, wet)},
			[]string{"narrow: shadowed: wide does the same for all its facts"},
		},
		"another subject": {
			[]Rule{rule("wide", Effect{Kind: Exclude}, attic), rule("narrow", Effect{Kind: Exclude, Group: "fire"}, attic, wet)},
			nil,
		},
		"two facings": {
			[]Rule{
				rule("kraft", Effect{Kind: Require, Need: "facing", NeedValue: "kraft"}, attic),
				rule("none", Effect{Kind: Require, Need: "facing", NeedValue: "none"}, wet),
			},
			[]string{"kraft: contradiction: with none: they ask for different facing at place = attic, wet = yes"},
		},
		"counted twice": {
			[]Rule{
				rule("a", Effect{Kind: Adjust, Criterion: "fire", Group: "g", Delta: 0.1}, attic),
				rule("b", Effect{Kind: Adjust, Criterion: "fire", Group: "g", Delta: -0.1}, wet),
			},
			[]string{"a: contradiction: with b: they count group g twice at place = attic, wet = yes"},
		},
		"praise for nobody": {
			[]Rule{
				rule("dry-out", Effect{Kind: Exclude, Group: "dry"}, attic, Atom{Fact: "wet", Op: Eq}),
				rule("wet-out", Effect{Kind: Exclude}, attic, wet), rule("nice", Effect{Kind: For}, attic),
			},
			[]string{"nice: contradiction: it speaks only of candidates that are excluded"},
		},
	}
	for name, c := range cases {
		b := newBook(t, houseFacts(), c.rules, Impossible(is("place", "chimney"), wet))
		var got []string
		for _, f := range b.Prove() {
			if f.Kind != BadExample {
				got = append(got, f.String())
			}
		}
		require.Equal(t, c.want, got, name)
	}
}

func TestObligationsAskedBadly(t *testing.T) {
	b := newBook(t, houseFacts(), []Rule{rule("air-gap", Effect{Kind: Safety, Severity: 3}, is("place", "chimney"))})
	chimney := []Atom{is("place", "chimney")}
	for _, o := range []Obligation{
		{ID: "no fact", When: []Atom{holds("moon")}, NeedEffect: Safety},
		{ID: "nothing asked", When: chimney},
		{ID: "nowhere", When: []Atom{is("place", "chimney"), is("place", "attic")}, NeedEffect: Safety},
	} {
		list := b.CheckObligations([]Obligation{o})
		require.Len(t, list, 1, o.ID)
		require.Equal(t, BadQuestion, list[0].Kind)
		require.Equal(t, o.ID, list[0].Rule)
	}
	require.Empty(t, b.CheckObligations([]Obligation{
		{ID: "by kind", When: chimney, NeedEffect: Safety},
		{ID: "by name", When: chimney, NeedRule: "air-gap"},
		{ID: "by beginning", When: chimney, NeedEffect: Safety, NeedRule: "air"},
	}))
	list := b.CheckObligations([]Obligation{{ID: "o", When: []Atom{num("depth_in", Lt, 4)}, NeedRule: "air"}})
	require.Equal(t, "o: unmet: no rule air at place = attic, depth_in = 2", list[0].String())
}

func TestExamplesAreRun(t *testing.T) {
	r := rule("r", Effect{Kind: Exclude}, is("place", "chimney"), holds("burns"))
	r.Examples = []Example{
		{Facts: map[string]Value{"place": Text("chimney"), "burns": Bool(true)}, Fires: true},
		{Facts: map[string]Value{"place": Text("attic"), "burns": Bool(true)}},
		{Facts: map[string]Value{"place": Text("chimney")}, Fires: true}, // undecided is not fired
	}
	b := newBook(t, houseFacts(), []Rule{r})
	list := b.RunExamples()
	require.Len(t, list, 1)
	require.Equal(t, "r: example: example 3: fires is true, the rule says false", list[0].String())
	require.Equal(t, []ExampleRun{{Rule: "r", Fired: 1, Silent: 2}}, b.ExampleCoverage())

	// An example that fails twice tries neither condition alone.
	r.Examples[2] = Example{Facts: map[string]Value{"place": Text("attic"), "burns": Bool(false)}}
	b = newBook(t, houseFacts(), []Rule{r})
	require.Empty(t, b.RunExamples())
	require.Equal(t, []ExampleRun{{Rule: "r", Fired: 1, Silent: 2, Untested: []int{1}}}, b.ExampleCoverage())

	// A danger fires on what is not known.
	r.Effect = Effect{Kind: Safety, Severity: 3}
	r.Examples = append(r.Examples, Example{Facts: map[string]Value{"place": Text("chimney")}, Fires: true})
	b = newBook(t, houseFacts(), []Rule{r})
	require.Empty(t, b.RunExamples())
	own, _ := b.Rule("r")
	require.True(t, b.Fires(own, nil))
	require.False(t, b.Fires(own, factsOf(t, b, map[string]Value{"burns": Bool(false)})))
	require.False(t, b.Fires(nil, nil))
}

func TestBookTellsWhatItHolds(t *testing.T) {
	b := newBook(t, houseFacts(), chimneyRules())
	require.Equal(t, houseFacts(), b.Facts())
	require.Len(t, b.Rules(), 2)
	_, ok := b.Rule("nobody")
	require.False(t, ok)
	for _, kind := range []FactType{Enum, Boolean, Numeric, 0} {
		require.NotEmpty(t, kind.String())
	}
	require.Equal(t, "unknown yes no 3.5 attic", fmt.Sprint(Unknown(), " ", Bool(true), " ", Bool(false), " ", Number(3.5), " ", Text("attic")))
}

// With no steps allowed every proof says that it did not decide.
func TestLimitsAreSaid(t *testing.T) {
	attic, wet := is("place", "attic"), holds("wet")
	fire := Effect{Kind: Adjust, Criterion: "fire", Group: "g", Delta: 0.1}
	b := newBook(t, houseFacts(), []Rule{
		rule("a", fire, attic), rule("b", fire, attic, wet), rule("out", Effect{Kind: Exclude}, wet),
		rule("note", Effect{Kind: Install}, attic), rule("none", Effect{Kind: Require, Need: NeedNoOption}, wet),
	})
	coverage := func() []Finding { return b.Coverage([]string{"attic"}, []string{"glass"}) }
	obligation := func() []Finding {
		return b.CheckObligations([]Obligation{{ID: "o", When: []Atom{attic}, NeedEffect: Install}})
	}
	proofs := map[string]func() []Finding{
		"dead": b.Dead, "contradictions": b.Contradictions, "shadowed": b.Shadowed, "coverage": coverage, "obligation": obligation,
	}
	for name, proof := range proofs {
		b.maxSteps, b.maxPieces = 0, maxPieces
		require.NotEmpty(t, proof(), name)
		for _, f := range proof() {
			require.Equal(t, NotProved, f.Kind, "%s: %s", name, f)
		}
	}
	b.maxSteps, b.maxPieces = maxSteps, 0
	for _, f := range coverage() {
		require.Contains(t, []FindingKind{NotProved, NoReason}, f.Kind)
	}
}

// More cells than fit one machine word, and a full enum.
func TestManyCells(t *testing.T) {
	var values []string
	for i := range maxEnumValues {
		values = append(values, fmt.Sprintf("v%d", i))
	}
	facts := []Fact{{Name: "n", Type: Numeric, Min: 0, Max: 300}, {Name: "v", Type: Enum, Values: values}}
	var list []Rule
	for i := range 300 {
		e := Effect{Kind: Require, Need: "slice", NeedValue: fmt.Sprint(i)}
		list = append(list, rule(fmt.Sprintf("s%d", i), e, Atom{Fact: "n", Op: Between, Num: float64(i), Num2: float64(i + 1)}))
	}
	last := rule("last", Effect{Kind: Require, Need: "end"}, num("n", Eq, 300))
	b := newBook(t, facts, append(list, last))
	whole := []Obligation{{ID: "o", NeedEffect: Require}}
	require.Empty(t, b.CheckObligations(whole))
	require.Empty(t, b.Contradictions())
	require.Empty(t, b.Dead())
	b = newBook(t, facts, list)
	require.Equal(t, "o: unmet: no require rule at n = 300", b.CheckObligations(whole)[0].String())
	b = newBook(t, facts, append(append([]Rule{last}, list[:200]...), list[201:]...))
	require.Contains(t, b.CheckObligations(whole)[0].Text, "n = 200")
	all := rule("all", Effect{Kind: Install}, Atom{Fact: "v", Op: In, Values: values})
	most := rule("most", Effect{Kind: Install}, Atom{Fact: "v", Op: Ne, Values: values[63:]})
	b = newBook(t, facts, []Rule{all, most})
	require.Len(t, b.RedundantAtoms(), 1)
	require.Equal(t, []string{"all"}, ids(b.Eval(factsOf(t, b, map[string]Value{"v": Text("v63")})).Install))
}
