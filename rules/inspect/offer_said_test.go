package inspect_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// In a hot, damp climate the damp comes from outdoors (IRC R702.7: nothing tight
// on the room side there): a face on the outer side is not said to hold it in. Where
// a face makes the place damp enough for mold the bid is wrong, not only asked.
func TestAFaceInAHotClimate(t *testing.T) {
	hotFloor := "kind = \"crawl-space\"\nvented = true\nground_cover = true\ndampness = \"dry\"\nframing.size = \"2x8\"\nframing.spacing_in = 16"
	j, _ := judgedPlace(t, hot, hotFloor)
	foil := line("here", "foil-rated", "")
	room := said(t, at(t, offered(t, j, foil), "here").Findings, "face-unplanned")
	require.Equal(t, inspect.Wrong, room.Level)
	require.Contains(t, room.Ask, "gets damp so")
	out := strings.Replace(foil, `"room"`, `"out"`, 1)
	require.NotContains(t, said(t, at(t, offered(t, j, out), "here").Findings, "facing-side").Text, "hold damp in")
	j, _ = judgedPlace(t, cold, "kind = \"rim-joist\"\nlength_ft = 128")
	require.Contains(t, said(t, at(t, offered(t, j, out), "here").Findings, "facing-side").Text, "hold damp in")
}

// Where the plan has a sheet and no face, a face on the outer side is not said to
// belong on the other: the sheet is asked for.
func TestAFaceOutwardWhereThePlanHasASheet(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\nrule_out = [\"fiberglass\"]\n[site]\n"+cold+"\n[[place]]\nid = \"here\"\n"+thin))
	require.Equal(t, "smart", j.Plan.Places[0].Choice.Facing.Sheet)
	kraft := strings.Replace(line("here", "kraft", "sheet = \"none\"\n"), `"room"`, `"out"`, 1)
	r := offered(t, j, kraft)
	text := said(t, at(t, r, "here").Findings, "facing-side").Text
	require.NotContains(t, text, "wants it toward the room")
	require.Contains(t, strings.Join(r.Questions, "\n"), "on the room side")
}

// Money asked about the way it is off; a board that is there is not asked for; a
// paper face burns in a basement too (IRC R302.10).
func TestBidsAreAskedTheRightQuestion(t *testing.T) {
	j := jobOf(t, vermont, basement+"\nfoam_r = 15")
	bid := "total_usd = 900\n" + line("base", "kraft", "price_usd = 1000\n")
	r := offered(t, j, bid)
	all := strings.Join(r.Questions, "\n")
	require.Contains(t, all, "Why do the lines add up to more than the total?")
	require.Contains(t, strings.Join(offered(t, j, strings.Replace(bid, "900", "1100", 1)).Questions, "\n"), "in none of the lines")
	require.NotContains(t, all, "With which board")
	require.Contains(t, all, "The board is there already")
	require.Contains(t, said(t, at(t, r, "base").Findings, "paper-face-cover").Text, "burns")
}

// What a bid or a form says and nobody could read is not said to be left out.
func TestNotUnderstoodIsNotLeftOut(t *testing.T) {
	j := alder(t)
	text := "version = 1\ngrade = \"best\"\n" + strings.Replace(line("basement", "none", ""), `facing = "none"`, `facing = "foil"`, 1)
	o, problems := inspect.ReadOffer(j, "bid.toml", text)
	require.Len(t, problems, 2)
	r := inspect.JudgeOffer(j, o)
	face := said(t, at(t, r, "basement").Findings, "missing-facing")
	require.Contains(t, face.Text, "NOT UNDERSTOOD, so not judged: bid.toml:9: part[1].facing")
	require.NotContains(t, face.Text, "does not say")
	require.Contains(t, said(t, r.Findings, "missing-grade").Text, "NOT UNDERSTOOD (line 2)")
	require.True(t, r.Offer.Parts[0].NotUnderstood("facing"))
	w := inspect.NewWalk(fixture.Catalog(t))
	_, problems = w.Open(j, "form.toml", "version = 1\n[[place]]\nid = \"basement\"\nfacing = \"foil\"\nsee.off-concrete = 3\nmaterial = \"fiberglass\"\n")
	require.Len(t, problems, 2)
	p := place(t, w.Judge(j), "basement")
	for id, want := range map[string]string{"facing-side": "form.toml:4: place[1].facing", "off-concrete": "form.toml:5:"} {
		x := result(t, p, id)
		require.Equal(t, inspect.NotSeen, x.State, id)
		require.True(t, x.NotUnderstood, id)
		require.Contains(t, x.Text, want)
	}
	require.False(t, result(t, p, "label").NotUnderstood)
	j = jobOf(t, vermont, listed)
	_, _ = w.Open(j, "form.toml", "version = 1\n[[place]]\nid = \"flue\"\nbatt_in_gap = \"ja\"\ngap_in = 2\n")
	gap := result(t, place(t, w.Judge(j), "flue"), "chimney-gap")
	require.Contains(t, gap.Text, "KEEP THE GAP EMPTY", "what could not be read hides no caution")
	require.Contains(t, gap.Text, "NOT UNDERSTOOD")
}
