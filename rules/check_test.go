package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// houseFacts are a small set of facts with every type and origin.
func houseFacts() []Fact {
	return []Fact{
		{Name: "place", Type: Enum, Values: []string{"attic", "wall", "chimney"}, From: FromAnswer},
		{Name: "material", Type: Enum, Values: []string{"glass", "rock", "wool"}, From: FromMaterial},
		{Name: "burns", Type: Boolean, From: FromMaterial},
		{Name: "wet", Type: Boolean, From: FromAnswer},
		{Name: "depth_in", Type: Numeric, Unit: "in", Min: 0, Max: 24, From: FromAnswer},
		{Name: "peak", Type: Numeric, Unit: "g/m2", Min: 0, Max: 5000, From: FromComputed},
	}
}

func TestEveryMistakeHasItsError(t *testing.T) {
	note := Effect{Kind: Install}
	with := func(change func(*Rule)) []Rule {
		r := rule("r", note, is("place", "attic"))
		change(&r)
		return []Rule{r}
	}
	when := func(a Atom) []Rule { return []Rule{rule("r", note, a)} }
	effect := func(e Effect) []Rule { return []Rule{rule("r", e, is("place", "attic"))} }
	over := func(first Effect, firstOver, secondOver []string) []Rule {
		a, b := rule("a", first, is("place", "attic")), rule("b", note, is("place", "wall"))
		a.Overrides, b.Overrides = firstOver, secondOver
		return []Rule{a, b}
	}
	cases := map[string]struct {
		rules []Rule
		want  error
	}{
		"unknown fact":                 {when(is("plaice", "attic")), ErrUnknownFact},
		"value not in the enum":        {when(is("place", "atic")), ErrValue},
		"less than on an enum":         {when(Atom{Fact: "place", Op: Lt, Num: 3}), ErrCondition},
		"two values with eq":           {when(Atom{Fact: "place", Op: Eq, Values: []string{"attic", "wall"}}), ErrCondition},
		"no values with in":            {when(Atom{Fact: "place", Op: In}), ErrCondition},
		"nothing left by not_in":       {when(Atom{Fact: "place", Op: NotIn, Values: []string{"attic", "wall", "chimney"}}), ErrCondition},
		"in on a yes or no":            {when(Atom{Fact: "wet", Op: In, Bool: true}), ErrCondition},
		"text on a yes or no":          {when(is("wet", "true")), ErrCondition},
		"number on a yes or no":        {when(num("wet", Eq, 1)), ErrCondition},
		"text on a number":             {when(is("depth_in", "3")), ErrCondition},
		"yes on a number":              {when(holds("depth_in")), ErrCondition},
		"op unheard of":                {when(num("depth_in", "near", 3)), ErrCondition},
		"no op":                        {when(num("depth_in", "", 3)), ErrCondition},
		"threshold too high":           {when(num("depth_in", Lt, 25)), ErrValue},
		"threshold below the range":    {when(num("depth_in", Gt, -1)), ErrValue},
		"threshold not a number":       {when(num("depth_in", Gt, math.NaN())), ErrValue},
		"threshold infinite":           {when(num("depth_in", Le, math.Inf(1))), ErrValue},
		"upper end outside":            {when(Atom{Fact: "depth_in", Op: Between, Num: 3, Num2: 99}), ErrValue},
		"ends swapped":                 {when(Atom{Fact: "depth_in", Op: Between, Num: 5, Num2: 3}), ErrCondition},
		"ends equal":                   {when(Atom{Fact: "depth_in", Op: Between, Num: 5, Num2: 5}), ErrCondition},
		"no condition":                 {with(func(r *Rule) { r.When = nil }), ErrCondition},
		"no id":                        {with(func(r *Rule) { r.ID = "" }), ErrID},
		"same id twice":                {append(with(func(*Rule) {}), with(func(*Rule) {})...), ErrID},
		"no source":                    {with(func(r *Rule) { r.Source = " " }), ErrGround},
		"not said how it is known":     {with(func(r *Rule) { r.Known = "" }), ErrGround},
		"exclude from memory":          {with(func(r *Rule) { r.Effect, r.Known = Effect{Kind: Exclude}, "memory" }), ErrGround},
		"danger from memory":           {with(func(r *Rule) { r.Effect, r.Known = Effect{Kind: Safety, Severity: 1}, "memory" }), ErrGround},
		"danger invented":              {with(func(r *Rule) { r.Effect, r.Known = Effect{Kind: Safety, Severity: 1}, "invented" }), ErrGround},
		"no reason":                    {with(func(r *Rule) { r.Reason = "" }), ErrReason},
		"reason names no fact":         {with(func(r *Rule) { r.Reason = "about {deep}" }), ErrReason},
		"brace left open":              {with(func(r *Rule) { r.Reason = "about {depth_in" }), ErrReason},
		"brace closes nothing":         {with(func(r *Rule) { r.Reason = "about depth_in}" }), ErrReason},
		"no examples":                  {with(func(r *Rule) { r.Examples = nil }), ErrExample},
		"no example that fires":        {with(func(r *Rule) { r.Examples = []Example{{}, {}} }), ErrExample},
		"no example that stays silent": {with(func(r *Rule) { r.Examples = []Example{{Fires: true}} }), ErrExample},
		"example names no fact":        {with(func(r *Rule) { r.Examples[0].Facts = map[string]Value{"x": Bool(true)} }), ErrUnknownFact},
		"example value does not fit":   {with(func(r *Rule) { r.Examples[0].Facts = map[string]Value{"wet": Number(1)} }), ErrValue},
		"no kind":                      {effect(Effect{}), ErrEffect},
		"kind unheard of":              {effect(Effect{Kind: "praise"}), ErrEffect},
		"adjust without criterion":     {effect(Effect{Kind: Adjust, Delta: 0.1, Group: "g"}), ErrEffect},
		"adjust without group":         {effect(Effect{Kind: Adjust, Delta: 0.1, Criterion: "fire"}), ErrEffect},
		"adjust by too much":           {effect(Effect{Kind: Adjust, Delta: -1.01, Criterion: "fire", Group: "g"}), ErrEffect},
		"adjust by nothing":            {effect(Effect{Kind: Adjust, Criterion: "fire", Group: "g"}), ErrEffect},
		"adjust by no number":          {effect(Effect{Kind: Adjust, Delta: math.NaN(), Criterion: "fire", Group: "g"}), ErrEffect},
		"delta on another kind":        {effect(Effect{Kind: For, Delta: 0.1}), ErrEffect},
		"group on another kind":        {effect(Effect{Kind: For, Group: "g"}), ErrEffect},
		"criterion on another kind":    {effect(Effect{Kind: Install, Criterion: "fire"}), ErrEffect},
		"require nothing":              {effect(Effect{Kind: Require}), ErrEffect},
		"need on another kind":         {effect(Effect{Kind: Install, Need: "facing"}), ErrEffect},
		"safety without severity":      {effect(Effect{Kind: Safety}), ErrEffect},
		"severity on another kind":     {effect(Effect{Kind: Install, Severity: 1}), ErrEffect},
		"stop without danger":          {effect(Effect{Kind: Exclude, Stops: true}), ErrEffect},
		"override of nobody":           {over(note, []string{"c"}, nil), ErrOverride},
		"override of an exclude":       {over(Effect{Kind: Exclude}, nil, []string{"a"}), ErrOverride},
		"override of a danger":         {over(Effect{Kind: Safety, Severity: 2}, nil, []string{"a"}), ErrOverride},
		"override of each other":       {over(note, []string{"b"}, []string{"a"}), ErrOverride},
		"override of itself":           {over(note, []string{"a"}, nil), ErrOverride},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			b, err := NewBook(houseFacts(), c.rules)
			require.ErrorIs(t, err, c.want)
			require.Nil(t, b)
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
		"type unknown":  {{Name: "a", Type: 9}},
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
		require.ErrorIs(t, err, ErrDeclaration, name)
	}
}

func TestAllMistakesComeAtOnce(t *testing.T) {
	bad := rule("bad", Effect{Kind: Adjust, Delta: 3}, is("place", "roof"), num("depth_in", Lt, 99))
	bad.Source, bad.Reason, bad.Examples = "", "{x}", nil
	_, err := NewBook(append(houseFacts(), Fact{Name: "odd"}), []Rule{bad, bad}, Impossible(is("place", "moon")), Profile("material", "straw", map[string]Value{"burns": Bool(true)}))
	for _, want := range []error{ErrDeclaration, ErrID, ErrValue, ErrEffect, ErrGround, ErrReason, ErrExample} {
		require.ErrorIs(t, err, want)
	}
	text := err.Error()
	for _, want := range []string{"rule bad", "condition 1", "condition 2", `"roof"`, "outside 0 to 24", "no criterion", "delta 3", "{x}", `"moon"`, `profile of material straw`, "odd"} {
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
		want error
	}{
		{"depth_in", Number(math.NaN()), ErrValue},
		{"depth_in", Number(math.Inf(1)), ErrValue},
		{"depth_in", Number(24.000001), ErrValue},
		{"depth_in", Bool(true), ErrValue},
		{"place", Text("roof"), ErrValue},
		{"place", Text(""), ErrValue},
		{"wet", Text("true"), ErrValue},
		{"nothing", Bool(true), ErrUnknownFact},
	} {
		g := f.Clone()
		require.ErrorIs(t, g.Set(c.name, c.v), c.want)
		require.False(t, g.Get(c.name).Known())
		require.Equal(t, Number(3.5), f.Get("depth_in"), "the original is its own")
	}
	require.NoError(t, f.Set("depth_in", Unknown()))
	require.False(t, f.Get("depth_in").Known())
	var zero Facts
	require.ErrorIs(t, zero.Set("place", Text("attic")), ErrUnknownFact)
	require.False(t, zero.Get("place").Known())
}
