package plan_test

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/rules/units"
	"battwright/testdata/demo"
)

var loaded = sync.OnceValues(func() (*house.QuestionList, error) {
	c, err := catalog.Load(data.Files, nil)
	if err != nil {
		return nil, err
	}
	return house.NewList(c), nil
})

func list(t testing.TB) *house.QuestionList {
	t.Helper()
	l, err := loaded()
	require.NoError(t, err)
	return l
}

// read reads a house file text.
func read(t testing.TB, text string) house.Answered {
	t.Helper()
	l := list(t)
	h, err := house.Read(l, "house.toml", text)
	require.NoError(t, err, text)
	return house.Answered{List: l, House: h}
}

// ofPlaces makes a house from the keys of its site and of each place.
func ofPlaces(t testing.TB, site string, places ...string) house.Answered {
	t.Helper()
	return read(t, "version = 1\nold = false\n[site]\n"+site+"\n[[place]]\n"+strings.Join(places, "\n[[place]]\n")+"\n")
}

func demoHouse(t testing.TB, name string) house.Answered {
	t.Helper()
	return read(t, demo.Text(name))
}

func copyOf(a house.Answered) house.Answered {
	a.House = a.House.Clone()
	return a
}

// printed is everything a plan says, as one text.
func printed(t testing.TB, p plan.Plan) string {
	t.Helper()
	o := report.Options{Catalog: list(t).Catalog(), System: units.US}
	b, err := report.JSON(p, o, false)
	require.NoError(t, err)
	table, err := report.CSV(p, o)
	require.NoError(t, err)
	return string(b) + table + report.Text(p, o) + report.Markdown(p, o)
}

// printedPlaces are the places of a plan as the JSON form has them, by id.
func printedPlaces(t testing.TB, p plan.Plan) map[string]string {
	t.Helper()
	b, err := report.JSON(p, report.Options{Catalog: list(t).Catalog(), System: units.US}, false)
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
	text, err := os.ReadFile("../../testdata/published/plan-checks.json")
	require.NoError(t, err)
	var p published
	require.NoError(t, json.Unmarshal(text, &p))
	for _, r := range p.NearScores {
		require.Contains(t, p.Sources, r.Source)
		require.NotEmpty(t, r.Mark)
	}
	return p
}

// randomAnswer is a valid answer to a question, or none, or "don't know".
func randomAnswer(rng *rand.Rand, q house.Question) house.Answer {
	switch n := rng.IntN(10); {
	case n < 4:
		return house.Answer{}
	case n < 5 && q.DontKnow:
		return house.DontKnow()
	}
	switch q.Kind {
	case house.NumberKind:
		v := q.Min + rng.Float64()*(min(q.Max, 400)-q.Min)
		if q.Whole || rng.IntN(2) == 0 {
			v = float64(int(v))
		}
		return house.Number(max(v, q.Min))
	case house.YesNoKind:
		return house.YesNo(rng.IntN(2) == 0)
	case house.Choice:
		return house.Text(q.Options[rng.IntN(len(q.Options))].Value)
	case house.Many:
		var ids []string
		for _, o := range q.Options {
			if rng.IntN(6) == 0 {
				ids = append(ids, o.Value)
			}
		}
		return house.List(ids...)
	}
	return house.Answer{}
}

// answerAll gives a place random answers of its kind, each of which passes
// the question's own check.
func answerAll(t testing.TB, rng *rand.Rand, l *house.QuestionList, p *house.Place) {
	t.Helper()
	for _, q := range l.In(house.PlaceScope, p.Kind) {
		a := randomAnswer(rng, q)
		if a.State == house.Given {
			require.NoError(t, q.Check(a), q.FullKey())
		}
		p.Answers.Set(q.Key, a)
	}
}

// randomHouse has one to five places with random answers in a random county.
func randomHouse(t testing.TB, rng *rand.Rand) house.Answered {
	t.Helper()
	l := list(t)
	h := house.New()
	for _, q := range l.Questions {
		if q.Scope != house.PlaceScope && q.Scope != house.Site {
			h.Answers.Set(q.FullKey(), randomAnswer(rng, q))
		}
	}
	where := [][2]string{{"VT", "Chittenden"}, {"LA", "Orleans"}, {"WA", "King"}, {"FL", "Miami-Dade"}, {"MN", "St. Louis"}, {"AZ", "Maricopa"}, {"", ""}}
	if w := where[rng.IntN(len(where))]; w[0] != "" {
		h.Answers.Set("site.state", house.Text(w[0]))
		h.Answers.Set("site.county", house.Text(w[1]))
	}
	for _, key := range []string{"site.code", "site.indoor", "site.cooled"} {
		q, ok := l.Find(key)
		require.True(t, ok)
		h.Answers.Set(key, randomAnswer(rng, q))
	}
	kinds := l.PlaceKinds()
	for range 1 + rng.IntN(5) {
		answerAll(t, rng, l, h.Add(kinds[rng.IntN(len(kinds))]))
	}
	return house.Answered{List: l, House: h}
}

func shuffled[T any](rng *rand.Rand, in []T) []T {
	out := slices.Clone(in)
	rng.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}
