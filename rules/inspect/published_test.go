package inspect_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/heat"
	"battwright/rules/inspect"
	"battwright/testdata/fixture"
)

// Gaps as published: two paths side by side (trade article and trade page,
// read). The same function turns squeezed shares and gaps into R.
func TestPublishedGaps(t *testing.T) {
	for _, r := range figures(t).Parallel {
		got, err := heat.WithVoids(r.Full, r.Other, r.Part, r.Share)
		require.NoError(t, err)
		require.InDelta(t, r.Want, got, r.Within, r.Source)
	}
}

// The derating table (computed from the grades): the grade of each share of
// gaps and what the blanket is then worth.
func TestDeratingTable(t *testing.T) {
	graded := 0
	for _, row := range figures(t).Derating.Rows {
		label, pct, grade := row[1].(float64), row[2].(float64), row[3].(string)
		worth, other, empty := row[4].(float64), row[5].(float64), row[6].(float64)
		got, err := heat.WithVoids(label, other, empty, pct/100)
		require.NoError(t, err)
		require.InDelta(t, worth, got, 0.011, "%v", row)
		if grade == "" {
			continue
		}
		graded++
		g, err := inspect.GradeOf(fixture.Catalog(t).Acceptance().Grades, inspect.Fitting{Void: pct / 100, DepthLeft: 1})
		require.NoError(t, err)
		require.Equal(t, grade, gradeID(t, g), "%v", row)
		modelled, err := heat.WithVoids(label, other, empty, g.VoidShare())
		require.NoError(t, err)
		require.InDelta(t, worth, modelled, 0.011, "%v", row)
	}
	require.Greater(t, graded, 15)
}

func gradeID(t testing.TB, g heat.Grade) string {
	for _, r := range fixture.Catalog(t).Acceptance().Grades {
		if r.Number == int(g) {
			return r.ID
		}
	}
	return ""
}

// Grade limits (2 % and 30 % of the depth read; 5 % and 10 % from memory).
func TestGradeLimits(t *testing.T) {
	for _, r := range figures(t).Grades {
		g, err := inspect.GradeOf(fixture.Catalog(t).Acceptance().Grades, inspect.Fitting{Void: r.Void, Squeezed: r.Squeezed, DepthLeft: r.Left})
		require.NoError(t, err)
		require.Equal(t, r.Grade, gradeID(t, g), "%+v", r)
	}
	for _, f := range []inspect.Fitting{{Void: -0.1}, {Void: 1.1}, {Void: math.NaN()}, {Squeezed: math.Inf(1)}, {DepthLeft: 2}} {
		g, err := inspect.GradeOf(fixture.Catalog(t).Acceptance().Grades, f)
		require.ErrorIs(t, err, inspect.ErrNumber)
		require.Equal(t, heat.Ungraded, g)
	}
}

// What the R-value rule asks of contracts, receipts and labels (16 CFR 460,
// read) is in the lists that offers and hand-over sheets are made from.
func TestLabelLaw(t *testing.T) {
	a := fixture.Catalog(t).Acceptance()
	for _, r := range figures(t).Law {
		require.True(t, slices.ContainsFunc(a.Labels, func(l catalog.LabelItem) bool { return l.ID == r.Label }), r.Says)
		if r.Contract == "" {
			continue
		}
		i := slices.IndexFunc(a.Contract, func(c catalog.ContractItem) bool { return c.Key == r.Contract })
		require.GreaterOrEqual(t, i, 0, r.Says)
		require.True(t, a.Contract[i].Law, r.Says)
		require.Equal(t, "ftc-460", a.Contract[i].Source)
	}
	// Each law item is asked for when an offer says nothing of it.
	r := offered(t, alder(t), "version = 1\n[[part]]\nplace = \"street-wall\"\n")
	all := append(ids(r.Findings), ids(at(t, r, "street-wall").Findings)...)
	for _, law := range figures(t).Law {
		if law.Contract != "" {
			require.Contains(t, all, "missing-"+law.Contract, law.Says)
		}
	}
}

// The points of acceptance, each as a named point with what follows when it
// fails; trade facts without a source say so.
func TestAcceptancePoints(t *testing.T) {
	p, a := figures(t), fixture.Catalog(t).Acceptance()
	for _, r := range p.Points {
		i := slices.IndexFunc(a.Points, func(x catalog.AcceptancePoint) bool { return x.ID == r.ID })
		require.GreaterOrEqual(t, i, 0, r.ID)
		require.Equal(t, r.Result, a.Points[i].Result, r.ID)
		require.NotEmpty(t, a.Points[i].Look)
		require.NotEmpty(t, a.Points[i].Fails)
		if r.Source == "practice" {
			require.Equal(t, catalog.Practice, a.Points[i].Known, r.ID)
			src, ok := fixture.Catalog(t).Source(a.Points[i].Source)
			require.True(t, ok)
			require.Regexp(t, "no (published )?source|no source", src.Title+src.Where, r.ID)
		}
	}
}

// R-19 labeled 6 1/4 in, offered for a bay of 5 1/2 in, counts R-18 (trade
// association page for raters, read).
func TestSqueezedLabelCountsLess(t *testing.T) {
	s := figures(t).Squeezed
	r := offered(t, alder(t), `
[[part]]
place = "street-wall"
material = "fiberglass"
r = 19
thickness_in = 6.25
area_ft2 = 265
facing = "kraft"
facing_side = "room"
`)
	p := at(t, r, "street-wall")
	require.Contains(t, ids(p.Findings), "squeezed")
	require.Equal(t, s.RoomIn, p.Offered.HeightIn)
	require.Equal(t, s.WantR, math.Round(p.Offered.CavityR))
	require.Contains(t, ids(p.Findings), "short")
}
