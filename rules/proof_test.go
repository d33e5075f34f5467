package rules

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// Each proof on a case that can be checked by reading it.
func TestFindingsSayWhatIsWrong(t *testing.T) {
	attic, wet := is("place", "attic"), holds("wet")
	cases := map[string]struct {
		rules []Rule
		want  []string
	}{
		"impossible": {
			[]Rule{rule("r", Effect{Kind: Install}, is("place", "chimney"), wet)},
			[]string{"r: dead: it fires only for facts declared impossible"},
		},
		"one of two ends idle": {
			[]Rule{rule("r", Effect{Kind: Install}, num("depth_in", "above", 3), num("depth_in", "at_most", 24))},
			[]string{"r: redundant: what it asks of depth_in is always so"},
		},
		"all places": {
			[]Rule{rule("r", Effect{Kind: Install}, oneOf("place", "attic", "wall", "chimney"), wet)},
			[]string{"r: redundant: what it asks of place is always so"},
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
				rule("dry-out", Effect{Kind: Exclude, Group: "dry"}, attic, Where{"wet": false}),
				rule("wet-out", Effect{Kind: Exclude}, attic, wet), rule("nice", Effect{Kind: For}, attic),
			},
			[]string{"nice: contradiction: it speaks only of candidates that are excluded"},
		},
	}
	for name, c := range cases {
		b := newBook(t, houseFacts(), c.rules, all(is("place", "chimney"), wet))
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
	b := newBook(t, houseFacts(), []Rule{rule("air-gap", Effect{Kind: Safety, Severity: 3}, is("place", "chimney"))}, all(is("place", "chimney"), holds("wet")))
	chimney := is("place", "chimney")
	for _, o := range []Obligation{
		{ID: "no fact", Where: holds("moon"), Effect: Safety},
		{ID: "nowhere", Where: all(chimney, holds("wet")), Effect: Safety},
	} {
		list := b.CheckObligations([]Obligation{o})
		require.Len(t, list, 1, o.ID)
		require.Equal(t, BadQuestion, list[0].Kind)
		require.Equal(t, o.ID, list[0].Rule)
	}
	require.Empty(t, b.CheckObligations([]Obligation{
		{ID: "by kind", Where: chimney, Effect: Safety},
		{ID: "by name", Where: chimney, Effect: Safety, Rule: "air-gap"},
		{ID: "by beginning", Where: chimney, Effect: Safety, Rule: "air"},
	}))
	list := b.CheckObligations([]Obligation{{ID: "o", Where: num("depth_in", "below", 4), Effect: Safety, Rule: "air"}})
	require.Equal(t, "o: unmet: no safety rule air at place = attic, depth_in = 2", list[0].String())
}

func TestExamplesAreRun(t *testing.T) {
	r := rule("r", Effect{Kind: Exclude}, is("place", "chimney"), holds("burns"))
	r.FiresOn = []Case{
		{"place": "chimney", "burns": true},
		{"place": "chimney", "burns": "unknown"}, // undecided is not fired
	}
	r.SilentOn = []Case{{"place": "attic", "burns": true}}
	examples := func(b *Book) []string {
		var out []string
		for _, f := range b.Prove() {
			out = append(out, f.String())
		}
		return out
	}
	b := newBook(t, houseFacts(), []Rule{r})
	require.Equal(t, []string{"r: example: fires_on[2]: it stays silent"}, examples(b))
	require.Equal(t, []Condition{{"r", "burns"}}, b.Untried())

	// An example that fails twice tries neither condition alone.
	r.FiresOn = r.FiresOn[:1]
	r.SilentOn = []Case{{"place": "attic", "burns": false}}
	b = newBook(t, houseFacts(), []Rule{r})
	require.Empty(t, examples(b))
	require.Equal(t, []Condition{{"r", "place"}, {"r", "burns"}}, b.Untried())
	r.SilentOn = []Case{{"place": "attic"}, {"place": "chimney", "burns": false}}
	require.Equal(t, []Condition{{"r", "place"}}, newBook(t, houseFacts(), []Rule{r}).Untried())

	// A danger fires on what is not known.
	r.Effect = Effect{Kind: Safety, Severity: 3}
	r.FiresOn = append(r.FiresOn, Case{"place": "chimney"})
	require.Empty(t, examples(newBook(t, houseFacts(), []Rule{r})))
	r.SilentOn = append(r.SilentOn, Case{"burns": true})
	require.Equal(t, []string{"r: example: silent_on[3]: it fires"}, examples(newBook(t, houseFacts(), []Rule{r})))
}

func TestBookTellsWhatItHolds(t *testing.T) {
	b := newBook(t, houseFacts(), chimneyRules())
	require.Equal(t, houseFacts(), b.Facts())
	require.Len(t, b.Rules(), 2)
	_, ok := b.Rule("nobody")
	require.False(t, ok)
	require.Equal(t, "unknown yes no 3.5 attic", fmt.Sprint(Unknown(), " ", Bool(true), " ", Bool(false), " ", Number(3.5), " ", Text("attic")))
}

// With no steps allowed every proof says that it did not decide.
func TestLimitsAreSaid(t *testing.T) {
	attic, wet := is("place", "attic"), holds("wet")
	fire := Effect{Kind: Adjust, Criterion: "fire", Group: "g", Delta: 0.1}
	b := newBook(t, houseFacts(), []Rule{
		rule("a", fire, attic), rule("b", fire, attic, wet), rule("out", Effect{Kind: Exclude}, wet), rule("note", Effect{Kind: Install}, attic),
	})
	proofs := map[string]func() []Finding{
		"prove":      b.Prove,
		"coverage":   func() []Finding { return b.Coverage([]string{"attic"}, []string{"glass"}) },
		"obligation": func() []Finding { return b.CheckObligations([]Obligation{{ID: "o", Where: attic, Effect: Install}}) },
	}
	for name, proof := range proofs {
		b.maxSteps = maxSteps
		decided := proof()
		b.maxSteps = 0
		unproved := 0
		for _, f := range proof() {
			if f.Kind == NotProved {
				unproved++
				continue
			}
			require.Contains(t, decided, Finding{f.Rule, f.Kind, f.Text}, "%s: %s", name, f)
		}
		require.NotZero(t, unproved, name)
	}
}

// More cells than fit one machine word, and a full enum.
func TestManyCells(t *testing.T) {
	var names []string
	var values []any
	for i := range maxEnumValues {
		names = append(names, fmt.Sprintf("v%d", i))
		values = append(values, names[i])
	}
	facts := []Fact{{Name: "n", Type: Numeric, Min: 0, Max: 300}, {Name: "v", Type: Enum, Values: names}}
	var list []Rule
	for i := range 300 {
		e := Effect{Kind: Require, Need: "slice", NeedValue: fmt.Sprint(i)}
		list = append(list, rule(fmt.Sprintf("s%d", i), e, all(num("n", "at_least", float64(i)), num("n", "below", float64(i+1)))))
	}
	last := rule("last", Effect{Kind: Require, Need: "end"}, Where{"n": 300})
	b := newBook(t, facts, append(list, last))
	whole := []Obligation{{ID: "o", Effect: Require}}
	require.Empty(t, b.CheckObligations(whole))
	require.Equal(t, []FindingKind{BadExample, Redundant}, kinds(b.Prove()))
	b = newBook(t, facts, list)
	require.Equal(t, "o: unmet: no require rule at n = 300", b.CheckObligations(whole)[0].String())
	b = newBook(t, facts, append(append([]Rule{last}, list[:200]...), list[201:]...))
	require.Contains(t, b.CheckObligations(whole)[0].Text, "n = 200")
	every := rule("all", Effect{Kind: Install}, oneOf("v", values...))
	most := rule("most", Effect{Kind: Install}, Where{"v": map[string]any{"not": "v63"}})
	b = newBook(t, facts, []Rule{every, most})
	require.Contains(t, kinds(b.Prove()), Redundant)
	require.Equal(t, []string{"all"}, ids(b.Eval(factsOf(t, b, map[string]Value{"v": Text("v63")})).Install))
}

// kinds lists the kinds of finding, each once.
func kinds(list []Finding) []FindingKind {
	var out []FindingKind
	for _, f := range list {
		out = append(out, f.Kind)
	}
	slices.Sort(out)
	return slices.Compact(out)
}
