package pages_test

import (
	"encoding/json"
	"math/big"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// plans are the demo houses and some random ones.
func plans(t *testing.T, n int, visit func(p plan.Plan)) {
	for _, name := range demo.Names() {
		visit(demoPlan(t, name))
	}
	rng := rand.New(rand.NewPCG(31, uint64(n)))
	for range n {
		visit(plan.Make(fixture.RandomHouse(t, rng)))
	}
	visit(plan.Make(house.Answered{List: fixture.List(t), House: house.New()}))
}

// The keys of schema 1. A key may be added; none may go.
var schemaKeys = map[string][]string{
	"":                                       {"schema", "house", "places", "budget", "not_covered", "sources"},
	".house":                                 {"name", "zone", "code", "stage", "assumed", "unknown"},
	".house.assumed[]":                       {"key", "value"},
	".house.unknown[]":                       {"key"},
	".budget":                                {"low_cents", "typical_cents", "high_cents"},
	".sources[]":                             {"id", "title", "known"},
	".places[]":                              {"id", "kind", "label", "area_ft2", "target", "ranking", "safety", "install"},
	".places[].target":                       {"text", "cavity_r", "ci_r", "add_outside_r", "from"},
	".places[].ranking[]":                    {"material", "excluded"},
	".places[].ranking[].values":             {"cost", "sound", "irritants", "fire", "moisture"},
	".places[].ranking[].parts":              {"cost", "sound", "irritants", "fire", "moisture"},
	".places[].ranking[].product":            {"id", "text", "form", "facing", "layers", "nominal_r", "thickness_in"},
	".places[].ranking[].heat":               {"cavity_r", "delivered_r", "assembly_r", "assembly_r_low", "u", "meets_target", "short_by_r", "from"},
	".places[].ranking[].damp":               {"verdict"},
	".places[].ranking[].money":              {"low_cents", "typical_cents", "high_cents", "from"},
	".places[].ranking[].reasons[]":          {"rule", "text", "for"},
	".places[].ranking[].excluded_because[]": {"text"},
	".places[].choice":                       {"rank", "material", "score", "excluded", "values", "parts", "product", "heat", "damp", "money", "reasons"},
	".places[].sure":                         {"word", "wins_of_100"},
	".places[].sure.switches[]":              {"priority", "beyond", "to"},
	".places[].safety[]":                     {"rule", "severity", "text", "source"},
	".places[].install[]":                    {"rule", "text"},
}

func TestJSONKeepsItsKeys(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range demo.Names() {
		walk("", parsed(t, demoPlan(t, name)), func(path string, v any) {
			keys := schemaKeys[path]
			m, ok := v.(map[string]any)
			if keys == nil || !ok {
				return
			}
			seen[path] = true
			for _, k := range keys {
				require.Contains(t, m, k, "%s: %s", name, path)
			}
		})
	}
	require.Len(t, seen, len(schemaKeys), "every group is seen somewhere in the demo houses")
	require.Equal(t, json.Number("1"), parsed(t, demoPlan(t, demo.Default))["schema"])
	require.EqualValues(t, 1, pages.Schema)
}

// What is not there is absent, never null; one line stays one line.
func TestJSONHasNoNulls(t *testing.T) {
	plans(t, 30, func(p plan.Plan) {
		walk("", parsed(t, p), func(path string, v any) { require.NotNil(t, v, path) })
		line, err := pages.JSON(p, planned.Options(t), true)
		require.NoError(t, err)
		require.Equal(t, 1, strings.Count(string(line), "\n"))
		long, err := pages.JSON(p, planned.Options(t), false)
		require.NoError(t, err)
		require.JSONEq(t, string(long), string(line))
	})
}

func exact(t *testing.T, v any) *big.Rat {
	t.Helper()
	n, ok := v.(json.Number)
	require.True(t, ok, "%v is a number", v)
	r, ok := new(big.Rat).SetString(n.String())
	require.True(t, ok, n)
	return r
}

var tenths = regexp.MustCompile(`^\d+(\.\d)?$`)

// The points of the priorities add up to the score exactly, at one decimal,
// as they are printed.
func TestPartsAddUpToTheScore(t *testing.T) {
	n := 0
	plans(t, 40, func(p plan.Plan) {
		walk("", parsed(t, p), func(path string, v any) {
			m, ok := v.(map[string]any)
			if !ok || m["parts"] == nil {
				return
			}
			sum := new(big.Rat)
			for _, part := range m["parts"].(map[string]any) {
				require.Regexp(t, tenths, part.(json.Number).String())
				sum.Add(sum, exact(t, part))
			}
			require.Regexp(t, tenths, m["score"].(json.Number).String())
			require.Zero(t, sum.Cmp(exact(t, m["score"])), "%s: parts %v, score %v", path, m["parts"], m["score"])
			n++
		})
	})
	require.Greater(t, n, 100)
}

// Money is whole cents, in order, and the places add up to the house.
func TestMoneyIsWholeCents(t *testing.T) {
	plans(t, 30, func(p plan.Plan) {
		doc := parsed(t, p)
		walk("", doc, func(path string, v any) {
			if n, ok := v.(json.Number); ok && strings.HasSuffix(path, "_cents") {
				_, err := n.Int64()
				require.NoError(t, err, path)
			}
		})
		sum := map[string]*big.Rat{"low_cents": new(big.Rat), "typical_cents": new(big.Rat), "high_cents": new(big.Rat)}
		for _, place := range doc["places"].([]any) {
			cost := place.(map[string]any)["cost"].(map[string]any)
			for k, total := range sum {
				total.Add(total, exact(t, cost[k]))
			}
			require.LessOrEqual(t, exact(t, cost["low_cents"]).Cmp(exact(t, cost["high_cents"])), 0)
			if choice, ok := place.(map[string]any)["choice"].(map[string]any); ok {
				require.Equal(t, cost["typical_cents"], choice["money"].(map[string]any)["typical_cents"])
			}
		}
		for k, total := range sum {
			require.Zero(t, total.Cmp(exact(t, doc["budget"].(map[string]any)[k])), k)
		}
	})
}

// Every source a figure, a rule or a target names is explained in the list.
func TestEveryFigureSaysWhereItIsFrom(t *testing.T) {
	n := 0
	plans(t, 400, func(p plan.Plan) {
		doc := parsed(t, p)
		known := map[string]bool{}
		for _, s := range doc["sources"].([]any) {
			row := s.(map[string]any)
			known[row["id"].(string)] = true
			require.NotEmpty(t, row["title"])
			require.Contains(t, []any{"standard", "secondary", "practice", "memory", "invented"}, row["known"])
		}
		walk("", doc, func(path string, v any) {
			m, ok := v.(map[string]any)
			if !ok {
				return
			}
			if id, ok := m["source"].(string); ok {
				require.True(t, known[id], "%s: %s", path, id)
			}
			from, ok := m["from"].([]any)
			if !ok {
				return
			}
			for _, id := range from {
				n++
				require.True(t, known[id.(string)], "%s: %s", path, id)
			}
			if strings.HasSuffix(path, ".heat") || strings.HasSuffix(path, ".money") {
				require.NotEmpty(t, from, path)
			}
		})
		for _, place := range p.Places {
			if place.Target.By == "code" {
				require.NotEmpty(t, place.Target.From)
			}
			for _, e := range place.Entries {
				require.True(t, !e.Damp.Judged() || len(e.Damp.From) > 0)
			}
		}
	})
	require.Greater(t, n, 500)
}

// The system of units is a way to show figures: the same choices, the same
// numbers in the JSON form, other words in the text.
func TestUnitsNeverChangeThePlan(t *testing.T) {
	for _, name := range demo.Names() {
		p, us := demoPlan(t, name), planned.Options(t)
		si := us
		si.System = units.SI
		a, b := planned.Forms(t, p, us), planned.Forms(t, p, si)
		require.NotEqual(t, a["text"], b["text"])
		require.Contains(t, b["text"], " m2")
		require.NotContains(t, b["text"], "ft2, 2x")
		require.Equal(t, withoutTexts(t, a["json"]), withoutTexts(t, b["json"]), name)
	}
}

// withoutTexts drops the sentences of the JSON form, which are in the chosen
// units, and keeps every figure and id.
func withoutTexts(t *testing.T, s string) string {
	t.Helper()
	var doc any
	require.NoError(t, json.Unmarshal([]byte(s), &doc))
	walk("", doc, func(_ string, v any) {
		if m, ok := v.(map[string]any); ok {
			delete(m, "text")
			delete(m, "value")
			delete(m, "say")
			delete(m, "assumed")
		}
	})
	b, err := json.Marshal(doc)
	require.NoError(t, err)
	return string(b)
}

// One word says whether a target is met, and a board that is still to be bought
// never counts as there: neither in that word nor in the older key beside it.
func TestJSONSaysWhatIsStillToBuy(t *testing.T) {
	for _, c := range []struct {
		site, place, meets string
		board              float64
	}{
		{"zone = \"6A\"", "kind = \"exterior-wall\"", "with-parts-to-buy", 5},
		{"zone = \"6A\"", "kind = \"exterior-wall\"\nci_r = 5", "yes", 0},
		{"zone = \"5A\"", "kind = \"basement-wall\"", "with-parts-to-buy", 10},
		{"zone = \"5A\"", "kind = \"basement-wall\"\nfoam_r = 10", "yes", 0},
		{"zone = \"5A\"", "kind = \"basement-wall\"\nfoam_r = 0", "no", 10},
		{"zone = \"2A\"", "kind = \"basement-wall\"", "not-asked", 0},
		{"indoor = \"usual\"", "kind = \"exterior-wall\"", "unknown", 0},
		{"zone = \"6A\"", "kind = \"chimney\"\nchimney = \"masonry-inside\"", "not-asked", 0},
		{"zone = \"6A\"", "kind = \"basement-wall\"\ndampness = \"wet\"", "unknown", 10},
		{"zone = \"6A\"", "kind = \"sloped-ceiling\"\nframing.size = \"2x6\"", "no", 0},
	} {
		p := plan.Make(fixture.OfPlaces(t, c.site, "id = \"here\"\n"+c.place))
		b, err := pages.JSON(p, planned.Options(t), false)
		require.NoError(t, err)
		var out struct {
			Places []struct {
				Target struct {
					Meets string
					Add   float64 `json:"add_outside_r"`
				}
				Choice *struct {
					Heat struct {
						Meets bool    `json:"meets_target"`
						Board float64 `json:"counts_board_to_buy_r"`
					}
				}
			}
		}
		require.NoError(t, json.Unmarshal(b, &out))
		got := out.Places[0]
		require.Equal(t, c.meets, got.Target.Meets, c)
		require.Equal(t, c.board, got.Target.Add, c)
		if got.Choice != nil {
			require.Equal(t, c.board, got.Choice.Heat.Board, c)
			require.False(t, c.board > 0 && got.Choice.Heat.Meets, c)
		}
	}
}
