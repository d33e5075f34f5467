package main

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// everyProse gathers all prose below a value, whatever holds it.
func everyProse(v reflect.Value, out *[]units.Prose) {
	switch v.Kind() {
	case reflect.String:
		if v.Type() == reflect.TypeFor[units.Prose]() {
			*out = append(*out, units.Prose(v.String()))
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() && v.Type() != reflect.TypeFor[*rules.Book]() {
			everyProse(v.Elem(), out)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			everyProse(v.Field(i), out)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			everyProse(v.Index(i), out)
		}
	case reflect.Map:
		for _, key := range v.MapKeys() {
			everyProse(v.MapIndex(key), out)
		}
	}
}

// No question, help, word, rule or other prose of the data has a figure in US
// units when SI is shown, and none shows a brace.
func TestNothingIsLeftInUSUnits(t *testing.T) {
	c, err := env{}.loadCatalog("")
	require.NoError(t, err)
	var all []units.Prose
	for _, v := range []any{c, c.Words(), c.Helps(), c.Climates(), c.Acceptance()} {
		everyProse(reflect.ValueOf(v), &all)
	}
	for _, l := range []*house.QuestionList{house.NewList(c), inspect.FoundList(c)} {
		for _, q := range l.Questions {
			all = append(all, q.Prompt, q.How)
			for _, o := range q.Options {
				all = append(all, o.Label)
			}
		}
	}
	turned := 0
	for _, p := range all {
		found, _ := p.Problem()
		require.Empty(t, found, string(p))
		us, si := p.In(units.US), p.In(units.SI)
		require.NotContains(t, us+si, "{", string(p))
		require.Empty(t, fixture.LeftInUS(si), string(p))
		if us != si {
			turned++
		}
	}
	require.Greater(t, len(all), 1500)
	require.Greater(t, turned, 80)
	for _, r := range c.Book().Rules() {
		require.Empty(t, fixture.LeftInUS(pages.RuleText(c, r, units.SI)), r.ID)
		require.Empty(t, fixture.LeftInUS(units.Prose(r.Effect.NeedValue).In(units.SI)), r.ID)
		asked := c.Caution(rules.Hit{Rule: r, Unknown: []string{"any"}}, units.SI)
		require.NotContains(t, asked, "{", r.ID)
		require.Empty(t, fixture.LeftInUS(asked), r.ID)
	}
}
