package inspect_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// onePlace is a house of one place that has a plan.
func onePlace(t testing.TB, site, keys string) (inspect.Job, plan.Place) {
	t.Helper()
	j := planned.Job(fixture.OfPlaces(t, site, "id = \"here\"\n"+keys))
	require.NotNil(t, j.Plan.Places[0].Choice)
	return j, j.Plan.Places[0]
}

// judgedPlace is onePlace with its damp judged.
func judgedPlace(t testing.TB, site, keys string) (inspect.Job, plan.Place) {
	t.Helper()
	j := planned.Job(fixture.Judged(t, fixture.OfPlaces(t, site, "id = \"here\"\n"+keys)))
	require.True(t, j.Plan.Places[0].Choice.Damp.Judged())
	return j, j.Plan.Places[0]
}

func looked(t testing.TB, j inspect.Job, keys string) inspect.FoundPlace {
	t.Helper()
	return place(t, found(t, j, "[[place]]\nid = \"here\"\n"+keys), "here")
}

func result(t testing.TB, p inspect.FoundPlace, id string) inspect.PointResult {
	t.Helper()
	i := slices.IndexFunc(p.Points, func(x inspect.PointResult) bool { return x.Point.ID == id })
	require.GreaterOrEqual(t, i, 0, "no such point %s", id)
	return p.Points[i]
}

func asked(t testing.TB, p plan.Place, key string) bool {
	t.Helper()
	return slices.ContainsFunc(inspect.QuestionsOf(inspect.FoundList(fixture.Catalog(t)), p, nil), func(q house.Question) bool { return q.Key == key })
}

const (
	cold    = "state = \"VT\"\ncounty = \"Chittenden\"\ncode = \"irc-2021\""
	hot     = "state = \"FL\"\ncounty = \"Miami-Dade\"\ncode = \"irc-2021\"\ncooled = true"
	thin    = "kind = \"exterior-wall\"\nlength_ft = 40\nheight_ft = 8\nopenings_ft2 = 0\nframing.size = \"2x4\"\nframing.spacing_in = 16\n"
	allSeen = "facing = \"none\"\nlabel_r = 13\nlabel_thickness_in = 3.5\nmaterial = \"fiberglass\"\n"
)

// A board that the builder says is there is counted on like one that is to buy:
// it stands on the sheet and on the pages, is looked for when the work is done,
// and a no, or less of it, is a failure (practice).
func TestBoardThatWasTypedIsLookedFor(t *testing.T) {
	j, p := onePlace(t, cold, thin+"ci_r = 10")
	require.Zero(t, p.Target.AddR)
	s, _ := inspect.SheetOf(j, p)
	require.Equal(t, "R-10 board outside the studs is there", pointsOf(s)["board"].Title)
	for _, person := range []string{"framer", "self", "installer"} {
		require.Contains(t, partOf(t, j, person, p), "R-10 board outside the studs, as you said", person)
	}
	require.True(t, asked(t, p, "board_there"))
	require.True(t, asked(t, p, "board_r"))
	for keys, want := range map[string]inspect.State{
		"": inspect.NotSeen, "board_there = true": inspect.NotSeen, "board_r = 10": inspect.Pass,
		"board_there = false": inspect.Reject, "board_r = 0": inspect.Reject, "board_there = true\nboard_r = 5": inspect.Reject,
	} {
		got := looked(t, j, keys+"\nfacing = \"kraft\"\nfacing_side = \"room\"")
		require.Equal(t, want, result(t, got, "board").State, keys)
		require.Equal(t, want == inspect.Reject, got.Got.Heat.AssemblyR < p.Choice.Heat.AssemblyR-1, keys)
		require.Equal(t, keys == "", got.BoardCounted() == 10, keys)
	}
}

// Foam on the concrete is no different, and bare concrete behind the fiber is as
// bad where somebody said that foam is there.
func TestFoamThatWasTypedIsLookedFor(t *testing.T) {
	j, p := onePlace(t, cold, "kind = \"basement-wall\"\nlength_ft = 96\nheight_ft = 8\ndampness = \"dry\"\nfoam_r = 15\ndehumidifier = true\nframing.size = \"2x4\"\nframing.spacing_in = 16")
	require.True(t, asked(t, p, "board_there"))
	require.Equal(t, inspect.NotSeen, result(t, looked(t, j, ""), "board").State)
	gone := looked(t, j, "board_there = false\n"+allSeen)
	require.Equal(t, inspect.Reject, result(t, gone, "board").State)
	require.NotEmpty(t, gone.Got.Verdict.Excluded, "fiber straight on concrete")
	require.Empty(t, looked(t, j, "board_there = true\n"+allSeen).Got.Verdict.Excluded)
	require.True(t, slices.ContainsFunc(inspect.HouseNotes(j, "keep", ""), func(n catalog.HandoverNote) bool { return n.Needs == "dehumidifier" }), "the verdict counts on it")
	j, _ = onePlace(t, cold, "kind = \"basement-wall\"\nfoam_r = 15\ndampness = \"dry\"\ndehumidifier = false")
	require.False(t, slices.ContainsFunc(inspect.HouseNotes(j, "keep", ""), func(n catalog.HandoverNote) bool { return n.Needs == "dehumidifier" }))
}

// An answer about a board where the plan has none is not dropped: none is right,
// one is to be worked out, and where no board can be the file is refused.
func TestAnswerAboutABoardIsNeverDropped(t *testing.T) {
	j, p := onePlace(t, hot, thin)
	require.Zero(t, p.BoardR())
	require.False(t, asked(t, p, "board_there"))
	require.Equal(t, inspect.Pass, result(t, looked(t, j, "board_there = false"), "board").State)
	extra := result(t, looked(t, j, "board_r = 10"), "board")
	require.Equal(t, inspect.Fix, extra.State)
	require.Contains(t, extra.Ask, "worked out again with it")
	j, _ = onePlace(t, hot, "kind = \"attic\"")
	_, _, problems := inspect.ReadFound(inspect.FoundList(fixture.Catalog(t)), j, "finished.toml", "version = 1\n[[place]]\nid = \"here\"\nboard_there = false\n")
	require.NotEmpty(t, problems)
}

// The layer under the joists carries the damp verdict of a floor in a damp, hot
// zone (IRC R408): nobody may close before it was seen, and without it the damp
// is worked out without it.
func TestLayerUnderTheJoistsIsLookedFor(t *testing.T) {
	j, p := judgedPlace(t, hot, "kind = \"crawl-space\"\nvented = true\nground_cover = true\ndampness = \"dry\"\nframing.size = \"2x8\"\nframing.spacing_in = 16")
	require.True(t, asked(t, p, "see.layer-under-joists"))
	unseen := looked(t, j, allSeen)
	require.Equal(t, inspect.NotSeen, result(t, unseen, "layer-under-joists").State)
	require.True(t, unseen.LayerCounted())
	bad := looked(t, j, allSeen+"see.layer-under-joists = \"bad\"")
	require.Equal(t, inspect.Reject, result(t, bad, "layer-under-joists").State)
	require.True(t, bad.Damper(), "about 90 % at the subfloor without")
	good := looked(t, j, allSeen+"see.layer-under-joists = \"good\"")
	require.Equal(t, inspect.Pass, result(t, good, "layer-under-joists").State)
	require.False(t, good.LayerCounted())
	require.False(t, good.Damper())
	_, p = judgedPlace(t, cold, "kind = \"crawl-space\"\nvented = true")
	require.False(t, asked(t, p, "see.layer-under-joists"))
}

// A plastic sheet that the house file names and that must not go up (IRC R702.7)
// is looked for; one that is up comes out, and no other blanket would help.
func TestSheetThatWasLeftOutIsLookedFor(t *testing.T) {
	j, p := onePlace(t, hot, thin+"retarder = \"polyethylene\"")
	require.Equal(t, "none", p.Choice.Facing.Retarder())
	face := fmt.Sprintf("facing = \"none\"\nmaterial = %q\n", p.Choice.Material.ID)
	unseen := looked(t, j, face)
	require.Equal(t, inspect.NotSeen, result(t, unseen, "facing-side").State)
	require.False(t, unseen.FaceSeen())
	require.Equal(t, inspect.Pass, result(t, looked(t, j, face+"sheet = \"none\""), "facing-side").State)
	up := result(t, looked(t, j, face+"sheet = \"polyethylene\""), "facing-side")
	require.Equal(t, inspect.Fix, up.State)
	require.Contains(t, up.Ask, "Take the sheet out")
	require.NotContains(t, up.Ask, "unfaced blanket")
	both := result(t, looked(t, j, strings.Replace(face, `"none"`, `"kraft"`, 1)+"facing_side = \"room\"\nsheet = \"polyethylene\""), "facing-side")
	require.Contains(t, both.Ask, "unfaced blanket")
	require.Contains(t, both.Ask, "Take the sheet out")
	j, _ = onePlace(t, hot, thin)
	require.Equal(t, inspect.Pass, result(t, looked(t, j, face), "facing-side").State)
}

// Who works from a page reads on it that the plan finds a place damp, and where
// not, does not.
func TestPagesSayWhereItGetsDamp(t *testing.T) {
	met := 0
	jobs := []inspect.Job{dampJob(t)}
	for _, name := range demo.Names() {
		jobs = append(jobs, planned.Job(fixture.Demo(t, name)))
	}
	for _, j := range jobs {
		for _, p := range j.Plan.Places {
			damp := ""
			if p.Choice != nil {
				damp = inspect.DampGlance(p.Choice.Damp, p.AllDamp())
			}
			for _, person := range []string{"installer", "self", "framer", "store", "inspector"} {
				text := partOf(t, j, person, p)
				require.Equal(t, damp != "", strings.Contains(text, "Settle that before anything is bought or closed here."), "%s %s", p.Surface.ID, person)
				require.Contains(t, text, damp)
			}
			if damp != "" {
				met++
			}
		}
	}
	require.Positive(t, met)
}

// The page of the store names the width that lies in each layer: across the
// joists the widest that is sold.
func TestStorePageNamesTheWidthOfEachLayer(t *testing.T) {
	j, p := onePlace(t, "zone = \"4A\"", "kind = \"attic\"\narea_ft2 = 900\nframing.size = \"2x6\"\nframing.spacing_in = 16\nframing.practice = \"standard\"")
	text, met := partOf(t, j, "store", p), false
	for _, l := range p.Choice.Layers {
		wide := p.Choice.WidthIn
		if l.Across {
			met, wide = true, slices.Max(l.Product.WidthsIn)
			require.Greater(t, wide, p.Choice.WidthIn)
		}
		thick := units.US.Inches(l.Product.ThicknessIn)
		require.Regexp(t, regexp.QuoteMeta(thick+" thick")+"[^\n]*"+regexp.QuoteMeta(", "+units.US.Inches(wide)+" wide"), text)
	}
	require.True(t, met)
}

// A thick label in a thinner bay counts its lower R (R-19 of 6 1/4 in in 5 1/2 in
// is R-18: trade association page for energy raters), and so does the certificate.
func TestCertificateCarriesTheSqueezedR(t *testing.T) {
	j, p := onePlace(t, "state = \"FL\"\ncounty = \"Duval\"\ncode = \"irc-2021\"", "kind = \"exterior-wall\"\nframing.size = \"2x6\"\nframing.spacing_in = 24\npin = \"fiberglass\"")
	require.InDelta(t, 19, p.Choice.Layers[0].Product.NominalR, 1e-9)
	require.Contains(t, inspect.CertificateLines(j)[0], "counts R-18")
	j, _ = onePlace(t, hot, thin)
	require.NotContains(t, inspect.CertificateLines(j)[0], "counts")
}

// The steps of the work are numbered without a gap, faced or not.
func TestOrderOfWorkIsNumberedThrough(t *testing.T) {
	for site, steps := range map[string]int{cold: 9, hot: 8} {
		j, _ := onePlace(t, site, thin+"ci_r = 10")
		page, err := inspect.PageFor(j, "self")
		require.NoError(t, err)
		i := slices.IndexFunc(page.Parts, func(x inspect.PagePart) bool { return x.Title == "Order of work" })
		require.Len(t, page.Parts[i].Lines, steps)
		for n, l := range page.Parts[i].Lines {
			require.Regexp(t, fmt.Sprintf(`^%d\. [A-Z]`, n+1), l)
		}
	}
}

// Nothing goes before blankets that are not planned: a closed crawl wall with
// known bare concrete has no blanket, and no page says that foam is on it. What goes
// before it is closed is said all the same.
func TestNothingIsSaidToBeThereWithoutAPlan(t *testing.T) {
	j := planned.Job(fixture.OfPlaces(t, cold, "id = \"here\"\nkind = \"crawl-space\"\nvented = false\nfoam_r = 0\ndampness = \"dry\""))
	require.Nil(t, j.Plan.Places[0].Choice)
	var notes []string
	for _, n := range inspect.HouseNotes(j, "first", "") {
		notes = append(notes, n.ID)
	}
	require.Equal(t, []string{"first-ground", "first-burners", "first-crawl-air"}, notes)
}
