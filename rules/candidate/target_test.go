package candidate

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

func text(s string) house.Answer    { return house.Text(s) }
func number(v float64) house.Answer { return house.Number(v) }

// Cells of the minimum-insulation tables (PNNL page, read) as they come out in
// a frame of a given depth.
func TestTargetsInRealFrames(t *testing.T) {
	for _, row := range figures(t).Targets {
		r := assess(t, fixture.Catalog(t), fmt.Sprintf("zone = %q\ncode = %q", row.Zone, row.Code), row.House)
		name := fmt.Sprintf("%s %s %s", row.Code, row.Zone, row.House)
		require.Equal(t, row.Cavity, r.Target.CavityR, name)
		require.Equal(t, row.Board, r.Target.ContinuousR, name)
		require.InDelta(t, sold(row.Add), r.Target.AddR, 1e-9, name)
		if row.By != "" {
			require.Equal(t, row.By, r.Target.By, name)
		}
		require.Equal(t, row.None, !r.Target.Required, name)
		require.NotEmpty(t, r.Target.Text, name)
		if row.None {
			require.Contains(t, r.Target.Text, "no R-value required")
		}
	}
}

// For every edition, zone, part of the house and frame: where one of the
// code's alternatives fits, the one chosen fits, asks the least board of those
// that do, and some blanket meets it.
func TestEveryCellOfTheCodeChoosesWhatFits(t *testing.T) {
	c := fixture.Catalog(t)
	cells, short := 0, 0
	for _, edition := range []string{"irc-2009", "irc-2018", "irc-2021", "irc-2024"} {
		for _, zone := range []string{"1A", "2A", "3A", "4A", "4C", "5A", "6A", "7", "8"} {
			for _, place := range []string{
				"kind = \"attic\"", "kind = \"sloped-ceiling\"", "kind = \"exterior-wall\"", "kind = \"exterior-wall\"\nci_r = 4",
				"kind = \"crawl-space\"\nvented = true", "kind = \"crawl-space\"\nvented = false\nfoam_r = 0", "kind = \"basement-wall\"\nfoam_r = 10",
			} {
				a, p := ofPlace(t, c, fmt.Sprintf("zone = %q\ncode = %q", zone, edition), place)
				site := ResolveSite(a)
				for _, size := range []string{"2x4", "2x6", "2x8", "2x10", "2x12"} {
					p.Answers["framing.size"] = text(size)
					s := surfaceOf(a, p)
					fits, _ := Fit(s, c)
					most := mostCavityR(fits)
					got := targetOf(s, site, c, most)
					alts, _, _, err := c.Codes.Alternatives(edition, site.CodeZone, s.Kind.CodeElement)
					require.NoError(t, err)
					name := fmt.Sprintf("%s %s %s %s: %s", edition, zone, place, size, got.Text)
					fit, least, listed, nearest := false, math.Inf(1), false, math.Inf(1)
					for _, alt := range alts {
						listed = listed || alt.CavityR == got.CavityR && alt.ContinuousR == got.ContinuousR
						nearest = math.Min(nearest, math.Max(0, alt.CavityR-most))
						if alt.CavityR <= most {
							fit, least = true, math.Min(least, math.Max(0, alt.ContinuousR-s.CIR))
						}
					}
					require.True(t, listed, name)
					require.Equal(t, nearest, math.Max(0, got.CavityR-most), name)
					if fit {
						require.Equal(t, sold(least), got.AddR, name)
					} else {
						short++
					}
					// Board still missing is added up, never taken as there.
					require.InDelta(t, sold(math.Max(0, got.ContinuousR-s.CIR)), got.AddR, 1e-9, name)
					meets := false
					for _, b := range choose(fits, func(b Blankets) bool { return enough(s, got, b) }) {
						meets = meets || b.counted() >= got.CavityR
					}
					require.Equal(t, fit, meets, name)
					cells++
				}
			}
		}
	}
	require.Equal(t, 4*9*7*5, cells)
	require.Positive(t, short, "some frames hold no alternative at all: shallow rafters")
}

// sold is the least board that a shop has for what still lacks: half an inch of foam
// is R-3, and an R-2 board is hardly sold (practice).
func sold(lacksR float64) float64 {
	if lacksR <= 0 {
		return 0
	}
	return math.Max(lacksR, 3)
}

// What the drawings say wins over any edition, zone and board.
func TestDrawingsWin(t *testing.T) {
	for _, zone := range []string{"2A", "4C", "8"} {
		for _, want := range []float64{0, 13, 21, 49} {
			r := assess(t, fixture.Catalog(t), fmt.Sprintf("zone = %q", zone), fmt.Sprintf("kind = \"exterior-wall\"\ntarget_r = %g\nci_r = 3", want))
			require.Equal(t, "drawings", r.Target.By)
			require.Equal(t, want, r.Target.CavityR)
			require.Zero(t, r.Target.AddR)
			require.Equal(t, want > 0, r.Target.Required)
			require.Contains(t, r.Target.Text, "as you typed")
		}
	}
}

// A house of which nobody said where it is asks for nothing and says why.
func TestNoZoneIsSaid(t *testing.T) {
	r := assess(t, fixture.Catalog(t), "", "kind = \"exterior-wall\"")
	require.False(t, r.Target.Required)
	require.Contains(t, r.Target.Text, "zone not known")
	require.Contains(t, assess(t, fixture.Catalog(t), cold, "kind = \"chimney\"\nchimney = \"masonry-inside\"").Target.Text, "leaving it empty")
}

// What lies in an attic counts, and never makes the rest negative.
func TestOldBlanketsCount(t *testing.T) {
	for _, have := range []float64{0, 11, 19, 38, 60, 90} {
		r := assess(t, fixture.Catalog(t), cold, fmt.Sprintf("kind = \"attic\"\nexisting_r = %g", have))
		require.Equal(t, math.Max(0, 60-have), r.Target.CavityR)
		require.Equal(t, have < 60, r.Target.Required)
	}
}

// The air kept around each kind of chimney (IRC R1003.18 and R1001.11). Listed
// pipes have no default: without their listing no figure stands in.
func TestClearances(t *testing.T) {
	for _, row := range figures(t).Clearances {
		place := fmt.Sprintf("kind = \"chimney\"\nframing.size = \"2x8\"\nchimney = %q", row.Chimney)
		if row.Listed != nil {
			place += fmt.Sprintf("\nclearance_in = %g", *row.Listed)
		}
		got := assess(t, fixture.Catalog(t), cold, place).Surface
		name := fmt.Sprintf("%s (%s, %s)", place, row.Source, row.Mark)
		require.Equal(t, row.Inches, got.Clearance.Inches, name)
		require.Equal(t, row.Known, got.Clearance.Known, name)
		require.Equal(t, !row.Known, got.Held() != "", name)
		require.NotEmpty(t, got.Clearance.Reason, name)
		require.InDelta(t, 7.25-row.Inches, got.Frame.RoomIn, 1e-9, name)
	}
}

// Each width has its own source and mark: masonry chimneys are read in R1003.18,
// fireplaces stand in R1001.11, their back from memory only, which is said.
// Listed pipes have no figure in the data at all.
func TestClearancesHaveTheirOwnMarks(t *testing.T) {
	c := fixture.Catalog(t)
	of := func(kind string) Clearance {
		return assess(t, c, cold, fmt.Sprintf("kind = \"chimney\"\nchimney = %q", kind)).Surface.Clearance
	}
	for _, kind := range []string{"masonry-inside", "masonry-in-wall", "masonry-outside"} {
		require.Equal(t, []catalog.Ref{{Source: "irc-r1003", Known: catalog.Standard}}, of(kind).From, kind)
		require.NotContains(t, of(kind).Reason, "memory")
	}
	fire := of("masonry-fireplace")
	require.Equal(t, []catalog.Ref{{Source: "irc-r1001", Known: catalog.Secondary}, {Source: "irc-r1001", Known: catalog.Memory}}, fire.From)
	require.Equal(t, catalog.Memory, fire.Ref().Known, "the 4 in that is kept")
	require.Contains(t, fire.Reason, "4 in (from memory, not yet checked)")
	for _, kind := range []string{"factory-built", "type-b-vent", "metal-connector", "pellet-vent", "plastic-vent", "unknown"} {
		require.Empty(t, c.ClearancesOf(kind), kind)
		require.Equal(t, "width not known: read the listing", of(kind).Text(units.US))
		require.Empty(t, of(kind).From, kind)
	}
}

// Air that is there already is not asked twice; a figure never eats more than
// the bay.
func TestBayLeft(t *testing.T) {
	for need := 0.0; need < 12; need += 0.5 {
		for gap := 0.0; gap < 12; gap += 0.5 {
			c := Clearance{Inches: need, GapIn: gap, GapSaid: true}
			got := c.BayLeftIn(5.5)
			require.InDelta(t, math.Min(5.5, math.Max(0, 5.5-math.Max(0, need-gap))), got, 1e-12)
			require.GreaterOrEqual(t, got, Clearance{Inches: need}.BayLeftIn(5.5))
		}
	}
}

// A board that the drawings name beside the blanket is still to be added, less
// what is there.
func TestDrawingsNameABoard(t *testing.T) {
	const head, wall = "version = 1\ndrawings = true\n[drawing_r]\nwall = 20\nwall_board = 5\n[site]\nzone = \"6A\"\n", "[[place]]\nkind = \"exterior-wall\"\nframing.size = \"2x6\"\n"
	for more, add := range map[string]float64{"": 5, "ci_r = 2\n": 3, "ci_r = 10\n": 0} {
		a := fixture.Read(t, head+wall+more)
		target := Assess(a, &a.House.Places[0], ResolveSite(a)).Target
		require.Equal(t, "drawings", target.By)
		require.InDelta(t, 20, target.CavityR, 1e-9)
		require.InDelta(t, 5, target.ContinuousR, 1e-9)
		require.InDelta(t, add, target.AddR, 1e-9, more)
		require.Contains(t, target.Text, "R-20 + 5 board outside, as your drawings")
	}
}

// A figure typed for a place is no word of the drawings, and what the model code
// asks stands beside it (R-20 in zone 4A walls, 2018: IECC table R402.1.2, read).
func TestATypedTargetIsNotTheDrawingsWord(t *testing.T) {
	for r, want := range map[string]string{"5": "R-5, as you typed; the model code asks R-20", "20": "R-20, as you typed"} {
		a := fixture.Read(t, "version = 1\ndrawings = false\nold = false\n[site]\nzone = \"4A\"\ncode = \"irc-2018\"\n[[place]]\nkind = \"exterior-wall\"\nframing.size = \"2x6\"\ntarget_r = "+r+"\n")
		require.Equal(t, want, Assess(a, &a.House.Places[0], ResolveSite(a)).Target.Text)
	}
}
