package pages_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func placeOf(t *testing.T, site, keys string) plan.Place {
	t.Helper()
	return plan.Make(fixture.Judged(t, fixture.OfPlaces(t, site, "id = \"here\"\n"+keys))).Places[0]
}

// A damp verdict never stands without what it counts on: the board that is to
// buy, the dehumidifier, the layer under the joists.
func TestDampVerdictNamesWhatItCountsOn(t *testing.T) {
	wall := placeOf(t, "zone = \"6A\"", "kind = \"exterior-wall\"")
	text := pages.DampText(wall.Choice.Damp, units.US)
	require.Contains(t, text, "with the R-5 board: ")
	require.Contains(t, text, "Without the board this was not checked.")
	there := pages.DampText(placeOf(t, "zone = \"6A\"", "kind = \"exterior-wall\"\nci_r = 5").Choice.Damp, units.US)
	require.NotContains(t, there, "board: ")

	basement := "kind = \"basement-wall\"\nfoam_r = 10\ndampness = \"dry\"\n"
	dry := pages.DampText(placeOf(t, "zone = \"5A\"", basement+"dehumidifier = true").Choice.Damp, units.US)
	require.Contains(t, dry, "if the dehumidifier runs from May to September: ")
	require.NotContains(t, pages.DampText(placeOf(t, "zone = \"5A\"", basement).Choice.Damp, units.US), "dehumidifier")

	hot := "state = \"FL\"\ncounty = \"Miami-Dade\"\ncooled = true"
	floor := "kind = \"crawl-space\"\nvented = true\nground_cover = true"
	require.Contains(t, pages.DampText(placeOf(t, hot, floor).Choice.Damp, units.US), "with the layer under the joists: ")
	require.NotContains(t, pages.DampText(placeOf(t, "zone = \"6A\"", floor).Choice.Damp, units.US), "under the joists")
	require.Contains(t, pages.DampText(placeOf(t, "zone = \"6A\"", "kind = \"rim-joist\"").Choice.Damp, units.US), "with the foam in its bays: ")
}

func limitsOf(t *testing.T, site, keys string, s units.System) string {
	t.Helper()
	return strings.Join(pages.DampLimits(placeOf(t, site, keys), fixture.Catalog(t), s), "\n")
}

// What nobody said is named, and that each usual answer was tried.
func TestDampSaysWhatItWasNotTold(t *testing.T) {
	hot := "state = \"FL\"\ncounty = \"Miami-Dade\"\ncooled = "
	for keys, want := range map[[2]string]string{
		{hot + "true", "kind = \"exterior-wall\""}:              "what covers the drywall",
		{hot + "true", "kind = \"attic\""}:                      "how steep the roof is",
		{"zone = \"6A\"", "kind = \"exterior-wall\"\nci_r = 5"}: "which kind of board",
	} {
		require.Contains(t, limitsOf(t, keys[0], keys[1], units.US), "Nobody said "+want)
	}
	require.NotContains(t, limitsOf(t, hot+"false", "kind = \"exterior-wall\"\nci_r = 0", units.US), "Nobody said")
}

// Under the year stand what the code asks, what practice says, and more where a rule has it,
// and what was taken for granted, with the figures of data and house.
func TestDampSaysWhatItTakesForGranted(t *testing.T) {
	wall, slope := "kind = \"exterior-wall\"", "kind = \"sloped-ceiling\""
	cold, hot := "zone = \"6A\"\ncooled = false\n", "state = \"FL\"\ncounty = \"Miami-Dade\"\ncooled = true\n"
	text := limitsOf(t, cold, wall, units.US)
	require.Contains(t, text, "The code here: a vapor retarder toward the heated room is asked for. Planned: toward the heated room: the paper face slows damp air from the room.")
	require.Contains(t, text, "Practice: A paper face or a smart sheet toward the room, and every hole toward the room sealed.\n")
	require.Contains(t, text, "Taken for granted: rooms of usual dampness, heated to 70 F, at most 70 % humidity; room air that leaks in, built well 0.1 ft3/ft2 an hour, with holes 0.5 ft3/ft2 an hour.")
	require.Contains(t, limitsOf(t, cold, slope, units.US), "every hole in the ceiling sealed. In this climate a vapor retarder toward the heated room is usual under a sloped ceiling")
	text = limitsOf(t, hot+"indoor = \"humid\"", wall, units.SI)
	require.Contains(t, text, "The code here: nothing vapor-tight may go on the room side. Planned: unfaced: in a hot, damp climate")
	require.Contains(t, text, "rooms of humid air, heated to 21 C, at most 70 % humidity, while cooled 55 %; room air that leaks in, built well 0.03 m3/m2 an hour, with holes 0.15 m3/m2 an hour.")
	require.Empty(t, fixture.LeftInUS(text))
}

// A case is told in words of the units that are shown.
func TestDampCase(t *testing.T) {
	x := damp.Case{Face: "north wall", Cover: "wallpaper-or-vinyl", Board: "xps", CooledC: 22}
	require.Equal(t, "north wall, wallpaper or vinyl, XPS board, cooled to 72 F", pages.DampCase(x, units.US))
	require.Equal(t, "north wall, wallpaper or vinyl, XPS board, cooled to 22 C", pages.DampCase(x, units.SI))
	require.Equal(t, "underside", pages.DampCase(damp.Case{Face: "underside"}, units.US))
}

// What was answered is named no more, and tells: paint holds where an unknown cover
// did not, vinyl does not. In a cooled house a caution says to leave vinyl off: where
// the wall alarms on every paper.
func TestWhatGoesOnTheDrywallTells(t *testing.T) {
	wall := func(site, cover string) plan.Place {
		return placeOf(t, site+"\ncooled = true", "kind = \"exterior-wall\"\nframing.size = \"2x4\"\nci_r = 0\narea_ft2 = 400\ninside_cover = \""+cover+"\"")
	}
	cautions := func(p plan.Place) (out []string) {
		for _, h := range p.Safety {
			if strings.HasPrefix(h.Rule.ID, "damp-tight-cover") {
				out = append(out, h.Rule.ID)
			}
		}
		return out
	}
	for site, caution := range map[string]string{
		"state = \"FL\"\ncounty = \"Miami-Dade\"": "damp-tight-cover", "state = \"TX\"\ncounty = \"Harris\"": "damp-tight-cover-edge",
	} {
		open, paint, vinyl := wall(site, "unknown"), wall(site, "paint"), wall(site, "wallpaper-or-vinyl")
		require.Equal(t, damp.Holds, paint.Choice.Damp.Word, site)
		require.Greater(t, damp.Rank(vinyl.Choice.Damp.Word), damp.Rank(damp.Holds), site)
		require.Equal(t, vinyl.Choice.Damp.Word, open.Choice.Damp.Word, site)
		require.Equal(t, []string{"cover"}, open.Choice.Damp.Open, site)
		require.Empty(t, vinyl.Choice.Damp.Open, site)
		require.Empty(t, cautions(paint), site)
		cures := slices.ContainsFunc(vinyl.WaysOut, func(w plan.WayOut) bool { return w.ID == "paint-alone" })
		require.Equal(t, vinyl.Choice.Damp.Alarm(), cures, "paint is a way out: %s", site)
		require.Equal(t, []string{caution}, cautions(vinyl), site)
		require.Equal(t, []string{caution}, cautions(open), "it asks: %s", site)
	}
	warm := placeOf(t, "state = \"MN\"\ncounty = \"St. Louis\"\ncooled = false", "kind = \"exterior-wall\"\nretarder = \"none\"\nci_r = 0\ninside_cover = \"wallpaper-or-vinyl\"")
	require.Empty(t, cautions(warm), "the question is not asked there")
}

// The kind of a board and the pitch of a roof are named no more once they are told; of
// a flat roof nothing is said.
func TestBoardAndPitchTell(t *testing.T) {
	const cold = "state = \"IL\"\ncounty = \"Cook\"\ncooled = false"
	wall := func(more string) candidate.Damp {
		return placeOf(t, cold, "kind = \"exterior-wall\"\nframing.size = \"2x6\"\nci_r = 5\n"+more).Choice.Damp
	}
	require.Equal(t, []string{"board"}, wall("").Open)
	require.Empty(t, wall("board_kind = \"eps\"").Open)
	require.Less(t, wall("board_kind = \"eps\"").Sealed.Moisture, wall("").Sealed.Moisture)
	require.Equal(t, wall("").Sealed.Moisture, wall("board_kind = \"polyiso\"").Sealed.Moisture, "the tightest is the worst in the cold")
	attic := func(more string) candidate.Damp { return placeOf(t, cold, "kind = \"attic\"\n"+more).Choice.Damp }
	require.Equal(t, []string{"pitch"}, attic("").Open)
	require.Empty(t, attic("roof_pitch = 4").Open)
	require.NotEqual(t, attic("roof_pitch = 4").Sealed.Moisture, attic("roof_pitch = 12").Sealed.Moisture)
	require.Equal(t, damp.NotJudged, attic("roof_pitch = 0").Word)
	require.Contains(t, pages.DampText(attic("roof_pitch = 0"), units.US), "not judged: a roof flatter than 2:12")
}

// A cover that nobody named and that makes it mold is named as the cause, and as what
// decides: paint lets the damp of summer through, vinyl does not (practice).
func TestTheCoverThatMakesItMoldIsNamed(t *testing.T) {
	const site, wall = "state = \"DE\"\ncounty = \"Sussex\"\ncooled = true", "kind = \"exterior-wall\"\nframing.size = \"2x6\"\nframing.spacing_in = 16\ncladding = \"vented\"\nsheathing = \"osb\"\n"
	for cover, names := range map[string]bool{"": true, "inside_cover = \"unknown\"\n": true, "inside_cover = \"paint\"\n": false, "inside_cover = \"wallpaper-or-vinyl\"\n": false} {
		p := plan.Make(fixture.Judged(t, fixture.OfPlaces(t, site, "id = \"here\"\n"+wall+cover)))
		require.Equal(t, names, strings.Contains(pages.DampText(p.Places[0].Choice.Damp, units.US), "paper of the drywall under wallpaper or vinyl where room air leaks"), cover)
		text := spaced(print.Text(pages.PlanPage(p, planned.Options(t)), 78))
		require.Equal(t, names, strings.Contains(text, "What will go on the drywall inside? (MATTERS: if not \"wallpaper or vinyl\": the damp check finds less damp here)"), cover)
	}
}

// Each word of the verdict has its sentence, in a cell, in a line and on the page
// that nobody may miss it on.
func TestEveryVerdictIsSaid(t *testing.T) {
	w := damp.Worst{Moisture: 0.243, MoistureOf: "rim board", Mold: 3.4, MoldOn: "paper of the drywall"}
	for word, want := range map[string][3]string{
		damp.Holds:         {"holds", "the rim board gets no wetter than 24 %, and no mold grows", ""},
		damp.HoldsIfSealed: {"holds if sealed", "it holds only if it is sealed: mold grows on the paper of the drywall where room air leaks through holes", ""},
		damp.Edge:          {"borderline", "borderline: mold can begin to grow on the paper of the drywall", ""},
		damp.Wets:          {"gets wet", "built well: the rim board gets to 24 % water in its wettest month", "GETS WET, whichever fiber goes in"},
		damp.Mold:          {"mold grows", "mold grows on the paper of the drywall even where it is built well", "MOLD grows, whichever fiber goes in"},
		damp.NotJudged:     {"not judged", "not judged: the moon", ""},
	} {
		d := candidate.Damp{Verdict: damp.Verdict{Word: word, WithHoles: damp.Mold, Sealed: w, Holed: w, Why: "the moon"}}
		require.Contains(t, pages.DampText(d, units.US), want[1])
		require.Equal(t, want[2], inspect.DampGlance(d, true))
	}
	require.Equal(t, "no mold grows", inspect.DampSaid(candidate.Damp{Verdict: damp.Verdict{Word: damp.Holds}}, units.US), "no wood in it")
}

// Which wood gets wet, and on what mold grows, is named, in words of the trade.
func TestDampNamesTheWood(t *testing.T) {
	for keys, want := range map[[2]string]string{
		{"zone = \"6A\"", "kind = \"exterior-wall\"\nsheathing = \"plywood\""}: "on the plywood sheathing where",
		{"zone = \"6A\"", "kind = \"exterior-wall\"\nretarder = \"none\""}:     "the OSB sheathing gets to",
		{"zone = \"6A\"", "kind = \"rim-joist\""}:                              "the rim board gets",
		{"zone = \"6A\"", "kind = \"attic\""}:                                  "the plywood roof deck gets",
		{"zone = \"6A\"", "kind = \"crawl-space\"\nvented = true"}:             "the plywood subfloor gets",
	} {
		require.Contains(t, pages.DampText(placeOf(t, keys[0], keys[1]).Choice.Damp, units.US), want)
	}
}

// The R of the whole surface names all that it counts.
func TestWholeSurfaceNamesItsParts(t *testing.T) {
	gives := func(site, keys string) string {
		for _, l := range pages.PlaceRows(placeOf(t, site, keys), pages.Options{Catalog: fixture.Catalog(t)}) {
			if l.Label == "Gives" {
				return l.Text
			}
		}
		return ""
	}
	require.Contains(t, gives("zone = \"6A\"", "kind = \"exterior-wall\""), "with its wood and the R-5 board to buy: about")
	require.Contains(t, gives("zone = \"6A\"", "kind = \"exterior-wall\"\nci_r = 5"), "with its wood and the R-5 board you said is there: about")
	require.Contains(t, gives("zone = \"5A\"", "kind = \"basement-wall\""), "with its wood, the R-10 board to buy and the concrete: about")
	require.Contains(t, gives("zone = \"5A\"", "kind = \"attic\"\nexisting_r = 19"), "with its wood and the old R-19: about")
}

// Foam cut to each bay is the first answer at rims in cold zones and in damp ones of
// the middle (practice), the damp check counts on it and says so, and no page promises
// it that the others leave out.
func TestRimFoamIsToldAndCounted(t *testing.T) {
	for site, foam := range map[[2]string]bool{
		{"VT", "Chittenden"}: true, {"OR", "Multnomah"}: true, {"MO", "Boone"}: true, {"PA", "Allegheny"}: true, {"GA", "Fulton"}: true,
		{"TX", "El Paso"}: false, {"FL", "Duval"}: false,
	} {
		p := plan.Make(fixture.Judged(t, fixture.OfPlaces(t, "state = \""+site[0]+"\"\ncounty = \""+site[1]+"\"", "id = \"r\"\nkind = \"rim-joist\"\nlabel = \"Rim\"\nlength_ft = 60\nci_r = 0")))
		place := p.Places[0]
		require.NotNil(t, place.Choice, site)
		require.True(t, place.Choice.Damp.Judged(), site)
		require.Equal(t, foam, slices.ContainsFunc(place.Require, func(h rules.Hit) bool { return h.Rule.Effect.Need == "foam-in-bays" }), site)
		require.Equal(t, foam, strings.Contains(place.Choice.Facing.Why, "foam board cut to each bay"), site)
		require.Equal(t, foam, slices.ContainsFunc(place.Safety, func(h rules.Hit) bool { return strings.Contains(h.Text, "foam board to each bay") }), site)
		require.Equal(t, foam, strings.Contains(pages.DampText(place.Choice.Damp, units.US), "with the foam in its bays: "), site)
	}
}

// A place that gets wet as it is planned says so where nobody can miss it, and that
// no other fiber would be drier.
func TestAWetPlanSaysSo(t *testing.T) {
	p := plan.Make(fixture.Judged(t, fixture.Read(t, wetWall))).Places[0]
	require.True(t, p.AllDamp())
	require.Equal(t, "; GETS WET, whichever fiber goes in", pages.DampAtAGlance(p))
}

// wetWall is a wall that gets wet as it is planned: its builder wants no retarder in
// the cold (the well-known build-ups have it: rules/damp).
const wetWall = "version = 1\nold = false\n[site]\nstate = \"MN\"\ncounty = \"St. Louis\"\ncode = \"irc-2021\"\n[[place]]\nid = \"walls\"\nlabel = \"Walls\"\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x6\"\nframing.spacing_in = 16\nretarder = \"none\"\ncladding = \"vented\"\n"

// What is to be done follows the months in which the damp comes that decided: a
// basement with a thin board is damp in winter above the soil, one in the plains in
// summer below it, a cooled wall behind vinyl in summer, an open one in the cold in
// winter (each as its own year draws it).
func TestCareFollowsTheMonths(t *testing.T) {
	const warm, cold = "state = \"IL\"\ncounty = \"Cook\"\ncooled = true\nindoor = \"usual\"", "state = \"MN\"\ncounty = \"St. Louis\"\ncode = \"irc-2021\""
	said := func(site, keys string) (season, text string) {
		p := placeOf(t, site, keys)
		for _, r := range pages.PlaceRows(p, pages.Options{Catalog: fixture.Catalog(t)}) {
			text += r.Text + "\n"
		}
		for _, h := range slices.Concat(p.Safety, p.Install) {
			text += h.Text + "\n"
		}
		return p.Choice.Damp.Season(), text
	}
	basement := "kind = \"basement-wall\"\nlength_ft = 100\nheight_ft = 8\nabove_grade_ft = 1\ndampness = \"dry\"\ninside_cover = \"paint\"\nboard_kind = \"xps\"\nfoam_r = "
	for _, c := range []struct{ site, keys, season, says, not string }{
		{warm, basement + "5", damp.Winter, "the damp of this wall comes in winter", "hard season"},
		{"state = \"SD\"\ncounty = \"Brookings\"\nindoor = \"usual\"", "kind = \"basement-wall\"\ndampness = \"dry\"\nabove_grade_ft = 2\npin = \"sheeps-wool\"", damp.Summer, "run a dehumidifier from May to September", "comes in winter"},
		{"state = \"FL\"\ncounty = \"Miami-Dade\"\ncooled = true", "kind = \"exterior-wall\"\nframing.size = \"2x4\"\nci_r = 0\narea_ft2 = 400\ninside_cover = \"wallpaper-or-vinyl\"\nrule_out = [\"cotton\", \"sheeps-wool\", \"mineral-wool\"]", damp.Summer, "The damp comes in summer here", "in winter"},
		{cold, "kind = \"exterior-wall\"\nretarder = \"none\"\nci_r = 0\nrule_out = [\"cotton\", \"sheeps-wool\", \"mineral-wool\"]", damp.Winter, "The damp comes in winter here", "in summer"},
		{cold, "kind = \"exterior-wall\"\nci_r = 15\nboard_kind = \"eps\"\npin = \"fiberglass\"", "", "", "comes in"},
	} {
		season, text := said(c.site, c.keys)
		require.Equal(t, c.season, season, c.keys)
		require.Contains(t, text, c.says)
		require.NotContains(t, text, c.not, c.keys)
	}
}

// What code, practice and calculation say stands on the damp page of every kind of
// place, a line each, judged or not; of a frame that is no wall the code is not made to
// say what it says of walls.
func TestDampPageSetsThreeBesideEachOther(t *testing.T) {
	c := fixture.Catalog(t)
	cold := "state = \"MN\"\ncounty = \"St. Louis\"\ncooled = false"
	for _, k := range c.Kinds {
		if k.Derived {
			continue
		}
		keys := "kind = \"" + k.ID + "\"\narea_ft2 = 60\nrule_out = [\"cotton\", \"sheeps-wool\", \"mineral-wool\"]\n"
		switch {
		case k.BesideChimney:
			keys += "chimney = \"masonry-in-wall\"\ngap_in = 2\n"
		case k.AsksOf("ground_cover"):
			keys += "ground_cover = true\n"
		}
		p := placeOf(t, cold, keys)
		require.NotNil(t, p.Choice, k.ID)
		d, nothing := pages.DampPage(p, pages.Options{Catalog: c})
		require.Equal(t, p.Choice.Damp.Judged(), !nothing, k.ID)
		var lines []string
		for _, b := range d.Blocks {
			for _, r := range b.Rows {
				lines = append(lines, r.Text)
			}
		}
		lines = append(lines, pages.DampLimits(p, c, units.US)...)
		text := strings.Join(lines, "\n")
		for _, head := range []string{"The code here: ", "Practice: ", "This calculation: "} {
			require.Contains(t, text, head, k.ID)
		}
		onWalls := strings.Contains(text, "whether that holds here, the building department says")
		require.Equal(t, k.Retarder == catalog.RetarderByZone || k.Retarder == catalog.RetarderUnfaced, onWalls, k.ID)
		require.Equal(t, k.BesideChimney, strings.Contains(text, "where this frame is an outside wall"), k.ID)
	}
}

// Where there is no verdict every page says so, with why: no figures for a material, no
// hourly year, monthly figures that somebody typed.
func TestNotJudgedSaysWhy(t *testing.T) {
	wall := "kind = \"exterior-wall\"\nci_r = 5\n"
	typed := "zone = \"6A\"\nmonths = [-9, -6, 0, 7, 14, 19, 22, 21, 16, 9, 1, -6]\n"
	for keys, why := range map[[2]string]string{
		{"zone = \"6A\"", wall + "sheathing = \"fiberboard\""}: "no figures for fiberboard sheathing",
		{typed, wall}: "you typed monthly weather",
	} {
		p := placeOf(t, keys[0], keys[1])
		require.Equal(t, damp.NotJudged, p.Choice.Damp.Word, why)
		require.Contains(t, pages.DampText(p.Choice.Damp, units.US), why)
		d, _ := pages.DampPage(p, pages.Options{Catalog: fixture.Catalog(t)})
		require.Contains(t, d.Blocks[0].Rows[0].Text, why)
	}
	without := plan.Make(fixture.OfPlaces(t, "zone = \"6A\"", "id = \"here\"\n"+wall)).Places[0] // data without the hours of stations
	require.Contains(t, pages.DampText(without.Choice.Damp, units.US), "not judged: no hourly weather is known for Burlington")
}
