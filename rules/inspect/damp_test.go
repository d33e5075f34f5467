package inspect_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/candidate"
	"battwright/rules/damp"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// coldWall is a house of one 2x6 wall where the plan wants a paper face.
func coldWall(t testing.TB, system units.System) inspect.Job {
	t.Helper()
	a := fixture.Judged(t, fixture.OfPlaces(t, "state = \"VT\"\ncounty = \"Chittenden\"\ncode = \"irc-2018\"", `
id = "walls"
kind = "exterior-wall"
length_ft = 124
height_ft = 9
openings_ft2 = 180
ci_r = 5
framing.size = "2x6"
framing.spacing_in = 16`))
	a.System = system
	j := planned.Job(a)
	j.System = system
	require.Equal(t, "kraft", j.Plan.Places[0].Choice.Facing.OnBlanket)
	require.Equal(t, damp.HoldsIfSealed, j.Plan.Places[0].Choice.Damp.Word)
	return j
}

// dampJob is a house of one wall that gets wet as it is planned: its builder wants no
// retarder in the cold (the well-known build-ups have it: rules/damp).
func dampJob(t testing.TB) inspect.Job {
	t.Helper()
	j := planned.Job(fixture.Judged(t, fixture.OfPlaces(t, "state = \"MN\"\ncounty = \"St. Louis\"\ncode = \"irc-2021\"", "id = \"walls\"\nkind = \"exterior-wall\"\nlength_ft = 124\nheight_ft = 9\nopenings_ft2 = 180\nframing.size = \"2x6\"\nframing.spacing_in = 16\ncladding = \"vented\"\nretarder = \"none\"")))
	require.True(t, j.Plan.Places[0].Choice.Damp.Alarm())
	return j
}

func said(t testing.TB, list []inspect.Finding, id string) inspect.Finding {
	t.Helper()
	for _, f := range list {
		if f.ID == id {
			return f
		}
	}
	require.Fail(t, "no such finding", id)
	return inspect.Finding{}
}

// The face and the side that a bid names decide its damp check. A vapor
// retarder on the cold side stops nothing on its way in and holds it there
// (practice; the code wants it inside: IRC R702.7). One missing paper is one
// line.
func TestFaceAndSideOfABidDecideDamp(t *testing.T) {
	bid := "[[part]]\nplace = \"walls\"\nmaterial = \"fiberglass\"\nform = \"batt\"\nr = 21\nthickness_in = 5.5\narea_ft2 = 936\n"
	j := coldWall(t, units.US)
	for face, want := range map[string]struct {
		judged  bool
		finding string
	}{
		"facing = \"kraft\"\nfacing_side = \"room\"\n": {true, ""},
		"facing = \"kraft\"\nfacing_side = \"out\"\n":  {true, "facing-side"},
		"facing = \"none\"\n":                          {true, "no-retarder"},
		"facing = \"kraft\"\n":                         {false, ""}, // not said: no verdict
		"":                                             {false, ""},
	} {
		p := at(t, offered(t, j, bid+face), "walls")
		require.Equal(t, want.judged, p.Offered.Damp.Judged(), face)
		wrong := 0
		for _, f := range p.Findings {
			if f.Level == inspect.Wrong {
				wrong++
			}
		}
		if want.finding == "" {
			require.Zero(t, wrong, "%s: %v", face, p.Findings)
			continue
		}
		require.Equal(t, 1, wrong, "%s: one cause, one line: %v", face, p.Findings)
		text := said(t, p.Findings, want.finding).Text
		require.Equal(t, damp.Rank(p.Offered.Damp.Word) > damp.Rank(j.Plan.Places[0].Choice.Damp.Word), strings.Contains(text, "Damp check: "), text)
	}
}

// The same for finished work; and where there is no face, nobody is told to
// turn it.
func TestFaceAndSideFoundDecideDamp(t *testing.T) {
	j := coldWall(t, units.US)
	for face, want := range map[string]struct {
		judged bool
		ask    string
	}{
		"facing = \"kraft\"\nfacing_side = \"room\"\n": {true, ""},
		"facing = \"kraft\"\nfacing_side = \"out\"\n":  {true, "Turn or replace it"},
		"facing = \"none\"\n":                          {true, "Put in the blanket with the agreed face"},
		"facing = \"kraft\"\n":                         {false, ""},
		"void_pct = 0\n":                               {false, ""},
	} {
		p := place(t, found(t, j, "[[place]]\nid = \"walls\"\n"+face), "walls")
		require.Equal(t, want.judged, p.Got.Damp.Judged(), face)
		for _, x := range p.Points {
			if x.Point.ID != "facing-side" {
				continue
			}
			require.Equal(t, want.ask != "", x.State == inspect.Fix, "%s: %s", face, x.Text)
			if want.ask != "" {
				require.Contains(t, x.Ask, want.ask, face)
			}
		}
	}
}

// A wrong face is never better for damp than the planned one, in any place of
// the demo houses that the check can judge, where the code wants a retarder.
func TestNoFaceIsBetterTurned(t *testing.T) {
	tried := 0
	chosen(t, func(j inspect.Job, p plan.Place) {
		if !p.Choice.Damp.Judged() || p.Choice.Facing.OnBlanket == "none" || p.Choice.Facing.Asked != candidate.RetarderWanted {
			return
		}
		text := fmt.Sprintf("[[place]]\nid = %q\nfacing = %q\nfacing_side = \"out\"\n", p.Surface.ID, p.Choice.Facing.OnBlanket)
		got := place(t, found(t, j, text), p.Surface.ID).Got
		require.GreaterOrEqual(t, damp.Rank(got.Damp.Word), damp.Rank(p.Choice.Damp.Word), p.Surface.ID)
		tried++
	})
	require.Positive(t, tried)
}

// A sheet that was agreed is not there because it was agreed: unseen it has no
// verdict, missing it is put up.
func TestAgreedSheetIsLookedFor(t *testing.T) {
	j := planned.Job(fixture.OfPlaces(t, "state = \"VT\"\ncounty = \"Chittenden\"", "id = \"walls\"\nkind = \"exterior-wall\"\nlength_ft = 40\nheight_ft = 9\nci_r = 5\nretarder = \"smart\"\nframing.size = \"2x6\""))
	for text, want := range map[string]struct {
		state inspect.State
		damp  string
	}{"": {inspect.NotSeen, damp.NotJudged}, "sheet = \"smart\"": {inspect.Pass, j.Plan.Places[0].Choice.Damp.Word}, "sheet = \"none\"": {inspect.Fix, ""}} {
		p := place(t, found(t, j, "[[place]]\nid = \"walls\"\nfacing = \"none\"\n"+text+"\n"), "walls")
		require.Equal(t, want.state, state(t, p, "facing-side"), text)
		if want.damp != "" {
			require.Equal(t, want.damp, p.Got.Damp.Word, text)
		}
	}
}

// A face that the plan keeps away settles no damp, whatever the check makes of
// it.
func TestAFaceThePlanHasNotSettlesNoDamp(t *testing.T) {
	j := dampJob(t)
	p := j.Plan.Places[0]
	require.Equal(t, "none", p.Choice.Facing.OnBlanket)
	r := p.Choice.Layers[0].Product
	for _, face := range []string{"kraft", "foil-rated"} {
		text := fmt.Sprintf("[[place]]\nid = \"walls\"\nmaterial = %q\nlabel_r = %g\nthickness_in = %g\nfacing = %q\nfacing_side = \"room\"\n", p.Choice.MaterialID, r.NominalR, r.ThicknessIn, face)
		require.Equal(t, inspect.Fix, state(t, place(t, found(t, j, text), "walls"), "plan-damp"), face)
		bid := fmt.Sprintf("version = 1\n[[part]]\nplace = \"walls\"\nmaterial = %q\nr = %g\nthickness_in = %g\nfacing = %q\nfacing_side = \"room\"\n", p.Choice.MaterialID, r.NominalR, r.ThicknessIn, face)
		require.Contains(t, ids(at(t, offered(t, j, bid), "walls").Findings), "plan-damp", face)
	}
}
