package candidate

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

func joists(size string, heel float64, more string) string {
	return fmt.Sprintf("kind = \"attic\"\nframing.size = %q\nframing.practice = \"standard\"\nframing.spacing_in = 16\nheel_in = %g\n%s", size, heel, more)
}

// Over 2x8 joists R-25 + R-30 stands 16 3/4 in high, 17 3/4 in with the inch of
// airway, and has R-49; two R-25 count 48.65 (the bottom one is worth 23.65 in
// 7 1/4 in) and do not, though they round to 49. Full height: IECC R402.2.1 as
// recalled.
func TestFullHeightAsksTheWholeR(t *testing.T) {
	c := fixture.Catalog(t)
	a, p := ofPlace(t, c, "zone = \"6A\"\ncode = \"irc-2021\"", joists("2x8", 17.75, ""))
	s, site := surfaceOf(a, p), ResolveSite(a)
	fits, _ := Fit(s, c)
	target := targetOf(s, site, c, mostCavityR(fits))
	require.Equal(t, 49.0, target.FullHeightR)
	met := 0
	for _, b := range fits {
		if len(b.Layers) != 2 {
			continue
		}
		switch b.Layers[0].Product.ID + " " + b.Layers[1].Product.ID {
		case "fg-25 fg-25":
			met++
			require.InDelta(t, 48.65, b.CavityR, 0.01)
			require.Equal(t, 49.0, b.counted())
			require.False(t, hasFullR(target, b))
			require.InDelta(t, 49-48.65, shortBy(s, target, b), 0.01, "it runs full height: the lack is of the R that serves there")
			low := s
			low.HeelIn = 16
			require.InDelta(t, 60-49, shortBy(low, target, b), 0.01, "here the roof squeezes it")
		case "fg-25 fg-30":
			met++
			require.InDelta(t, 17.75, fullHeel(s, b), 1e-9)
			require.True(t, enough(s, target, b))
		}
	}
	require.Equal(t, 2, met)
}

// With a heel that is high enough the lower R is planned; with a low one the
// heel named is that of the lower R, not of the R-60 stack.
func TestHeelForTheRThatServes(t *testing.T) {
	c := fixture.Catalog(t)
	high := assess(t, c, "zone = \"6A\"\ncode = \"irc-2021\"", joists("2x8", 17.75, ""))
	require.Equal(t, 49.0, high.Target.EnoughR)
	first := high.Candidates[0]
	require.Equal(t, "fiberglass", first.Material.ID)
	require.Equal(t, 49.0, first.Heat.FullHeightR)
	require.True(t, first.Heat.MeetsTarget)
	require.Zero(t, first.Heat.EaveShortIn)

	low := assess(t, c, "zone = \"6A\"\ncode = \"irc-2021\"", joists("2x8", 5.5, ""))
	require.Equal(t, 60.0, low.Target.EnoughR)
	for _, e := range low.Candidates {
		require.Zero(t, e.Heat.FullHeightR)
		if e.Material.ID == "fiberglass" {
			require.InDelta(t, 16.25, e.Heat.FullHeelIn, 1e-9, "R-30 of 8 1/4 in squeezed into 7 1/4, R-25 of 8 in across, an inch of air")
		}
	}
	trusses := assess(t, c, "zone = \"6A\"\ncode = \"irc-2021\"", "kind = \"attic\"\nframing.size = \"2x4\"\nframing.practice = \"trusses\"")
	require.InDelta(t, 15, trusses.Candidates[0].Heat.FullHeelIn, 0.5, "about 15 in, as by one R-49 batt of 14 in")
}

// Over what the ceiling carries (1.3 lb/ft2 on 1/2 in drywall 24 in apart, 2.2
// else: rules of thumb) nothing is planned, whatever drywall was typed, and a
// fiber that only a heavier stack would bring to the target says so.
func TestCeilingLoadIsALimit(t *testing.T) {
	c := fixture.Catalog(t)
	limited := 0
	for _, drywall := range []string{"half", "five-eighths"} {
		for _, spacing := range []float64{16, 24} {
			limit := 2.2
			if drywall == "half" && spacing == 24 {
				limit = 1.3
			}
			r := assess(t, c, "zone = \"6A\"", fmt.Sprintf("kind = \"attic\"\nframing.size = \"2x8\"\nframing.practice = \"standard\"\nframing.spacing_in = %g\ndrywall = %q", spacing, drywall))
			require.NotEmpty(t, r.Candidates)
			for _, e := range r.Candidates {
				require.LessOrEqual(t, e.Heat.CeilingLbFt2, limit, e.Material.ID)
				for _, h := range e.Verdict.Safety {
					require.NotEqual(t, "attic-load", h.Rule.ID)
				}
				for _, h := range e.Verdict.Against {
					if h.Rule.ID == "attic-heavy" {
						limited++
						require.Contains(t, h.Text, fmt.Sprintf("%.1f lb/ft2", limit))
						require.False(t, e.Heat.MeetsTarget)
					}
				}
				for _, h := range e.Verdict.Install {
					require.False(t, limit > 2 && strings.Contains(h.Text, "5/8"), h.Text)
				}
			}
			for _, u := range r.Unfit {
				if strings.Contains(u.Why, "too heavy") {
					limited++
				}
			}
		}
	}
	require.Positive(t, limited)
}

// R-30 serves where rafters hold no more, on a fifth of the whole ceiling and
// 500 ft2 at most (IECC R402.2.2, recalled): 180 of 1,180 ft2 is within 236, 430
// of 1,230 is not, 246 of it would be; a fifth of 4,000 would be 800, but 500 is
// the most. A guessed area gives nothing.
func TestSlopedException(t *testing.T) {
	c := fixture.Catalog(t)
	slope := func(atticFt2, slopeFt2 float64, size string) PlaceResult {
		attic := "id = \"attic\"\nkind = \"attic\""
		if atticFt2 > 0 {
			attic += fmt.Sprintf("\narea_ft2 = %g", atticFt2)
		}
		a := fixture.ReadOver(t, c, fixture.PlacesText("zone = \"5A\"\ncode = \"irc-2021\"", attic, fmt.Sprintf("id = \"s\"\nkind = \"sloped-ceiling\"\narea_ft2 = %g\nframing.size = %q", slopeFt2, size)))
		return Assess(a, &a.House.Places[1], ResolveSite(a))
	}
	within := slope(1000, 180, "2x10")
	require.Equal(t, 30.0, within.Target.SlopedR)
	require.True(t, within.Candidates[0].Heat.MeetsTarget)
	require.Equal(t, 30.0, within.Candidates[0].Heat.SlopedR)
	require.Zero(t, within.Candidates[0].Heat.ShortByR)

	for _, row := range []struct {
		attic, slope float64
		says         string
	}{{800, 430, "246 ft2 of slope at most"}, {3400, 600, "500 ft2 of slope at most"}, {0, 180, "type the area of every ceiling"}} {
		r := slope(row.attic, row.slope, "2x10")
		require.Zero(t, r.Target.SlopedR, row.says)
		require.False(t, r.Candidates[0].Heat.MeetsTarget)
		require.Contains(t, strings.Join(r.Target.Notes, "\n"), row.says)
	}
	require.Zero(t, slope(1000, 180, "2x6").Candidates[0].Heat.SlopedR, "R-30 does not fit there either")
}

// A blanket of R-30 that is squeezed in its frame does not count as the R-30 that
// serves on a slope, and the note does not read as if it did.
func TestSlopeNoteGoesByWhatCounts(t *testing.T) {
	c := fixture.Catalog(t)
	for size, says := range map[string]bool{"2x8": true, "2x12": false} {
		p := assess(t, c, "zone = \"2A\"\ncode = \"irc-2021\"", fmt.Sprintf("kind = \"sloped-ceiling\"\narea_ft2 = 700\nframing.size = %q\nframing.spacing_in = 24\n", size))
		notes := strings.Join(p.Target.Notes, "\n")
		require.Contains(t, notes, "counts R-30 as it lies", size)
		require.Equal(t, says, strings.Contains(notes, "no blanket in our tables counts R-30 in this frame as it lies; the most is R-27"), notes)
	}
}
