package rank_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"math/rand/v2"
	"os"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

// published is the data file with every outside figure, its source and mark.
type published struct {
	Textbook struct {
		Source         string    `json:"source"`
		RawSwings      []float64 `json:"raw_swings"`
		WeightsPercent []float64 `json:"weights_percent"`
		Options        []struct {
			ID          string    `json:"id"`
			ValuesOf100 []float64 `json:"values_of_100"`
			Total       float64   `json:"total"`
			Mark        string    `json:"mark"`
		} `json:"options"`
		Group struct {
			Members          []int   `json:"members"`
			Winner           string  `json:"winner"`
			Rival            string  `json:"rival"`
			WinnerLeadsAbove string  `json:"winner_leads_above"`
			CrossoverPercent float64 `json:"crossover_percent"`
			RivalAllOutside  string  `json:"rival_all_outside"`
			RivalAllInside   string  `json:"rival_all_inside"`
		} `json:"group"`
	} `json:"textbook"`
	CentroidWeights []struct {
		Priorities   int      `json:"priorities"`
		Weights      []string `json:"weights"`
		Source, Mark string
	} `json:"centroid_weights"`
	CentroidDecimals []struct {
		Weights      []float64 `json:"weights"`
		Digits       int       `json:"digits"`
		Source, Mark string
	} `json:"centroid_decimals"`
	CentroidTies []struct {
		Levels       []float64 `json:"levels"`
		Weights      []string  `json:"weights"`
		Source, Mark string
	} `json:"centroid_ties"`
	WorkedCase struct {
		IDs            []string   `json:"ids"`
		Values         [][]string `json:"values"`
		CentroidScores []string   `json:"centroid_scores"`
		Winner         string     `json:"winner"`
		Intervals      []struct {
			Weight, Low, High string
			LowTo             string `json:"low_to"`
			HighTo            string `json:"high_to"`
		} `json:"intervals"`
		SharesAny     []shareRow     `json:"shares_any"`
		SharesInOrder []shareRow     `json:"shares_in_order"`
		WinsOf100     map[string]int `json:"wins_of_100"`
		Word          string         `json:"word"`
	} `json:"worked_case"`
	HalfSimplex []struct {
		Differences  []float64 `json:"differences"`
		Share        string    `json:"share"`
		Source, Mark string
	} `json:"half_simplex"`
	TwoPriorities []struct {
		Values       [][]string `json:"values"`
		Shares       []string   `json:"shares"`
		Source, Mark string
	} `json:"two_priorities"`
	Reversal struct {
		Weights      []string             `json:"weights"`
		RawOf100     map[string][]float64 `json:"raw_of_100"`
		Added        string               `json:"added"`
		MinMaxBefore map[string]string    `json:"min_max_before"`
		MinMaxAfter  map[string]string    `json:"min_max_after"`
		FixedScale   map[string]string    `json:"fixed_scale"`
	} `json:"reversal"`
	Curves []struct {
		Corners      [][2]float64 `json:"corners"`
		At           [][2]float64 `json:"at"`
		Beyond       []float64    `json:"beyond"`
		Source, Mark string
	} `json:"curves"`
	Scales []struct {
		Quantity     string       `json:"quantity"`
		Best         float64      `json:"best"`
		Worst        float64      `json:"worst"`
		At           [][2]float64 `json:"at"`
		Beyond       []float64    `json:"beyond"`
		Source, Mark string
	} `json:"scales"`
}

type shareRow struct {
	Share string `json:"share"`
}

func load(t testing.TB) published {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/rank.json")
	require.NoError(t, err)
	var p published
	require.NoError(t, json.Unmarshal(text, &p))
	return p
}

// rat reads an exact fraction.
func rat(t testing.TB, s string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	require.True(t, ok, "fraction %q", s)
	return r
}

func frac(t testing.TB, s string) float64 {
	t.Helper()
	f, _ := rat(t, s).Float64()
	return f
}

func fracs(t testing.TB, list []string) []float64 {
	t.Helper()
	out := make([]float64, len(list))
	for i, s := range list {
		out[i] = frac(t, s)
	}
	return out
}

// workedCase gives the four options of the worked case.
func workedCase(t testing.TB, p published) []rank.Option {
	t.Helper()
	var options []rank.Option
	for i, id := range p.WorkedCase.IDs {
		options = append(options, rank.Option{ID: id, MeetsTarget: true, Values: fracs(t, p.WorkedCase.Values[i])})
	}
	return options
}

// asOptions names rows of values o0, o1 and so on.
func asOptions(values [][]float64) []rank.Option {
	var options []rank.Option
	for i, v := range values {
		options = append(options, rank.Option{ID: fmt.Sprintf("o%d", i), Values: v, MeetsTarget: true})
	}
	return options
}

func seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1009)) }

// randomOptions gives options of one tier. With steps above 0 the values fall
// on a coarse grid, so that ties and twins are common.
func randomOptions(rng *rand.Rand, options, priorities, steps int) []rank.Option {
	values := make([][]float64, options)
	for i := range values {
		values[i] = make([]float64, priorities)
		for k := range values[i] {
			values[i][k] = rng.Float64()
			if steps > 0 {
				values[i][k] = float64(rng.IntN(steps+1)) / float64(steps)
			}
		}
	}
	return asOptions(values)
}

func randomWeights(rng *rand.Rand, priorities int) []float64 {
	raw := make([]float64, priorities)
	for k := range raw {
		raw[k] = 0.05 + rng.ExpFloat64()
	}
	return proportional(raw)
}

// proportional scales parts to add up to 1.
func proportional(parts []float64) []float64 {
	sum, out := 0.0, make([]float64, len(parts))
	for _, x := range parts {
		sum += x
	}
	for k, x := range parts {
		out[k] = x / sum
	}
	return out
}

func randomLevels(rng *rand.Rand, priorities int) []float64 {
	levels := make([]float64, priorities)
	for k := range levels {
		levels[k] = float64(rng.IntN(rank.MaxLevel + 1))
	}
	return levels
}

func winner(t testing.TB, options []rank.Option, weights []float64) string {
	t.Helper()
	id, err := rank.Winner(options, weights)
	require.NoError(t, err)
	return id
}
