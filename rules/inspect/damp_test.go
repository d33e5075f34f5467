package inspect_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/candidate"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// coldWall is a house of one 2x6 wall where the plan wants a paper face.
func coldWall(t testing.TB, system units.System) inspect.Job {
	t.Helper()
	a := fixture.OfPlaces(t, "state = \"VT\"\ncounty = \"Chittenden\"\ncode = \"irc-2018\"", `
id = "walls"
kind = "exterior-wall"
length_ft = 124
height_ft = 9
openings_ft2 = 180
ci_r = 5
framing.size = "2x6"
framing.spacing_in = 16`)
	a.System = system
	j := planned.Job(a)
	j.System = system
	require.Equal(t, "kraft", j.Plan.Places[0].Choice.Facing.OnBlanket)
	require.Equal(t, candidate.NoBuildUp, j.Plan.Places[0].Choice.Damp.Verdict)
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
// line, in the units that are shown.
func TestFaceAndSideOfABidDecideDamp(t *testing.T) {
	bid := "[[part]]\nplace = \"walls\"\nmaterial = \"fiberglass\"\nform = \"batt\"\nr = 21\nthickness_in = 5.5\narea_ft2 = 936\n"
	for face, want := range map[string]struct{ verdict, finding string }{
		"facing = \"kraft\"\nfacing_side = \"room\"\n": {candidate.NoBuildUp, ""},
		"facing = \"kraft\"\nfacing_side = \"out\"\n":  {candidate.MoldRisk, "facing-side"},
		"facing = \"none\"\n":                          {candidate.MoldRisk, "no-retarder"},
		"facing = \"kraft\"\n":                         {candidate.NotChecked, ""}, // not said: no verdict
		"":                                             {candidate.NotChecked, ""},
	} {
		for system, unit := range map[units.System]string{units.US: "oz/ft2", units.SI: "g/m2"} {
			p := at(t, offered(t, coldWall(t, system), bid+face), "walls")
			require.Equal(t, want.verdict, p.Offered.Damp.Verdict, face)
			wrong := 0
			for _, f := range p.Findings {
				if f.Level == inspect.Wrong {
					wrong++
				}
				if system == units.US {
					require.NotContains(t, f.Text+f.Ask, "g/m2", "metric in US output")
				}
			}
			if want.finding == "" {
				require.Zero(t, wrong, "%s: %v", face, p.Findings)
				continue
			}
			require.Equal(t, 1, wrong, "%s: one cause, one line: %v", face, p.Findings)
			text := said(t, p.Findings, want.finding).Text
			require.Contains(t, text, "mold", face)
			require.Contains(t, text, unit, face)
		}
	}
}

// The same for finished work; and where there is no face, nobody is told to
// turn it.
func TestFaceAndSideFoundDecideDamp(t *testing.T) {
	j := coldWall(t, units.US)
	for face, want := range map[string]struct{ verdict, ask string }{
		"facing = \"kraft\"\nfacing_side = \"room\"\n": {candidate.NoBuildUp, ""},
		"facing = \"kraft\"\nfacing_side = \"out\"\n":  {candidate.MoldRisk, "Turn or replace it"},
		"facing = \"none\"\n":                          {candidate.MoldRisk, "Put in the blanket with the agreed face"},
		"facing = \"kraft\"\n":                         {candidate.NotChecked, ""},
		"void_pct = 0\n":                               {candidate.NotChecked, ""},
	} {
		p := place(t, found(t, j, "[[place]]\nid = \"walls\"\n"+face), "walls")
		require.Equal(t, want.verdict, p.Got.Damp.Verdict, face)
		for _, x := range p.Points {
			if x.Point.ID != "facing-side" {
				continue
			}
			require.Equal(t, want.ask != "", x.State == inspect.Fix, "%s: %s", face, x.Text)
			if want.ask != "" {
				require.Contains(t, x.Text, "mold", face)
				require.Contains(t, x.Ask, want.ask, face)
			}
		}
	}
}

// A wrong face is never better for damp than the planned one, in any place of
// the demo houses that the check can judge, where the code wants a retarder.
func TestNoFaceIsBetterTurned(t *testing.T) {
	rank := map[string]int{candidate.NoBuildUp: 1, candidate.Dries: 2, candidate.MoldRisk: 3, candidate.StaysWet: 4}
	tried := 0
	chosen(t, func(j inspect.Job, p plan.Place) {
		if !p.Choice.Damp.Checked || p.Choice.Facing.OnBlanket == "none" || p.Choice.Facing.Asked != candidate.RetarderWanted {
			return
		}
		text := fmt.Sprintf("[[place]]\nid = %q\nfacing = %q\nfacing_side = \"out\"\n", p.Surface.ID, p.Choice.Facing.OnBlanket)
		got := place(t, found(t, j, text), p.Surface.ID).Got
		require.GreaterOrEqual(t, rank[got.Damp.Verdict], rank[p.Choice.Damp.Verdict], p.Surface.ID)
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
	}{"": {inspect.NotSeen, candidate.NotChecked}, "sheet = \"smart\"": {inspect.Pass, j.Plan.Places[0].Choice.Damp.Verdict}, "sheet = \"none\"": {inspect.Fix, candidate.MoldRisk}} {
		p := place(t, found(t, j, "[[place]]\nid = \"walls\"\nfacing = \"none\"\n"+text+"\n"), "walls")
		require.Equal(t, want.state, state(t, p, "facing-side"), text)
		require.Equal(t, want.damp, p.Got.Damp.Verdict, text)
	}
}

// A face that the plan keeps away settles no damp, whatever the check makes of
// it.
func TestAFaceThePlanHasNotSettlesNoDamp(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n[[place]]\nid = \"p\"\nkind = \"rim-joist\"\n"))
	p := j.Plan.Places[0]
	require.NotNil(t, p.Choice)
	require.Equal(t, "none", p.Choice.Facing.OnBlanket)
	require.Positive(t, p.Choice.Damp.Risk())
	r := p.Choice.Layers[0].Product
	for _, face := range []string{"kraft", "foil-rated"} {
		text := fmt.Sprintf("[[place]]\nid = \"p\"\nmaterial = %q\nlabel_r = %g\nthickness_in = %g\nfacing = %q\nfacing_side = \"room\"\n", p.Choice.MaterialID, r.NominalR, r.ThicknessIn, face)
		require.Equal(t, inspect.Fix, state(t, place(t, found(t, j, text), "p"), "plan-damp"), face)
		bid := fmt.Sprintf("version = 1\n[[part]]\nplace = \"p\"\nmaterial = %q\nr = %g\nthickness_in = %g\nfacing = %q\nfacing_side = \"room\"\n", p.Choice.MaterialID, r.NominalR, r.ThicknessIn, face)
		require.Contains(t, ids(at(t, offered(t, j, bid), "p").Findings), "plan-damp", face)
	}
}
