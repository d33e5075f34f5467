package candidate

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// Foam behind a wall below grade that nobody typed is bought in full: R-5 in
// zone 3, R-10 in zones 4 to 6, R-15 in 7 and 8 (practice), or what the chosen
// alternative of the code asks where that is more (cells of the minimum table,
// PNNL page, read). What somebody typed is there.
func TestFoamNobodyTypedIsBoughtInFull(t *testing.T) {
	const basement, crawl = "kind = \"basement-wall\"", "kind = \"crawl-space\"\nvented = false"
	for _, row := range []struct {
		zone, code, place string
		buy               float64
	}{
		{"3C", "irc-2021", basement, 5},
		{"4A", "irc-2021", basement, 10},
		{"5A", "irc-2021", basement, 10}, // 13+5ci in 2x4 studs
		{"5A", "irc-2018", basement, 15}, // 15ci or 19: no blanket in 2x4 studs has R-19
		{"5A", "irc-2018", crawl, 10},    // R-19 fits between 2x6
		{"6A", "irc-2021", crawl, 10},
		{"7", "irc-2021", basement, 15},
		{"8", "irc-2009", crawl, 15},
		{"", "irc-2021", basement, 10}, // no zone known: as in the middle of the country
	} {
		for _, said := range []string{"", "foam_r = \"unknown\"\n"} {
			site := fmt.Sprintf("code = %q", row.code)
			if row.zone != "" {
				site += fmt.Sprintf("\nzone = %q", row.zone)
			}
			r := assess(t, fixture.Catalog(t), site, row.place+"\n"+said)
			name := fmt.Sprint(row, said, r.Target.Text)
			require.Zero(t, r.Surface.CIR, name)
			require.Equal(t, row.buy, r.Target.AddR, name)
			require.False(t, r.Target.Idle, name)
			for _, e := range r.Candidates {
				require.Equal(t, row.buy, e.Heat.AddOutsideR, name)
			}
		}
	}
	typed := assess(t, fixture.Catalog(t), "zone = \"5A\"", "kind = \"basement-wall\"\nfoam_r = 5")
	require.Equal(t, 5.0, typed.Surface.CIR)
	require.Zero(t, typed.Target.AddR, "13+5ci with the board that is there")
	thin := assess(t, fixture.Catalog(t), "zone = \"5A\"", "kind = \"basement-wall\"\nfoam_r = 3")
	require.Equal(t, 7.0, thin.Target.AddR, "who must buy more buys up to the R-10 of the climate, as who has none")
}

// Where the code asks nothing, nothing is planned, unless the builder names a
// fiber or an R; then the board that fiber on concrete needs is bought too.
func TestNothingIsPlannedWhereNothingIsAsked(t *testing.T) {
	c := fixture.Catalog(t)
	for _, zone := range []string{"1A", "2A"} {
		for _, kind := range []string{"kind = \"basement-wall\"", "kind = \"crawl-space\"\nvented = false"} {
			r := assess(t, c, fmt.Sprintf("zone = %q", zone), kind)
			require.True(t, r.Target.Idle, kind)
			require.Zero(t, r.Target.AddR, kind)
			require.NotEmpty(t, r.Candidates, "they are compared all the same")
			for _, wish := range []string{"pin = \"fiberglass\"", "target_r = 13"} {
				r := assess(t, c, fmt.Sprintf("zone = %q", zone), kind+"\n"+wish)
				require.False(t, r.Target.Idle, wish)
				require.Equal(t, 5.0, r.Target.AddR, wish)
			}
		}
	}
	require.True(t, assess(t, c, "zone = \"5A\"", "kind = \"attic\"\nexisting_r = 60").Target.Idle, "what lies there is enough")
	require.False(t, assess(t, c, "", "kind = \"exterior-wall\"").Target.Idle, "without a zone nobody knows what is asked")
}

// Fiber straight on concrete, and a foil face toward the room, are out on both
// kinds of wall below grade (PNNL pages, read).
func TestBelowGradeNothingBareAndNoFoil(t *testing.T) {
	c := fixture.Catalog(t)
	for _, kind := range []string{"kind = \"basement-wall\"", "kind = \"crawl-space\"\nvented = false"} {
		for _, e := range assess(t, c, "zone = \"5A\"", kind+"\nfoam_r = 0").Candidates {
			require.True(t, e.Excluded(), kind)
		}
		kept := 0
		for _, e := range assess(t, c, "zone = \"5A\"", kind+"\nfoam_r = 10").Candidates {
			require.NotEqual(t, "I", e.Facing.Class, kind)
			if !e.Excluded() {
				kept++
			}
		}
		require.Positive(t, kept, kind)
		a, p := ofPlace(t, c, "zone = \"5A\"", kind+"\nfoam_r = 10")
		r := Assess(a, p, ResolveSite(a))
		first := r.Candidates[0]
		foil, err := Given(a, r, ResolveSite(a), GivenStack{Material: *first.Material, Layers: first.Layers, Facing: "foil-rated"})
		require.NoError(t, err)
		require.True(t, foil.Excluded(), kind)
	}
}

// No fiber is ever planned between two tight layers in a rim, and a bid that
// puts foil inside of a board is told so (practice).
func TestNoFoilInsideOfABoardAtARim(t *testing.T) {
	c := fixture.Catalog(t)
	for _, zone := range []string{"2A", "4C", "6A", "8"} {
		a, p := ofPlace(t, c, fmt.Sprintf("zone = %q", zone), "kind = \"rim-joist\"\nci_r = 5")
		site := ResolveSite(a)
		r := Assess(a, p, site)
		for _, e := range r.Candidates {
			require.Equal(t, "none", e.Facing.OnBlanket)
			require.False(t, e.Facing.TwoSheets)
		}
		first := r.Candidates[0]
		foil, err := Given(a, r, site, GivenStack{Material: *first.Material, Layers: first.Layers, Facing: "foil-rated"})
		require.NoError(t, err)
		require.True(t, foil.Facing.TwoSheets, zone)
	}
}
