package candidate

import (
	"encoding/json"
	"os"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
)

var loaded = sync.OnceValues(func() (*catalog.Catalog, error) { return catalog.Load(data.Files, nil) })

func book(t testing.TB) *catalog.Catalog {
	t.Helper()
	c, err := loaded()
	require.NoError(t, err)
	return c
}

// ofPlace reads a house of one place from the keys of its site and place.
func ofPlace(t testing.TB, c *catalog.Catalog, site, place string) (house.Answered, *house.Place) {
	t.Helper()
	l := house.NewList(c)
	text := "version = 1\nold = false\n[site]\n" + site + "\n[[place]]\nid = \"here\"\n" + place + "\n"
	h, err := house.Read(l, "house.toml", text)
	require.NoError(t, err, text)
	return house.Answered{List: l, House: h}, &h.Places[0]
}

func assess(t testing.TB, c *catalog.Catalog, site, place string) PlaceResult {
	t.Helper()
	a, p := ofPlace(t, c, site, place)
	return Assess(a, p, ResolveSite(a))
}

// squeezedRow, targetRow and clearanceRow are rows of the published figures;
// source and mark say where a row is from and how well it is known.
type squeezedRow struct {
	Say, Product, House, Source, Mark string
	Counts, Short                     float64
}

type targetRow struct {
	Zone, Code, House, By, Source, Mark string
	Cavity, Board, Add                  float64
	None                                bool
}

type clearanceRow struct {
	Chimney, Source, Mark string
	Listed                *float64
	Inches                float64
	Known, Barred         bool
}

type published struct {
	Sources map[string]string
	Lumber  struct {
		DepthIn    map[string]float64 `json:"depth_in"`
		ClearBayIn map[string]float64 `json:"clear_bay_in"`
	}
	Squeezed []squeezedRow
	ThickR13 struct {
		LabelR  float64 `json:"label_r"`
		LabelIn float64 `json:"label_in"`
		BayIn   float64 `json:"bay_in"`
		Counts  float64
	} `json:"thick_r13"`
	AtticPair struct {
		Size     string
		TargetR  float64 `json:"target_r"`
		Products []string
		AboutR   float64 `json:"about_r"`
		Within   float64
	} `json:"attic_pair"`
	Proud struct {
		Size, Product string
		StandsIn      float64 `json:"stands_in"`
	}
	CeilingLoad struct {
		R      float64
		LbFt2  map[string]float64 `json:"lb_ft2"`
		Within float64
	} `json:"ceiling_load"`
	Targets    []targetRow
	Clearances []clearanceRow
}

func figures(t testing.TB) published {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/plan-checks.json")
	require.NoError(t, err)
	var p published
	require.NoError(t, json.Unmarshal(text, &p))
	for _, r := range p.Targets {
		require.Contains(t, p.Sources, r.Source)
		require.NotEmpty(t, r.Mark)
	}
	return p
}
