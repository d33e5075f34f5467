package rules

import (
	"encoding/json"
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

// anyExamples satisfy the loader where a test is not about examples.
func anyExamples() []Example {
	return []Example{{Fires: true}, {Fires: false}}
}

func rule(id string, e Effect, when ...Atom) Rule {
	return Rule{ID: id, When: when, Effect: e, Reason: "because " + id, Source: "s", Known: "standard", Examples: anyExamples()}
}

func is(fact, value string) Atom             { return Atom{Fact: fact, Op: Eq, Values: []string{value}} }
func holds(fact string) Atom                 { return Atom{Fact: fact, Op: Eq, Bool: true} }
func num(fact string, op Op, v float64) Atom { return Atom{Fact: fact, Op: op, Num: v} }

func newBook(t testing.TB, facts []Fact, list []Rule, opts ...Option) *Book {
	t.Helper()
	b, err := NewBook(facts, list, opts...)
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
