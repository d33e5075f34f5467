package rules

import (
	"encoding/json"
	"maps"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// published is testdata/published/rules.json: figures from outside the program,
// each with its source and how it is known.
type published struct {
	Sources map[string]struct{ Text, Mark string }
	Kleene  struct {
		Source string
		Rows   [][3]string
	} `json:"kleene_and"`
	Zones2021 zoneTable `json:"zones_2021"`
	Zones2018 zoneTable `json:"zones_2018"`
	Stations  struct {
		Source string
		Rows   []struct {
			Place   string
			HDD     float64 `json:"hdd65_f"`
			CDD     float64 `json:"cdd50_f"`
			Zone    int     `json:"county_zone"`
			Differs bool
		}
	}
	Corners struct {
		Source string
		Cases  [][4]int // axes, side, side of the corner taken off, points left
	}
}

type zoneTable struct {
	Source string
	Rows   []struct {
		Zone     int
		CDDAbove *float64 `json:"cdd_above"`
		CDDTo    *float64 `json:"cdd_to"`
		HDDAbove *float64 `json:"hdd_above"`
		HDDTo    *float64 `json:"hdd_to"`
	}
}

func readPublished(t testing.TB) published {
	t.Helper()
	text, err := os.ReadFile("../testdata/published/rules.json")
	require.NoError(t, err)
	var p published
	require.NoError(t, json.Unmarshal(text, &p))
	for _, used := range []string{
		p.Kleene.Source, p.Zones2021.Source, p.Zones2018.Source, p.Stations.Source, p.Corners.Source,
	} {
		require.NotEmpty(t, p.Sources[used].Text, used)
		require.Contains(t, []string{"read", "secondary", "memory", "computed"}, p.Sources[used].Mark, used)
	}
	return p
}

// rule makes a rule that the book accepts where a test is not about examples.
func rule(id string, e Effect, where ...Where) Rule {
	return Rule{
		ID: id, Where: all(where...), Effect: e, Reason: "because " + id, Source: "s", Known: "standard",
		FiresOn: []Case{{}}, SilentOn: []Case{{}},
	}
}

// all joins conditions; two ends of one number become one table.
func all(list ...Where) Where {
	out := Where{}
	for _, w := range list {
		for name, asked := range w {
			ends, one := asked.(map[string]any)
			before, two := out[name].(map[string]any)
			if one && two {
				ends = maps.Clone(ends)
				maps.Copy(ends, before)
				asked = ends
			}
			out[name] = asked
		}
	}
	return out
}

func is(fact, value string) Where            { return Where{fact: value} }
func holds(fact string) Where                { return Where{fact: true} }
func num(fact, end string, v float64) Where  { return Where{fact: map[string]any{end: v}} }
func oneOf(fact string, values ...any) Where { return Where{fact: values} }

func newBook(t testing.TB, facts []Fact, list []Rule, never ...Where) *Book {
	t.Helper()
	b, err := NewBook(facts, list, never...)
	require.NoError(t, err)
	return b
}

func factsOf(t testing.TB, b *Book, values map[string]Value) *Facts {
	t.Helper()
	f := b.NewFacts()
	for name, v := range values {
		require.NoError(t, f.Set(name, v))
	}
	return f
}

func ids(hits []Hit) []string {
	out := []string{}
	for _, h := range hits {
		out = append(out, h.Rule.ID)
	}
	return out
}
