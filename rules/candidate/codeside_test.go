package candidate

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// Beside a paper face in 2x6 studs the vapor table of the 2021 code wants
// of board in zone 7 and R-10 in zone 8 (recalled); the energy table R-5. The
// caution begins with both.
func TestThinBoardCautionBeginsWithBothFigures(t *testing.T) {
	for zone, want := range map[string]string{"7": "R-7.5 of board instead of R-5: ", "8": "R-10 of board instead of R-5: "} {
		met := 0
		for _, e := range assess(t, fixture.Catalog(t), fmt.Sprintf("zone = %q\ncode = \"irc-2021\"", zone), "kind = \"exterior-wall\"\nframing.size = \"2x6\"").Candidates {
			for _, h := range e.Verdict.Safety {
				if h.Rule.ID == "thin-board" && e.Heat.AddOutsideR == 5 {
					met++
					require.True(t, strings.HasPrefix(h.Text, want), h.Text)
				}
			}
		}
		require.Positive(t, met, zone)
	}
}

// The old footnote that lets of board stand for R-19 below grade is
// a note, marked as recalled, where the table asks R-19 and nowhere else.
func TestOldFootnoteOfBasementsIsANote(t *testing.T) {
	has := func(zone, code, kind string) bool {
		r := assess(t, fixture.Catalog(t), fmt.Sprintf("zone = %q\ncode = %q", zone, code), kind)
		return strings.Contains(strings.Join(r.Target.Notes, "\n"), "as recalled, R-13 between the studs with R-5 of board")
	}
	const basement, crawl = "kind = \"basement-wall\"", "kind = \"crawl-space\"\nvented = false"
	require.True(t, has("6A", "irc-2009", basement))
	require.True(t, has("5A", "irc-2018", basement))
	require.True(t, has("5A", "irc-2018", crawl))
	require.False(t, has("4A", "irc-2018", basement), "10ci or 13 there")
	require.False(t, has("5A", "irc-2021", basement), "the table itself says so")
}

// R-20 of 5 1/2 in, the batt the tables of 2009 to 2018 are written for, is
// sold (practice): it meets R-20 in a 2x6 wall, and nothing is squeezed.
func TestTheBattTheOldTablesMean(t *testing.T) {
	for _, e := range assess(t, fixture.Catalog(t), "zone = \"5A\"\ncode = \"irc-2018\"", "kind = \"exterior-wall\"\nframing.size = \"2x6\"").Candidates {
		if e.Layers[0].Product.ID == "fg-20" {
			require.True(t, e.Heat.MeetsTarget)
			require.Equal(t, 20.0, e.Heat.CountedR)
			require.Equal(t, 1.0, e.Squeeze)
			return
		}
	}
	t.Fatal("it is not proposed")
}

// A wall of studs 24 in apart has less wood than one of 19.2: .20 against .215
// (National Building Code of Canada, table A-9.36.2.4, recalled).
func TestWiderSpacingNeverHasMoreWood(t *testing.T) {
	last := 1.0
	for _, spacing := range []float64{12, 16, 19.2, 24} {
		share, _, ok := fixture.Catalog(t).WoodShare("wall", "standard", spacing)
		require.True(t, ok)
		require.Less(t, share, last)
		last = share
	}
	require.InDelta(t, 0.20, last, 1e-9)
}
