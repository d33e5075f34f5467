package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

const chimneyWall = "version = 1\nold = false\nstage = \"wired\"\n[site]\nzone = \"5B\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x4\"\nframing.spacing_in = 24\n"

const besideWall = "[[place]]\nid = \"c\"\nlabel = \"Chase\"\nkind = \"chimney\"\ngap_in = 2\nwidth_in = 36\n"

// Foam board burns and keeps the distance of wood to brick (IRC R1003.18): wherever
// that board is bought, put up or looked at, it is said.
func TestBoardStaysOutOfTheChimneysSpace(t *testing.T) {
	for name, x := range map[string]struct {
		house string
		says  bool
	}{
		"outside, to buy":     {chimneyWall + "ci_r = 0\n" + besideWall + "chimney = \"masonry-outside\"\n", true},
		"in the wall, there":  {chimneyWall + "ci_r = 10\n" + besideWall + "chimney = \"masonry-in-wall\"\n", true},
		"inside the house":    {chimneyWall + "ci_r = 10\n" + besideWall + "chimney = \"masonry-inside\"\n", false},
		"no board in the way": {chimneyWall + "ci_r = 0\ntarget_r = 15\n" + besideWall + "chimney = \"masonry-outside\"\n", false},
		"over a rim":          {strings.Replace(chimneyWall, "exterior-wall", "rim-joist", 1) + "ci_r = 5\n" + besideWall + "chimney = \"masonry-outside\"\n", true},
		"without a face":      {strings.Replace(chimneyWall, "5B", "2A", 1) + "ci_r = 5\n" + besideWall + "chimney = \"masonry-outside\"\n", true},
		"no chimney":          {chimneyWall + "ci_r = 10\n", false},
		"a fireplace":         {chimneyWall + "ci_r = 10\n" + besideWall + "chimney = \"masonry-fireplace\"\n", true},
		"a kind not known":    {chimneyWall + "ci_r = 0\n" + besideWall + "chimney = \"unknown\"\n", true},
		"not known at all":    {goingUp("unknown") + "ci_r = 10\n", true},
		"brick, no place":     {goingUp("masonry") + "ci_r = 0\n", true},
		"brick and a pipe":    {goingUp("masonry") + "ci_r = 0\n" + besideWall + "chimney = \"type-b-vent\"\n", true},
		"nothing goes up":     {goingUp("none") + "ci_r = 10\n", false},
	} {
		all := papers(t, fixture.Read(t, x.house))
		for _, paper := range []string{"order", "ask", "handover", "page framer"} {
			require.NotEmpty(t, all[paper], paper)
			require.Equal(t, x.says, strings.Contains(spaced(all[paper]), "Foam board ends where the chimney's air space begins") || strings.Contains(spaced(all[paper]), "keeps the same air space to"), "%s: %s", name, paper)
		}
	}
}

// Foam on concrete and in the bays of a rim burns as well, whoever buys it: the same
// caution (IRC R1003.18), and the same look at finished work.
func TestAllFoamStaysOutOfTheChimneysSpace(t *testing.T) {
	const head = "version = 1\nold = false\nstage = \"framed\"\n[site]\nstate = \"CT\"\ncounty = \"Hartford\"\ncode = \"irc-2009\"\n"
	const cellar = "[[place]]\nid = \"w\"\nkind = \"basement-wall\"\nlength_ft = 136\nheight_ft = 7.5\ndampness = \"dry\"\n"
	const rim = "[[place]]\nid = \"w\"\nkind = \"rim-joist\"\nlength_ft = 136\n"
	const crawl = "[[place]]\nid = \"w\"\nkind = \"crawl-space\"\nvented = false\narea_ft2 = 800\nwall_height_ft = 4\ndampness = \"dry\"\nground_cover = true\n"
	for place, bought := range map[string]bool{cellar: true, cellar + "foam_r = 10\n": true, cellar + "foam_r = 0\n": false, rim: true, crawl: true, crawl + "foam_r = 15\n": true} {
		for kind, id := range map[string]string{"masonry-in-wall": "board-off-chimney", "masonry-fireplace": "board-off-chimney", "plastic-vent": "board-off-pipe", "masonry-inside": ""} {
			a := fixture.Read(t, head+place+besideWall+"chimney = \""+kind+"\"\n")
			all, j := papers(t, a), planned.Job(a)
			all["plan"] = print.Text(pages.PlanPage(j.Plan, planned.Options(t)), 78)
			chimney, pipe := "keeps the same air space to", "as its listing asks of wood"
			for _, paper := range []string{"plan", "order", "ask", "handover", "page framer", "page installer"} {
				if bought || paper == "plan" {
					require.Equal(t, id == "board-off-chimney", strings.Contains(spaced(all[paper]), chimney), "%s %s: %s", paper, kind, place)
					require.Equal(t, id == "board-off-pipe", strings.Contains(spaced(all[paper]), pipe), "%s %s: %s", paper, kind, place)
				}
			}
			for _, point := range []string{"board-off-chimney", "board-off-pipe"} {
				require.Equal(t, id == point, strings.Contains(all["inspect template"], "see."+point), "%s: %s", kind, place)
				require.Equal(t, id == point, strings.Contains(all["form"], titleOf(t, j, point)), "%s: %s", kind, place)
			}
		}
	}
}

// goingUp is the wall of a house through which something goes up.
func goingUp(up string) string {
	return strings.Replace(chimneyWall, "[site]", "[shape]\nchimney = \""+up+"\"\n[site]", 1)
}

// Finished work is looked at for the foam beside a chimney, and stops where it is too
// near (IRC R1003.18: foam burns as wood does).
func TestFoamBesideAChimneyIsLookedAt(t *testing.T) {
	for kind, point := range map[string]string{"masonry-fireplace": "board-off-chimney", "factory-built": "board-off-pipe", "masonry-inside": ""} {
		j := planned.Job(fixture.Read(t, chimneyWall+"ci_r = 10\n"+besideWall+"chimney = \""+kind+"\"\n"))
		for _, id := range []string{"board-off-chimney", "board-off-pipe"} {
			r := found(t, j, "[[place]]\nid = \"w\"\n[place.see]\n\""+id+"\" = \"bad\"\n")
			require.Equal(t, id == point, strings.Contains(print.Text(pages.FormPage(j), 78), "STOP if not: "+titleOf(t, j, id)), "%s %s", kind, id)
			require.True(t, r.Stops(), "whatever somebody noted counts")
		}
	}
}

func titleOf(t testing.TB, j inspect.Job, id string) string {
	t.Helper()
	for _, x := range j.Catalog().Acceptance().Points {
		if x.ID == id {
			return x.Title
		}
	}
	require.Fail(t, "no such point", id)
	return ""
}

// Of a listed pipe only the listing says how far wood and foam stay off (practice).
func TestBoardKeepsOffAListedPipe(t *testing.T) {
	for name, x := range map[string]struct {
		house string
		says  bool
	}{
		"a metal chimney": {chimneyWall + "ci_r = 10\n" + besideWall + "chimney = \"factory-built\"\n", true},
		"metal goes up":   {goingUp("metal") + "ci_r = 0\n", true},
		"brick":           {chimneyWall + "ci_r = 10\n" + besideWall + "chimney = \"masonry-in-wall\"\n", false},
		"no board":        {goingUp("metal") + "ci_r = 0\ntarget_r = 15\n", false},
	} {
		all := papers(t, fixture.Read(t, x.house))
		for _, paper := range []string{"order", "ask", "handover", "page framer"} {
			require.Equal(t, x.says, strings.Contains(spaced(all[paper]), "as its listing asks of wood"), "%s: %s", name, paper)
		}
	}
}

// A pipe with a place of its own does not take the place of the brick that is said to
// go up through the house (IRC R1003.18 counts for every masonry chimney).
func TestAPipeDoesNotHideTheBrick(t *testing.T) {
	attic := "[[place]]\nid = \"a\"\nkind = \"attic\"\nflue_through = true\n"
	for kind, alone := range map[string]bool{"type-b-vent": true, "factory-built": true, "plastic-vent": true, "masonry-inside": false, "unknown": false} {
		a := fixture.Read(t, goingUp("masonry")+"ci_r = 10\n"+attic+besideWall+"chimney = \""+kind+"\"\n")
		require.Equal(t, alone, strings.Contains(strings.Join(a.Disagree(), "\n"), "it has no place of its own: Chase"), kind)
		j := planned.Job(a)
		require.Equal(t, alone, strings.Contains(spaced(print.Text(pages.PlanPage(j.Plan, planned.Options(t)), 78)), "Brick or stone has none: how wide"), kind)
		require.Equal(t, kind != "masonry-inside", strings.Contains(print.Text(pages.FormPage(j), 78), "STOP if not: "+titleOf(t, j, "board-off-chimney")), kind)
	}
}

// The framed side behind an outside chimney is a piece of the outside wall.
func TestTheWallBehindAChimneyIsFramedAsTheWall(t *testing.T) {
	const outside = "chimney = \"masonry-outside\"\n"
	_, wall, _ := strings.Cut(chimneyWall, "[[place]]")
	other := "[[place]]" + strings.NewReplacer("2x4", "2x8", `"w"`, `"w2"`).Replace(wall)
	for name, x := range map[string]struct {
		house, size string
		spacingIn   float64
	}{
		"as the wall":            {chimneyWall + besideWall + outside, "2x4", 24},
		"its own":                {chimneyWall + besideWall + outside + "framing.size = \"2x6\"\nframing.spacing_in = 16\n", "2x6", 16},
		"a chimney inside":       {chimneyWall + besideWall + "chimney = \"masonry-inside\"\n", "2x6", 16},
		"walls that differ":      {chimneyWall + other + besideWall + outside, "2x6", 24},
		"a wall nobody measured": {strings.Replace(chimneyWall, "framing.size = \"2x4\"\n", "", 1) + besideWall + outside, "2x6", 24},
	} {
		for _, p := range planned.Job(fixture.Read(t, x.house)).Plan.Places {
			if p.Surface.ID == "c" {
				require.Equal(t, x.size, p.Surface.Frame.Size, name)
				require.Equal(t, x.spacingIn, p.Surface.Frame.SpacingIn, name)
			}
		}
	}
}

// Usual sealant does not go near a chimney (practice), not into a narrow space either.
func TestNoSealantInASpaceBesideAChimney(t *testing.T) {
	order := papers(t, fixture.Read(t, chimneyWall+"length_ft = 20\nheight_ft = 8\n"+besideWall+"chimney = \"masonry-inside\"\ndepth_in = 25\nheight_ft = 8\nclearance_in = 2\n"))["order"]
	at := strings.Index(order, "Cut list: Chase")
	require.Positive(t, at)
	require.Contains(t, spaced(order[at:]), "a strip of offcut")
	require.NotContains(t, spaced(order[at:]), "or sealant")
}

// Nobody buys for a wall that is closed before it is decided that it is opened.
func TestAClosedWallIsSaidToBeClosed(t *testing.T) {
	for stage, says := range map[string]bool{"wired": false, "closed": true} {
		all := papers(t, fixture.Read(t, strings.Replace(chimneyWall, "wired", stage, 1)+"ci_r = 0\ntarget_r = 15\n"))
		for _, paper := range []string{"order", "ask", "handover"} {
			require.Equal(t, says, strings.Contains(spaced(all[paper]), "only after the drywall or plaster comes off"), "%s: %s", stage, paper)
		}
	}
}

// A flue through a house that is said to have none is a disagreement.
func TestAFlueOfAHouseWithoutOneDisagrees(t *testing.T) {
	const none = "version = 1\nold = false\n[shape]\nchimney = \"none\"\n[[place]]\nid = \"a\"\nlabel = \"Attic\"\nkind = \"attic\"\n"
	const says = "nothing goes up through the house"
	for answers, want := range map[string]bool{
		"flue_through = true\n": true, "flue_through = false\n": false, "": false,
		"[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \"masonry-inside\"\n":  true,
		"[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \"masonry-outside\"\n": false,
		"[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \"plastic-vent\"\n":    false,
	} {
		require.Equal(t, want, strings.Contains(strings.Join(fixture.Read(t, none+answers).Disagree(), "\n"), says), answers)
	}
}
