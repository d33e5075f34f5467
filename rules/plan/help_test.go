package plan_test

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// printedPlaces are the places of a plan as the JSON form has them, by id.
func printedPlaces(t testing.TB, p plan.Plan) map[string]string {
	t.Helper()
	b, err := pages.JSON(p, planned.Options(t), false)
	require.NoError(t, err)
	var doc struct{ Places []json.RawMessage }
	require.NoError(t, json.Unmarshal(b, &doc))
	out := map[string]string{}
	for _, raw := range doc.Places {
		var id struct{ ID string }
		require.NoError(t, json.Unmarshal(raw, &id))
		out[id.ID] = string(raw)
	}
	return out
}

type scoreRow struct {
	Place, Site, House, Source, Mark string
	Scores                           map[string]float64
	Within                           float64
}

type orderRow struct {
	When, Source, Mark string
	Levels             map[string]float64
	Places, Order      []string
	Equal              []string
	NotFirstBefore     string `json:"not_first_before"`
}

type published struct {
	Sources    map[string]string
	NearScores []scoreRow `json:"near_scores"`
	Orders     []orderRow
}

func figures(t testing.TB) published {
	t.Helper()
	var p published
	fixture.Published(t, "plan-checks.json", &p)
	for _, r := range p.NearScores {
		require.Contains(t, p.Sources, r.Source)
		require.NotEmpty(t, r.Mark)
	}
	return p
}

func shuffled[T any](rng *rand.Rand, in []T) []T {
	out := slices.Clone(in)
	rng.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}
