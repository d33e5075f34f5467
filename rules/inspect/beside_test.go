package inspect_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func hasNote(list []catalog.HandoverNote, need string) bool {
	return slices.ContainsFunc(list, func(n catalog.HandoverNote) bool { return n.Needs == need })
}

func pointsOf(s inspect.Sheet) map[string]catalog.AcceptancePoint {
	out := map[string]catalog.AcceptancePoint{}
	for _, x := range s.Points {
		out[x.ID] = x
	}
	return out
}

func partOf(t testing.TB, j inspect.Job, person string, p plan.Place) string {
	t.Helper()
	page, err := inspect.PageFor(j, person)
	require.NoError(t, err)
	for _, x := range page.Parts {
		if x.Title == p.Surface.Label {
			return strings.Join(x.Lines, "\n")
		}
	}
	return ""
}

// What must be in before the blanket, the sheet that keeps it out of a chimney
// gap and the foam in the bays of a cold rim (practice), comes first on the
// sheet, stands on the page of whoever works there and of the store, and is
// asked about when the work is done; where nothing requires it, it is nowhere.
func TestWhatGoesInBeforeTheBlanketComesFirst(t *testing.T) {
	names := map[string]string{"hold-back": "rigid noncombustible sheet", "foam-in-bays": "unfaced foam"}
	point := map[string]string{"hold-back": "hold-back", "foam-in-bays": "bay-foam"}
	met := map[string]int{}
	for _, name := range demo.Names() {
		j := planned.Job(fixture.Demo(t, name))
		for _, s := range sheetsOf(j) {
			for need, words := range names {
				must := slices.ContainsFunc(s.Plan.Beside(j.System), func(b candidate.Beside) bool { return b.Need == need })
				require.Equal(t, must, hasNote(s.First, need), "%s %s %s", name, s.Plan.Surface.ID, need)
				_, asked := pointsOf(s)[point[need]]
				require.Equal(t, must, asked, "%s %s %s", name, s.Plan.Surface.ID, need)
				for _, person := range []string{"installer", "self", "store"} {
					require.Equal(t, must, strings.Contains(partOf(t, j, person, s.Plan), words), "%s %s %s %s", name, s.Plan.Surface.ID, person, need)
				}
				if must {
					met[need]++
				}
				if s.Plan.Surface.Kind.ID == "chimney" && need == "hold-back" {
					require.True(t, must, name)
					require.Equal(t, catalog.ResultStop, pointsOf(s)["hold-back"].Result)
				}
			}
		}
	}
	require.Positive(t, met["hold-back"])
	require.Positive(t, met["foam-in-bays"])
}

// Fiber on all six sides is asked for only where the blanket must fill its bay.
// Beside a chimney it would be an order to fill the gap, and in an attic, under
// a floor, in a slope and at a rim one side is open (practice): those have a
// point of their own, and each place exactly one.
func TestSixSidesOnlyWhereTheBayIsFull(t *testing.T) {
	own := map[string]string{"attic": "snug-attic", "crawl-space": "snug-floor", "sloped-ceiling": "snug-slope", "rim-joist": "snug-rim", "chimney": "hold-back"}
	met := map[string]bool{}
	for _, name := range demo.Names() {
		for _, s := range sheetsOf(demoJob(t, name)) {
			kind := s.Plan.Surface.Kind.ID
			met[kind] = true
			want := own[kind]
			if s.Plan.Surface.Frame.MustFill {
				want = "snug"
			}
			var got []string
			for _, x := range s.Points {
				if strings.HasPrefix(x.ID, "snug") || x.ID == "hold-back" {
					got = append(got, x.ID)
				}
				if !s.Plan.Surface.Frame.MustFill {
					require.NotContains(t, x.Look, "six sides", "%s %s", name, s.Plan.Surface.ID)
				}
			}
			require.Equal(t, []string{want}, got, "%s %s", name, s.Plan.Surface.ID)
		}
	}
	for _, kind := range []string{"attic", "crawl-space", "rim-joist", "chimney", "exterior-wall"} {
		require.True(t, met[kind], kind)
	}
}
