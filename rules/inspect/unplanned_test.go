package inspect_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

const (
	midwest = "state = \"MO\"\ncounty = \"St. Louis\"\ncode = \"irc-2018\""
	vermont = "state = \"VT\"\ncounty = \"Chittenden\"\ncode = \"irc-2021\""

	openWall  = "id = \"wall\"\nkind = \"exterior-wall\"\nlength_ft = 40\nheight_ft = 8\nframing.size = \"2x4\"\nframing.spacing_in = 16"
	listed    = "id = \"flue\"\nkind = \"chimney\"\nlabel = \"Listed flue\"\nchimney = \"factory-built\"\ngap_in = 1\nwidth_in = 14\ndepth_in = 14\nfloors = 2\nframing.size = \"2x6\""
	basement  = "id = \"base\"\nkind = \"basement-wall\"\nlength_ft = 100\nheight_ft = 8\ndampness = \"dry\"\nframing.size = \"2x4\"\nframing.spacing_in = 16"
	oldWiring = "id = \"wired\"\nkind = \"exterior-wall\"\nlength_ft = 40\nheight_ft = 8\nknob_and_tube = true\nframing.size = \"2x4\"\nframing.spacing_in = 16"
)

func jobOf(t testing.TB, site string, places ...string) inspect.Job {
	t.Helper()
	return planned.Job(fixture.OfPlaces(t, site, places...))
}

func must(t testing.TB, j inspect.Job, id string) plan.Place {
	t.Helper()
	p, ok := j.Place(id)
	require.True(t, ok, id)
	return p
}

// good is finished work as planned in every place that has a plan, every point
// that a person looks at marked good.
func good(t testing.TB, j inspect.Job) *house.House {
	t.Helper()
	l, h := inspect.FoundList(fixture.Catalog(t)), inspect.EmptyFound(j)
	for i := range h.Places {
		p, _ := j.Place(h.Places[i].ID)
		if p.Choice == nil {
			continue
		}
		a := asPlanned(p)
		for _, q := range inspect.QuestionsOf(l, p, a) {
			if q.Kind == house.Choice && len(q.Options) == 2 && q.Options[0].Value == "good" {
				a[q.Key] = house.Text("good")
			}
		}
		h.Places[i].Answers = a
	}
	return h
}

// A chimney whose width is not known stays in the inspection: open and not
// ready to close whatever was seen, a stop where anything lies there.
func TestFlueOfUnknownWidthIsInspected(t *testing.T) {
	j := jobOf(t, midwest, openWall, listed)
	judge := func(a house.Answers) (inspect.FoundResult, inspect.FoundPlace) {
		h := good(t, j)
		h.Place("flue").Answers = a
		r := inspect.JudgeFound(j, h, nil)
		require.False(t, r.ReadyToClose())
		return r, place(t, r, "flue")
	}
	for _, a := range []house.Answers{{}, {"batt_in_gap": house.YesNo(false), "gap_in": house.Number(6), "blanket_there": house.YesNo(false)}} {
		r, flue := judge(a)
		require.False(t, r.Stops())
		require.Equal(t, inspect.NotSeen, state(t, flue, "chimney-gap"))
		require.Positive(t, flue.OpenStops())
	}
	for _, a := range []house.Answers{{"batt_in_gap": house.YesNo(true)}, {"material": house.Text("mineral-wool")}, {"facing": house.Text("kraft")}, {"blanket_there": house.YesNo(true)}} {
		r, _ := judge(a)
		require.True(t, r.Stops(), "%v", a)
	}
	form := inspect.FormOf(j, must(t, j, "flue"))
	require.True(t, slices.ContainsFunc(form, func(f inspect.Form) bool {
		return f.Point.ID == "chimney-gap" && f.Point.Result == catalog.ResultStop
	}), "on the form")
	require.Contains(t, inspect.FoundTemplate(inspect.FoundList(fixture.Catalog(t)), j), "id = \"flue\"", "in the file to fill in")
}

// What somebody notes about a place without a plan is judged, never dropped:
// a blanket there is taken out, and stops the work where a danger stops the
// place. A point that was seen and is bad fails there too.
func TestWhatLiesWhereNothingIsPlannedIsJudged(t *testing.T) {
	j := jobOf(t, vermont, basement+"\nfoam_r = 0", oldWiring)
	require.Nil(t, must(t, j, "base").Choice)
	r := found(t, j, "[[place]]\nid = \"base\"\nmaterial = \"cotton\"\nfacing = \"foil-rated\"\nsee.off-concrete = \"bad\"\n")
	require.Equal(t, inspect.Reject, state(t, place(t, r, "base"), "no-blanket"))
	require.Equal(t, inspect.Reject, state(t, place(t, r, "base"), "off-concrete"))
	require.False(t, r.Stops())
	for _, noted := range []string{"void_pct = 5", "squeezed_pct = 0", "facing_side = \"room\"", "gaps = \"12 x 1\"", "blanket_there = true"} {
		r = found(t, j, "[[place]]\nid = \"base\"\n"+noted+"\n")
		require.Equal(t, inspect.Reject, place(t, r, "base").Worst(), noted)
	}
	r = found(t, j, "[[place]]\nid = \"base\"\nblanket_there = false\n[[place]]\nid = \"wired\"\nlabel_r = 13\n")
	require.Equal(t, inspect.Pass, place(t, r, "base").Worst())
	require.Equal(t, inspect.Halt, state(t, place(t, r, "wired"), "no-blanket"))
	require.True(t, r.Stops())
}

// The board that the target needs is looked for: not seen is not passing, not
// there is rejected and what was found is worked out without it.
func TestBoardMustBeSeen(t *testing.T) {
	for _, one := range []string{openWall, basement + "\nfoam_r = \"unknown\"\ndehumidifier = true"} {
		j := jobOf(t, vermont, one)
		p := j.Plan.Places[0]
		require.Positive(t, p.Target.AddR)
		judge := func(change func(house.Answers)) inspect.FoundPlace {
			h := good(t, j)
			change(h.Places[0].Answers)
			return inspect.JudgeFound(j, h, nil).Places[0]
		}
		seen := judge(func(house.Answers) {})
		require.Equal(t, inspect.Pass, state(t, seen, "board"))
		require.Zero(t, seen.BoardCounted())
		for want, change := range map[inspect.State]func(house.Answers){
			inspect.NotSeen: func(a house.Answers) { delete(a, "board_there"); delete(a, "board_r") },
			inspect.Reject:  func(a house.Answers) { a["board_there"] = house.YesNo(false) },
		} {
			require.Equal(t, want, state(t, judge(change), "board"), p.Surface.ID)
		}
		require.Equal(t, inspect.NotSeen, state(t, judge(func(a house.Answers) { delete(a, "board_r") }), "board"), "a board whose R nobody read")
		open := judge(func(a house.Answers) { delete(a, "board_there"); delete(a, "board_r") })
		require.InDelta(t, p.Target.AddR, open.BoardCounted(), 1e-9)
		gone := judge(func(a house.Answers) { a["board_there"] = house.YesNo(false) })
		require.Less(t, gone.Got.Heat.AssemblyR, seen.Got.Heat.AssemblyR-2)
		thin := judge(func(a house.Answers) { a["board_r"] = house.Number(p.Target.AddR / 2) })
		require.Equal(t, inspect.Reject, state(t, thin, "board"))
	}
}

// The foam that a cold rim joist needs in its bays is a point of its own.
func TestRimFoamMustBeSeen(t *testing.T) {
	j := jobOf(t, vermont, "id = \"rim\"\nkind = \"rim-joist\"\nlength_ft = 128")
	h := good(t, j)
	delete(h.Places[0].Answers, "see.bay-foam")
	require.Equal(t, inspect.NotSeen, state(t, inspect.JudgeFound(j, h, nil).Places[0], "bay-foam"))
}

// Where the plan itself finds damp, nothing is ready to close before that is
// settled, whatever else passes.
func TestPlannedDampIsNotPassed(t *testing.T) {
	for _, j := range []inspect.Job{dampJob(t), demoJob(t, "house-on-stilts.toml")} {
		r := inspect.JudgeFound(j, good(t, j), nil)
		require.Equal(t, j.Plan.Places[0].Surface.ID != "walls", r.ReadyToClose())
		for _, p := range r.Places {
			damp := p.Plan.Choice.Damp.Alarm()
			require.Equal(t, damp, p.DampPlanned(), p.Plan.Surface.ID)
		}
	}
}

// Over an old blanket a ruler goes to the ceiling through both: the depth that
// is agreed names both, and the new one alone does not pass for it.
func TestDepthOverAnOldBlanketIsNamedTwice(t *testing.T) {
	j := jobOf(t, vermont, "id = \"attic\"\nkind = \"attic\"\narea_ft2 = 1120\nexisting_r = 11\nflue_through = false\nvermiculite = false\nknob_and_tube = false\nframing.size = \"2x8\"\nframing.spacing_in = 16")
	p := j.Plan.Places[0]
	newIn := 0.0
	for _, l := range p.Choice.Layers {
		newIn += l.RoomIn
	}
	text := inspect.DepthText(p, units.US)
	require.Contains(t, text, units.US.Inches(newIn)+" of new blanket")
	require.Contains(t, text, units.US.Inches(newIn+p.Surface.OldIn)+" to the ceiling")
	sheet, ok := inspect.SheetOf(j, p)
	require.True(t, ok)
	require.InDelta(t, newIn+p.Surface.OldIn, sheet.CeilingIn, 1e-9)
	page, err := inspect.PageFor(j, "framer")
	require.NoError(t, err)
	require.Contains(t, strings.Join(page.Parts[0].Lines, "\n"), "to the ceiling")
	ten := func(in float64) house.Answers {
		return house.Answers{"thickness_in": numbers(in, in, in, in, in, in, in, in, in, in)}
	}
	judged := func(a house.Answers) (inspect.State, string) {
		found := inspect.JudgePlace(j, p, a)
		at := slices.IndexFunc(found.Points, func(x inspect.PointResult) bool { return x.Point.ID == "thickness" })
		return found.Points[at].State, found.Points[at].Text + found.ShortText(units.US)
	}
	// The depth of the old one is a guess from its R: it decides nothing.
	for _, in := range []float64{newIn, newIn + p.Surface.OldIn - 1, newIn + p.Surface.OldIn + 1} {
		got, text := judged(ten(in))
		require.Equal(t, inspect.NotSeen, got, in)
		require.Contains(t, text, "measure how deep it lies alone, and say so (old_in)")
		require.NotContains(t, text, "SHORT")
	}
	got, _ := judged(ten(newIn / 2)) // less than the new ones alone
	require.Equal(t, inspect.Reject, got)
	measured := func(in, oldIn float64) house.Answers {
		a := ten(in)
		a["old_in"] = house.Number(oldIn)
		return a
	}
	for oldIn, want := range map[float64]inspect.State{5: inspect.Pass, 5.5: inspect.Pass, 8: inspect.Reject} {
		got, text := judged(measured(newIn+5.5, oldIn))
		require.Equal(t, want, got, text)
	}
}

// A plastic sheet over a paper face is a second retarder and is named as such.
func TestTwoRetardersAreNamed(t *testing.T) {
	j := jobOf(t, vermont, openWall)
	require.Equal(t, "kraft", j.Plan.Places[0].Choice.Facing.OnBlanket)
	h := good(t, j)
	h.Places[0].Answers["sheet"] = house.Text("polyethylene")
	p := inspect.JudgeFound(j, h, nil).Places[0]
	require.Equal(t, inspect.Fix, state(t, p, "facing-side"))
	require.True(t, slices.ContainsFunc(p.Points, func(x inspect.PointResult) bool {
		return x.Point.ID == "facing-side" && len(x.Text) > 12 && x.Text[:13] == "two retarders"
	}))
}

// A plastic sheet that the builder named where it is barred is neither planned
// nor agreed, and an offer or finished work with it is told so.
func TestABarredSheetIsNotAgreed(t *testing.T) {
	wall := func(zone, sheet string) inspect.Job {
		return planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \""+zone+"\"\n[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x4\"\nci_r = 0\ntarget_r = 13\nretarder = \""+sheet+"\"\n"))
	}
	for _, sheet := range []string{"polyethylene", "paint"} {
		j := wall("2A", sheet)
		s, ok := inspect.SheetOf(j, j.Plan.Places[0])
		require.True(t, ok)
		require.Empty(t, s.Sheet)
		require.True(t, slices.ContainsFunc(s.Clear, func(n catalog.HandoverNote) bool { return n.ID == "clear-left-out" }), sheet)
		r := offered(t, j, "version = 1\n[[part]]\nplace = \"w\"\nmaterial = \"fiberglass\"\nr = 15\nthickness_in = 3.5\nfacing = \"none\"\nsheet = \""+sheet+"\"\n")
		i := slices.IndexFunc(r.Places[0].Findings, func(f inspect.Finding) bool { return f.ID == "hot-humid-sheet" })
		require.GreaterOrEqual(t, i, 0, sheet)
		require.Equal(t, inspect.Wrong, r.Places[0].Findings[i].Level)
	}
	j := wall("5A", "polyethylene")
	s, _ := inspect.SheetOf(j, j.Plan.Places[0])
	require.NotEmpty(t, s.Sheet)
	require.False(t, slices.ContainsFunc(s.Clear, func(n catalog.HandoverNote) bool { return n.ID == "clear-left-out" }))
}

// An attic is looked at for the fans and the vents that keep its roof dry.
func TestAtticsAreLookedAtForFansAndVents(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nbath_fan_outside = false\nvents_ok = false\nflue_through = false\n"))
	s, ok := inspect.SheetOf(j, j.Plan.Places[0])
	require.True(t, ok)
	for _, id := range []string{"fans", "vents"} {
		require.True(t, slices.ContainsFunc(s.Points, func(x catalog.AcceptancePoint) bool { return x.ID == id }), id)
	}
}

// What could stop a place and was never found out stands before any bid is
// signed, and no house is ready to close while it is open.
func TestWhatNobodyFoundOutHoldsBidAndFinishedWork(t *testing.T) {
	for _, fill := range []string{"true", "false", "\"unknown\""} {
		a := fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"5A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nflue_through = false\nnon_ic_lights = false\nbath_fan_outside = true\nvents_ok = true\nknob_and_tube = false\nvermiculite = "+fill+"\n")
		j := planned.Job(a)
		r := offered(t, j, "version = 1\n[[part]]\nplace = \"a\"\nmaterial = \"fiberglass\"\nr = 38\nthickness_in = 12\n")
		require.Equal(t, fill != "false", r.Places[0].Findings[0].Level == inspect.Stop, fill)
		require.Equal(t, fill == "\"unknown\"", len(found(t, j, "version = 1\n[[place]]\nid = \"a\"\n").Unasked) == 1, fill)
	}
}

// What is to be done fits what was found: nothing is taken out of an empty gap,
// and no face is turned where none belongs.
func TestRemediesFitWhatWasFound(t *testing.T) {
	a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \"masonry-inside\"\ngap_in = 2\nframing.size = \"2x6\"\n[[place]]\nid = \"b\"\nkind = \"basement-wall\"\nfoam_r = 10\ndampness = \"dry\"\n")
	j := planned.Job(a)
	r := found(t, j, "version = 1\n[[place]]\nid = \"c\"\nbatt_in_gap = false\ngap_in = 1\n[[place]]\nid = \"b\"\nfacing = \"kraft\"\nfacing_side = \"room\"\n")
	asks := map[string]string{}
	for _, p := range r.Places {
		for _, x := range p.Points {
			asks[x.Point.ID] += x.Ask
		}
	}
	require.Contains(t, asks["chimney-gap"], "Nothing has to come out")
	both := result(t, place(t, found(t, j, "[[place]]\nid = \"c\"\nbatt_in_gap = true\ngap_in = 1\n"), "c"), "chimney-gap")
	require.Contains(t, both.Text, "something in the gap, and the gap is 1 in at its tightest, 2 in must stay empty")
	require.Contains(t, both.Ask, "Take every piece out")
	require.Contains(t, both.Ask, "has to move back")
	only := result(t, place(t, found(t, j, "[[place]]\nid = \"c\"\nbatt_in_gap = true\ngap_in = 2\n"), "c"), "chimney-gap")
	require.NotContains(t, only.Ask, "has to move back")
	fire := jobOf(t, vermont, "id = \"c\"\nkind = \"chimney\"\nchimney = \"masonry-fireplace\"\ngap_in = 4\nframing.size = \"2x6\"\n")
	side := result(t, place(t, found(t, fire, "[[place]]\nid = \"c\"\nbatt_in_gap = false\ngap_in = 2\n"), "c"), "chimney-gap")
	require.Equal(t, inspect.Halt, side.State)
	require.Contains(t, side.Text, "sides of a fireplace: 2 in; back of a fireplace: 4 in", "one of the two may be what was measured")
	for _, sheet := range []string{"smart", "polyethylene"} {
		near := place(t, found(t, j, "[[place]]\nid = \"c\"\nfacing = \"none\"\nsheet = \""+sheet+"\"\n"), "c")
		require.Equal(t, inspect.Halt, state(t, near, "facing-side"), sheet)
		require.Contains(t, result(t, near, "facing-side").Ask, "Take the sheet off", sheet)
	}
	require.Contains(t, asks["facing-side"], "Replace it by an unfaced blanket")
	bid := offered(t, j, "version = 1\n[[part]]\nplace = \"b\"\nmaterial = \"fiberglass\"\nr = 13\nthickness_in = 3.5\nfacing = \"kraft\"\nfacing_side = \"room\"\n")
	require.Contains(t, ids(at(t, bid, "b").Findings), "face-unplanned")
}

// A fiber that the rules keep away is taken out, whatever its face: a turned or
// unfaced blanket of it is as wrong (practice).
func TestABarredFiberIsTakenOut(t *testing.T) {
	for id, house := range map[string]string{
		"chimney": "kind = \"chimney\"\nchimney = \"masonry-inside\"\ngap_in = 2\nframing.size = \"2x8\"\nknob_and_tube = false\n",
		"crawl":   "kind = \"crawl-space\"\nvented = false\nwall_height_ft = 4\ndampness = \"dry\"\nground_cover = true\nfoam_r = 10\n",
	} {
		j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"4A\"\n[[place]]\nid = \""+id+"\"\n"+house))
		p := found(t, j, "version = 1\n[[place]]\nid = \""+id+"\"\nmaterial = \"cotton\"\nfacing = \"none\"\nlabel_r = 13\n").Places[0]
		i := slices.IndexFunc(p.Points, func(x inspect.PointResult) bool { return x.Point.ID == "facing-side" })
		require.Contains(t, p.Points[i].Ask, "Take it out", id)
		require.Contains(t, p.Points[i].Ask, j.Plan.Places[0].Choice.Material.Name, id)
		require.NotContains(t, p.Points[i].Ask, "turning", id)
		require.False(t, strings.HasSuffix(p.Points[i].Text, "."), id)
	}
}

// On the inner side of a foundation wall plastic is found without a word on the
// face, and bare concrete behind the blanket is a point to look at (DOE and PNNL
// guides of basement walls; for crawl walls practice).
func TestFoundationWallsAreLookedAtForPlasticAndBareConcrete(t *testing.T) {
	for id, house := range map[string]string{
		"bsmt":  "kind = \"basement-wall\"\ndampness = \"dry\"\nfoam_r = 10\nframing.size = \"2x4\"\nlength_ft = 20\n",
		"crawl": "kind = \"crawl-space\"\nvented = false\nwall_height_ft = 4\ndampness = \"dry\"\nground_cover = true\nfoam_r = 10\n",
	} {
		j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"4A\"\n[[place]]\nid = \""+id+"\"\n"+house))
		p := found(t, j, "version = 1\n[[place]]\nid = \""+id+"\"\nsheet = \"polyethylene\"\n").Places[0]
		require.Equal(t, inspect.Fix, state(t, p, "facing-side"), id)
		sheet, ok := inspect.SheetOf(j, j.Plan.Places[0])
		require.True(t, ok)
		require.True(t, slices.ContainsFunc(sheet.Points, func(x catalog.AcceptancePoint) bool {
			return strings.HasPrefix(x.Title, "Not against bare concrete")
		}), id)
	}
}
