package candidate

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// ofPlace reads a house of one place from the keys of its site and place.
func ofPlace(t testing.TB, c *catalog.Catalog, site, place string) (house.Answered, *house.Place) {
	t.Helper()
	a := fixture.ReadOver(t, c, fixture.PlacesText(site, "id = \"here\"\n"+place))
	return a, &a.House.Places[0]
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
	Known                 bool
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
	var p published
	fixture.Published(t, "plan-checks.json", &p)
	for _, r := range p.Targets {
		require.Contains(t, p.Sources, r.Source)
		require.NotEmpty(t, r.Mark)
	}
	return p
}
