package budget

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// From is where a published row comes from and how it is known.
type From struct {
	Source string `json:"source"`
	Mark   string `json:"mark"`
}

// published is testdata/published/budget.json.
type published struct {
	Sources map[string]string `json:"sources"`
	Tiny    struct {
		Places []struct {
			Cents []units.Cents `json:"cents"`
			Value []float64     `json:"value"`
		} `json:"places"`
		Answers []struct {
			Budget  units.Cents `json:"budget_cents"`
			Missing units.Cents `json:"missing_cents"`
			Picks   []int       `json:"picks"`
			Value   float64     `json:"value"`
			Cost    units.Cents `json:"cost_cents"`
		} `json:"answers"`
		Front [][2]float64 `json:"front"`
		From
	} `json:"tiny"`
	Greedy struct {
		Rows []struct {
			Budget      units.Cents `json:"budget_cents"`
			Greedy      float64     `json:"greedy"`
			GreedyCents int64       `json:"greedy_cents"`
			Optimum     float64     `json:"optimum"`
		} `json:"rows"`
		From
	} `json:"greedy"`
	Generated struct {
		Seed    uint64         `json:"seed"`
		Options int            `json:"options"`
		Rows    []generatedRow `json:"rows"`
		From
	} `json:"generated"`
	Office struct {
		Offices []struct {
			ID      string  `json:"id"`
			Dollars float64 `json:"extra_dollars"`
			Benefit float64 `json:"benefit"`
		} `json:"offices"`
		PerPoint []float64 `json:"dollars_per_point"`
		From
	} `json:"office"`
	TriangleVariance []struct {
		Low      int64      `json:"low"`
		Typical  int64      `json:"typical"`
		High     int64      `json:"high"`
		Variance [2]float64 `json:"variance"`
		From
	} `json:"triangle_variance"`
	Prices struct {
		Lines      [][3]float64 `json:"lines_dollars"`
		TypicalSum float64      `json:"typical_sum"`
		Mean       [2]float64   `json:"mean"`
		Variance   float64      `json:"variance"`
		SD         float64      `json:"sd"`
		Odds       []struct {
			Budget float64 `json:"budget"`
			Exact  float64 `json:"exact"`
			Normal float64 `json:"normal"`
		} `json:"odds"`
		AtTypicalSum float64 `json:"at_typical_sum"`
		NineInTen    float64 `json:"nine_in_ten"`
		From
	} `json:"prices"`
	UniformSums []struct {
		N     int      `json:"n"`
		At    [2]int64 `json:"at"`
		Share [2]int64 `json:"share"`
		From
	} `json:"uniform_sums"`
}

type generatedRow struct {
	Family string      `json:"family"`
	Places int         `json:"places"`
	Budget units.Cents `json:"budget_cents"`
	Value  float64     `json:"value"`
	Cost   units.Cents `json:"cost_cents"`
}

func (r generatedRow) name() string { return fmt.Sprintf("%s-%d", r.Family, r.Places) }

func load(t testing.TB) published {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/budget.json")
	require.NoError(t, err)
	var p published
	require.NoError(t, json.Unmarshal(text, &p))
	return p
}

func TestPublishedRowsNameTheirSource(t *testing.T) {
	p := load(t)
	rows := []From{p.Tiny.From, p.Greedy.From, p.Generated.From, p.Office.From, p.Prices.From}
	for _, r := range p.TriangleVariance {
		rows = append(rows, r.From)
	}
	for _, r := range p.UniformSums {
		rows = append(rows, r.From)
	}
	used := map[string]bool{}
	for _, r := range rows {
		require.NotEmpty(t, p.Sources[r.Source], "source %q", r.Source)
		require.NotEmpty(t, r.Mark, "source %q", r.Source)
		used[r.Source] = true
	}
	require.Len(t, used, len(p.Sources), "a listed source is used by no row")
}

func tinyPlaces(p published) []Place {
	var places []Place
	for i, row := range p.Tiny.Places {
		pl := Place{ID: fmt.Sprintf("place %d", i+1)}
		for j := range row.Cents {
			pl.Options = append(pl.Options, Option{fmt.Sprintf("option %d", j), row.Cents[j], row.Value[j]})
		}
		places = append(places, pl)
	}
	return places
}

// splitMix is Vigna's SplitMix64, the generator the instances were made with.
type splitMix uint64

func (s *splitMix) next() uint64 {
	*s += 0x9E3779B97F4A7C15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

func (s *splitMix) share() float64 { return float64(s.next()>>11) / (1 << 53) }

// generate makes one of the seeded houses and half its price span as budget.
func generate(seed uint64, family string, places, options int) ([]Place, units.Cents) {
	r := splitMix(seed)
	house := make([]Place, places)
	span := units.Cents(0)
	for i := range house {
		house[i].ID = fmt.Sprintf("p%04d", i)
		low, high := units.Cents(math.MaxInt64), units.Cents(0)
		for j := range options {
			cost := units.Cents(2000 + r.next()%58001)
			value := familyValue(&r, family, float64(cost))
			house[i].Options = append(house[i].Options, Option{fmt.Sprintf("o%02d", j), cost, value})
			low, high = min(low, cost), max(high, cost)
		}
		span += low + high
	}
	return house, span / 2
}

func familyValue(r *splitMix, family string, cost float64) float64 {
	switch family {
	case "unc":
		return 100 * r.share()
	case "weak":
		return cost/600 + 10*(r.share()-0.5)
	case "house":
		return 100*math.Sqrt(cost/60000) + 12*(r.share()-0.5)
	}
	return cost/600 + 10
}
