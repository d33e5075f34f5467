package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// houseFacts are a small set of facts with every type and origin.
func houseFacts() []Fact {
	return []Fact{
		{Name: "place", Type: Enum, Values: []string{"attic", "wall", "chimney"}, From: "answer"},
		{Name: "material", Type: Enum, Values: []string{"glass", "rock", "wool"}, From: FromMaterial},
		{Name: "burns", Type: Boolean, From: FromMaterial},
		{Name: "wet", Type: Boolean, From: "answer"},
		{Name: "depth_in", Type: Numeric, Unit: "in", Min: 0, Max: 24, From: "answer"},
		{Name: "peak", Type: Numeric, Unit: "g/m2", Min: 0, Max: 5000, From: "computed"},
	}
}

// Every mistake is named with its key, what was found and what is wanted.
func TestEveryMistakeIsPlaced(t *testing.T) {
	note := Effect{Kind: Install}
	with := func(change func(*Rule)) []Rule {
		r := rule("r", note, is("place", "attic"))
		change(&r)
		return []Rule{r}
	}
	where := func(fact string, asked any) []Rule { return []Rule{rule("r", note, Where{fact: asked})} }
	effect := func(e Effect) []Rule { return []Rule{rule("r", e, is("place", "attic"))} }
	table := func(pairs ...any) map[string]any {
		out := map[string]any{}
		for i := 0; i < len(pairs); i += 2 {
			out[pairs[i].(string)] = pairs[i+1]
		}
		return out
	}
	const places = `one of "attic", "wall", "chimney", a list of them, { not = "..." } or { none_of = ["...", "..."] }`
	const depths = "a number from 0 to 24, or a table of above, at_least, below and at_most like { at_least = 2, below = 5 }"
	cases := map[string]struct {
		rules []Rule
		want  string // key: found; want
	}{
		"unknown fact":                 {where("plaice", "attic"), "where.plaice: found " + Undeclared + "; want one that is"},
		"value not in the enum":        {where("place", "atic"), `where.place: found "atic"; want ` + places},
		"one of a list not in it":      {where("place", []any{"attic", "atic"}), `where.place: found "atic"; want ` + places},
		"less than on an enum":         {where("place", table("below", 3)), "where.place: found { below = 3 }; want " + places},
		"no values":                    {where("place", []any{}), "where.place: found []; want " + places},
		"nothing left by none_of":      {where("place", table("none_of", []any{"attic", "wall", "chimney"})), `where.place: found { none_of = ["attic", "wall", "chimney"] }, which nothing can be; want what some value meets`},
		"none_of without a list":       {where("place", table("none_of", "attic")), `where.place: found { none_of = "attic" }; want ` + places},
		"a list in a list":             {where("place", []any{[]any{"attic"}}), `where.place: found ["attic"]; want ` + places},
		"not and none_of":              {where("place", table("not", "attic", "none_of", []any{"wall"})), `where.place: found { none_of = ["wall"], not = "attic" }; want ` + places},
		"unknown asked for":            {where("place", "unknown"), `where.place: found "unknown"; want ` + places},
		"list on a yes or no":          {where("wet", []any{true}), "where.wet: found [true]; want true or false"},
		"not on a yes or no":           {where("wet", table("not", true)), "where.wet: found { not = true }; want true or false"},
		"text on a yes or no":          {where("wet", "true"), `where.wet: found "true"; want true or false`},
		"number on a yes or no":        {where("wet", 1), "where.wet: found 1; want true or false"},
		"text on a number":             {where("depth_in", "3"), `where.depth_in: found "3"; want ` + depths},
		"yes on a number":              {where("depth_in", true), "where.depth_in: found true; want " + depths},
		"list on a number":             {where("depth_in", []any{3, 5}), "where.depth_in: found [3, 5]; want " + depths},
		"end unheard of":               {where("depth_in", table("near", 3)), "where.depth_in: found { near = 3 }; want " + depths},
		"no end":                       {where("depth_in", table()), "where.depth_in: found {}; want " + depths},
		"two lower ends":               {where("depth_in", table("above", 2, "at_least", 3)), "where.depth_in: found { above = 2, at_least = 3 }; want " + depths},
		"end too high":                 {where("depth_in", table("below", 25)), "where.depth_in: found { below = 25 }; want " + depths},
		"end below the range":          {where("depth_in", table("above", -1)), "where.depth_in: found { above = -1 }; want " + depths},
		"end not a number":             {where("depth_in", table("above", math.NaN())), "where.depth_in: found { above = NaN }; want " + depths},
		"end infinite":                 {where("depth_in", table("at_most", math.Inf(1))), "where.depth_in: found { at_most = +Inf }; want " + depths},
		"above the top":                {where("depth_in", table("above", 24)), "where.depth_in: found { above = 24 }, which nothing can be"},
		"ends swapped":                 {where("depth_in", table("at_least", 5, "below", 3)), "where.depth_in: found { at_least = 5, below = 3 }, which nothing can be"},
		"ends equal":                   {where("depth_in", table("at_least", 5, "below", 5)), "where.depth_in: found { at_least = 5, below = 5 }, which nothing can be"},
		"no condition":                 {with(func(r *Rule) { r.Where = nil }), "where: found no condition"},
		"no id":                        {with(func(r *Rule) { r.ID = "" }), `id: found ""; want an id of its own`},
		"no source":                    {with(func(r *Rule) { r.Source = " " }), "source: found none"},
		"not said how it is known":     {with(func(r *Rule) { r.Known = "" }), "known: found none"},
		"exclude from memory":          {with(func(r *Rule) { r.Effect, r.Known = Effect{Kind: Exclude}, "memory" }), `known: found "memory" for what takes a choice away or warns; want a published ground, or practice`},
		"danger from memory":           {with(func(r *Rule) { r.Effect, r.Known = Effect{Kind: Safety, Severity: 1}, "memory" }), `known: found "memory"`},
		"danger invented":              {with(func(r *Rule) { r.Effect, r.Known = Effect{Kind: Safety, Severity: 1}, "invented" }), `known: found "invented"`},
		"no reason":                    {with(func(r *Rule) { r.Reason = "" }), "reason: found none"},
		"reason names no fact":         {with(func(r *Rule) { r.Reason = "about {deep}" }), "reason: found {deep}; want a declared fact, or a figure with its unit"},
		"brace left open":              {with(func(r *Rule) { r.Reason = "about {depth_in" }), "reason: found a brace without its partner"},
		"brace closes nothing":         {with(func(r *Rule) { r.Reason = "about depth_in}" }), "reason: found a brace without its partner"},
		"no example that fires":        {with(func(r *Rule) { r.FiresOn = nil }), "fires_on: found none"},
		"no example that stays silent": {with(func(r *Rule) { r.SilentOn = nil }), "silent_on: found none"},
		"example names no fact":        {with(func(r *Rule) { r.FiresOn = []Case{{}, {"x": true}} }), "fires_on[2].x: found " + Undeclared},
		"example value does not fit":   {with(func(r *Rule) { r.SilentOn[0] = Case{"wet": 1} }), "silent_on[1].wet: found 1; want true or false"},
		"example asks":                 {with(func(r *Rule) { r.SilentOn[0] = Case{"depth_in": table("below", 3)} }), "silent_on[1].depth_in: found { below = 3 }; want a number from 0 to 24"},
		"no kind":                      {effect(Effect{}), `effect.kind: found ""; want one of "exclude", "adjust"`},
		"kind unheard of":              {effect(Effect{Kind: "praise"}), `effect.kind: found "praise"`},
		"adjust without criterion":     {effect(Effect{Kind: Adjust, Delta: 0.1, Group: "g"}), "effect.criterion: found none"},
		"adjust without group":         {effect(Effect{Kind: Adjust, Delta: 0.1, Criterion: "fire"}), "effect.group: found none"},
		"adjust by too much":           {effect(Effect{Kind: Adjust, Delta: -1.01, Criterion: "fire", Group: "g"}), "effect.delta: found -1.01; want -1 to 1 and not 0"},
		"adjust by nothing":            {effect(Effect{Kind: Adjust, Criterion: "fire", Group: "g"}), "effect.delta: found 0"},
		"adjust by no number":          {effect(Effect{Kind: Adjust, Delta: math.NaN(), Criterion: "fire", Group: "g"}), "effect.delta: found NaN"},
		"delta on another kind":        {effect(Effect{Kind: For, Delta: 0.1}), "effect.delta: found it beside for; want it with adjust only"},
		"group on another kind":        {effect(Effect{Kind: For, Group: "g"}), "effect.group: found it beside for"},
		"criterion on another kind":    {effect(Effect{Kind: Install, Criterion: "fire"}), "effect.criterion: found it beside install"},
		"require nothing":              {effect(Effect{Kind: Require}), "effect.need: found none"},
		"need on another kind":         {effect(Effect{Kind: For, Need: "facing"}), "effect.need: found it beside for"},
		"need value on another kind":   {effect(Effect{Kind: Install, NeedValue: "kraft"}), "effect.need_value: found it beside install"},
		"safety without severity":      {effect(Effect{Kind: Safety}), "effect.severity: found 0; want 1 or more"},
		"severity on another kind":     {effect(Effect{Kind: Install, Severity: 1}), "effect.severity: found it beside install"},
		"stop without danger":          {effect(Effect{Kind: Exclude, Stops: true}), "effect.stops: found it beside exclude"},
		"asks without danger":          {effect(Effect{Kind: Install, AsksFirst: true}), "effect.asks_first: found it beside install"},
		"asks and stops":               {effect(Effect{Kind: Safety, Severity: 1, Stops: true, AsksFirst: true}), "effect.asks_first: found it beside stops"},
		"spreads without a stop":       {effect(Effect{Kind: Safety, Severity: 1, Spreads: true}), "effect.spreads: found it without stops"},
		"call without a stop":          {effect(Effect{Kind: Safety, Severity: 1, Call: "because"}), "effect.call: found it without stops"},
		"call nobody is told of":       {effect(Effect{Kind: Safety, Severity: 1, Stops: true, Call: "a mason"}), "effect.call: found words that the reason does not say"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			b, err := NewBook(houseFacts(), c.rules)
			require.Nil(t, b)
			problems, ok := err.(Problems)
			require.True(t, ok, "%T", err)
			require.Len(t, problems, 1)
			require.Contains(t, err.Error(), "rule[1]."+c.want)
		})
	}
	_, err := NewBook(houseFacts(), with(func(*Rule) {}))
	require.NoError(t, err)
}

func TestFactsDeclaredBadly(t *testing.T) {
	for name, facts := range map[string][]Fact{
		"no name":       {{Type: Boolean}},
		"twice":         {{Name: "a", Type: Boolean}, {Name: "a", Type: Boolean}},
		"no type":       {{Name: "a"}},
		"type unknown":  {{Name: "a", Type: "text"}},
		"no values":     {{Name: "a", Type: Enum}},
		"value twice":   {{Name: "a", Type: Enum, Values: []string{"x", "x"}}},
		"value empty":   {{Name: "a", Type: Enum, Values: []string{""}}},
		"too many":      {{Name: "a", Type: Enum, Values: make([]string, 65)}},
		"no range":      {{Name: "a", Type: Numeric}},
		"range swapped": {{Name: "a", Type: Numeric, Min: 2, Max: 1}},
		"range no end":  {{Name: "a", Type: Numeric, Max: math.Inf(1)}},
		"range no sort": {{Name: "a", Type: Numeric, Min: math.NaN(), Max: 1}},
	} {
		_, err := NewBook(facts, nil)
		require.ErrorContains(t, err, "fact[", name)
	}
}

func TestAllMistakesComeAtOnce(t *testing.T) {
	bad := rule("bad", Effect{Kind: Adjust, Delta: 3}, is("place", "roof"), num("depth_in", "below", 99))
	bad.Source, bad.Reason, bad.FiresOn = "", "{x}", nil
	_, err := NewBook(append(houseFacts(), Fact{Name: "odd"}), []Rule{bad, bad}, is("place", "moon"), nil)
	text := err.Error()
	for _, want := range []string{
		`fact[7].type: found ""`, `rule[2].id: found "bad"`, `rule[1].where.place: found "roof"`, "rule[1].where.depth_in: found { below = 99 }",
		"rule[1].effect.criterion", "rule[1].effect.delta: found 3", "rule[1].source", "rule[1].reason: found {x}", "rule[1].fires_on",
		`impossible[1].place: found "moon"`, "impossible[2]: found no condition",
	} {
		require.Contains(t, text, want)
	}
}

// Values that do not fit leave the fact unknown, whatever it was before.
func TestSetRefusesAndForgets(t *testing.T) {
	b := newBook(t, houseFacts(), nil)
	f := factsOf(t, b, map[string]Value{"place": Text("attic"), "wet": Bool(true), "depth_in": Number(3.5)})
	require.Equal(t, Number(3.5), f.Get("depth_in"))
	require.Equal(t, Text("attic"), f.Get("place"))
	require.Equal(t, Bool(true), f.Get("wet"))
	for _, c := range []struct {
		name string
		v    Value
		want string
	}{
		{"depth_in", Number(math.NaN()), "want "},
		{"depth_in", Number(math.Inf(1)), "want "},
		{"depth_in", Number(24.000001), "want "},
		{"depth_in", Bool(true), "want "},
		{"place", Text("roof"), "want "},
		{"place", Text(""), "want "},
		{"wet", Text("true"), "want "},
		{"nothing", Bool(true), "no fact"},
	} {
		g := f.Clone()
		require.ErrorContains(t, g.Set(c.name, c.v), c.want)
		require.False(t, g.Get(c.name).Known())
		require.Equal(t, Number(3.5), f.Get("depth_in"), "the original is its own")
	}
	require.NoError(t, f.Set("depth_in", Unknown()))
	require.False(t, f.Get("depth_in").Known())
	var zero Facts
	require.Error(t, zero.Set("place", Text("attic")))
	require.False(t, zero.Get("place").Known())
}
