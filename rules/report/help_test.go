package report_test

import (
	"encoding/json"
	"math/rand/v2"
	"os"
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

func read(t testing.TB, text string) house.Answered {
	t.Helper()
	l := list(t)
	h, err := house.Read(l, "house.toml", text)
	require.NoError(t, err, text)
	return house.Answered{List: l, House: h}
}

func options(t testing.TB) report.Options {
	t.Helper()
	return report.Options{Catalog: list(t).Catalog(), System: units.US}
}

func demoPlan(t testing.TB, name string) plan.Plan {
	t.Helper()
	return plan.Make(read(t, demo.Text(name)))
}

// outputs are the four forms of a plan by name.
func outputs(t testing.TB, p plan.Plan, o report.Options) map[string]string {
	t.Helper()
	b, err := report.JSON(p, o, false)
	require.NoError(t, err)
	table, err := report.CSV(p, o)
	require.NoError(t, err)
	return map[string]string{"text": report.Text(p, o), "markdown": report.Markdown(p, o), "json": string(b), "csv": table}
}

// parsed is the JSON form read back with its numbers as they are written.
func parsed(t testing.TB, p plan.Plan) map[string]any {
	t.Helper()
	b, err := report.JSON(p, options(t), true)
	require.NoError(t, err)
	d := json.NewDecoder(strings.NewReader(string(b)))
	d.UseNumber()
	var out map[string]any
	require.NoError(t, d.Decode(&out))
	return out
}

// walk visits every value of a JSON tree with its path.
func walk(path string, v any, visit func(path string, v any)) {
	visit(path, v)
	switch v := v.(type) {
	case map[string]any:
		for k, e := range v {
			walk(path+"."+k, e, visit)
		}
	case []any:
		for _, e := range v {
			walk(path+"[]", e, visit)
		}
	}
}

// randomAnswer is a valid answer to a question, or none, or "don't know".
func randomAnswer(rng *rand.Rand, q house.Question) house.Answer {
	n := rng.IntN(10)
	if n < 4 {
		return house.Answer{}
	}
	if n < 5 && q.DontKnow {
		return house.DontKnow()
	}
	switch q.Kind {
	case house.NumberKind:
		return house.Number(max(q.Min, float64(int(q.Min+rng.Float64()*(min(q.Max, 400)-q.Min)))))
	case house.YesNoKind:
		return house.YesNo(rng.IntN(2) == 0)
	case house.Choice:
		return house.Text(q.Options[rng.IntN(len(q.Options))].Value)
	case house.TextKind:
		return house.Text(strings.Repeat("Long name ", 1+rng.IntN(12)) + strings.Repeat("x", rng.IntN(90)))
	case house.Many:
		return house.List(q.Options[rng.IntN(len(q.Options))].Value)
	}
	return house.Answer{}
}

// randomPlan is the plan of a house with random places and answers.
func randomPlan(t testing.TB, rng *rand.Rand) plan.Plan {
	t.Helper()
	l := list(t)
	h := house.New()
	for _, q := range l.Questions {
		if q.Scope != house.PlaceScope && (q.Scope != house.Site || q.Key == "code" || q.Key == "indoor") {
			h.Answers.Set(q.FullKey(), randomAnswer(rng, q))
		}
	}
	h.Answers.Set("site.zone", house.Text([]string{"1A", "2A", "3B", "4C", "5A", "6A", "7"}[rng.IntN(7)]))
	kinds := l.PlaceKinds()
	for range 1 + rng.IntN(4) {
		p := h.Add(kinds[rng.IntN(len(kinds))])
		for _, q := range l.In(house.PlaceScope, p.Kind) {
			p.Answers.Set(q.Key, randomAnswer(rng, q))
		}
	}
	return plan.Make(house.Answered{List: l, House: h})
}

type safetyRow struct {
	Say, House, Site, Top, Source, Mark string
	Rules, Install, Silent, Words       []string
	Out                                 map[string]string
	First                               string
	NoFace                              string `json:"no_face"`
	NoBoard                             bool   `json:"no_board"`
	Stops, Nothing                      bool
}

func safetyRows(t testing.TB) []safetyRow {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/plan-checks.json")
	require.NoError(t, err)
	var p struct {
		Sources map[string]string
		Safety  []safetyRow
	}
	require.NoError(t, json.Unmarshal(text, &p))
	for _, r := range p.Safety {
		require.Contains(t, p.Sources, r.Source, r.Say)
		require.NotEmpty(t, r.Mark, r.Say)
	}
	return p.Safety
}
