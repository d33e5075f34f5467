package candidate

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// New blankets over old ones: nothing is squeezed into room that the old ones
// fill, all that stands above the joists lies across them (in strips between
// trusses), and what lies there counts for heat and height. About 3 of R an
// inch is what the question itself tells the builder (practice).
func TestOverOldBlankets(t *testing.T) {
	c := fixture.Catalog(t)
	for _, size := range []string{"2x4", "2x6", "2x8", "2x10"} {
		for _, practice := range []string{"standard", "trusses"} {
			before := assess(t, c, cold, fmt.Sprintf("kind = \"attic\"\nframing.size = %q\nframing.practice = %q\nexisting_r = 0", size, practice))
			for _, have := range []float64{5, 11, 19, 30, 45} {
				r := assess(t, c, cold, fmt.Sprintf("kind = \"attic\"\nframing.size = %q\nframing.practice = %q\nexisting_r = %g", size, practice, have))
				name := fmt.Sprintf("%s %s over R-%g", size, practice, have)
				s := r.Surface
				require.InDelta(t, have/3, s.OldIn, 0.26, name)
				require.InDelta(t, math.Max(0, s.Frame.DepthIn-s.OldIn), s.Frame.RoomIn, 1e-9, name)
				require.NotEmpty(t, r.Candidates, name)
				for _, a := range r.Candidates {
					require.NotEmpty(t, a.Layers, name)
					first := a.Layers[0]
					if first.RoomIn > s.Frame.RoomIn+c.Settings.GapOKIn {
						require.Equal(t, practice != "trusses", first.Across, "%s: %s", name, first.Product.ID)
					}
					require.Greater(t, a.Heat.AssemblyR, have*0.7, "%s: the old blanket counts too", name)
					require.GreaterOrEqual(t, fullHeel(s, a.Blankets), s.OldIn+a.HeightIn+1-1e-9, name)
				}
				require.Less(t, r.Candidates[0].Heat.AtStake, before.Candidates[0].Heat.AtStake, "%s: less is at stake where something lies", name)
			}
		}
	}
}

// A hollow that is hardly there changes nothing.
func TestALittleOldBlanketIsNone(t *testing.T) {
	r := assess(t, fixture.Catalog(t), cold, "kind = \"attic\"\nframing.size = \"2x6\"\nexisting_r = 0.5")
	require.Zero(t, r.Surface.OldIn)
	require.InDelta(t, 5.5, r.Surface.Frame.RoomIn, 1e-9)
}

// The row of the retarder table stands for its stud, whatever usual batt fills
// it (IRC 2021 R702.7 table (4), recalled: R-5 over 2x6 and R-3 over 2x4 in
// zones 4 to 6); deeper cavities ask for more in proportion.
func TestBoardBesideAPaperFace(t *testing.T) {
	for _, row := range []struct {
		size  string
		board float64
		thin  bool
	}{{"2x4", 3, false}, {"2x4", 2, true}, {"2x6", 5, false}, {"2x6", 4, true}, {"2x8", 5, true}, {"2x8", 8, false}} {
		r := assess(t, fixture.Catalog(t), "zone = \"5A\"", fmt.Sprintf("kind = \"exterior-wall\"\nframing.size = %q\nci_r = %g\ntarget_r = 1\nretarder = \"smart\"", row.size, row.board))
		for _, a := range r.Candidates {
			require.Equal(t, row.thin, a.Facing.ThinBoard, "%s with R-%g: %s", row.size, row.board, a.Layers[0].Product.ID)
		}
	}
}

// In the hottest zones nothing tight goes inside, whatever the edition says
// (zones 1 and 2: no class I or II in the 2021 table, read; older editions are
// silent; that they bar it there as well is memory).
func TestNothingTightInsideInTheHottestZones(t *testing.T) {
	for _, zone := range []string{"1A", "2A", "2B"} {
		for _, edition := range []string{"irc-2009", "irc-2018", "irc-2021", "irc-2024"} {
			for _, cooled := range []bool{true, false} {
				for _, place := range []string{"kind = \"exterior-wall\"", "kind = \"rim-joist\"", "kind = \"sloped-ceiling\""} {
					r := assess(t, fixture.Catalog(t), fmt.Sprintf("zone = %q\ncode = %q\ncooled = %v", zone, edition, cooled), place)
					for _, a := range r.Candidates {
						require.Equal(t, "none", a.Facing.Retarder(), "%s %s %s", zone, edition, place)
						require.Equal(t, RetarderBarred, a.Facing.Asked)
					}
				}
			}
		}
	}
}
