package damp_test

import (
	"context"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/candidate"
	"battwright/rules/damp"
	"battwright/testdata/fixture"
)

// planned is a place as the program plans it: the first candidate of a fiber,
// with its own facing and board.
func planned(t testing.TB, site, place, fiber string) (damp.House, damp.Build) {
	t.Helper()
	a := fixture.Judged(t, fixture.OfPlaces(t, site, place))
	at := candidate.ResolveSite(a)
	r := candidate.Assess(a, &a.House.Places[0], at)
	for _, x := range r.Candidates {
		if x.Material.ID == fiber {
			c := fixture.Yearly(t).Catalog()
			return at.DampHouse(r.Surface, c), candidate.DampBuild(r.Surface, c, x.Blankets, x.Facing, r.Target)
		}
	}
	t.Fatalf("no candidate of %s", fiber)
	return damp.House{}, damp.Build{}
}

// Every kind of place has the sections that a builder would draw of it. Read by
// hand against data/places.toml.
func TestSections(t *testing.T) {
	c := fixture.Yearly(t).Catalog()
	for _, x := range []struct {
		name, site, place string
		want              []string
	}{
		{"wall with kraft", at("chicago-il", false), vented("2x6"), []string{
			"outside-wall: !paint, !gypsum 12, !kraft, !fiberglass 140, !~^osb 11, eps 33, wrap, behind-siding 10, softwood 13",
		}},
		{"floor in Miami: the layer that the plan requires is in", at("miami-fl", true), crawl, []string{
			"floor-over-air: !perm 2, !_plywood 19, !~fiberglass 89, !perm 1",
		}},
		{"floor in Seattle", at("seattle-tacoma-wa", false), crawl, []string{
			"floor-over-air: !perm 2, !_plywood 19, !~fiberglass 210",
		}},
		{"attic", at("chicago-il", false), "id = \"attic\"\nkind = \"attic\"\nexisting_r = 0", []string{
			"vented-attic: !paint, !gypsum 12, !fiberglass 401, ~attic 1000, !^plywood 12, roofing",
		}},
	} {
		h, b := planned(t, x.site, x.place, "fiberglass")
		got, err := damp.Cuts(c, h, b)
		require.NoError(t, err, x.name)
		t.Log(x.name, got)
		if x.name == "attic" || x.name == "floor in Seattle" || strings.HasPrefix(x.name, "floor in Miami") { // how thick the plan makes it is not what is tested
			for i := range got {
				require.Regexp(t, thickness(x.want[i]), got[i], x.name)
			}
			continue
		}
		require.Subset(t, got, x.want, x.name)
	}
}

// Without its blanket a floor is its boards alone: its underside is then the face that
// is weighed and watched, and no room air comes out in it; behind foam on concrete the
// drywall meets the foam.
func TestSectionsWithoutABlanket(t *testing.T) {
	c := fixture.Yearly(t).Catalog()
	for place, want := range map[string]string{
		crawl: "floor-over-air: !perm 2, !_plywood 19, !",
		"id = \"b\"\nkind = \"basement-wall\"\nfoam_r = 10\nboard_kind = \"xps\"\nabove_grade_ft = 0": "wall-in-soil: !paint, !gypsum 12, !~xps 51, concrete 200, roofing",
	} {
		h, b := planned(t, at("chicago-il", false), place, "fiberglass")
		for i := range b.Parts {
			if b.Parts[i].Role == damp.Blanket {
				b.Parts[i] = damp.Part{Role: damp.Blanket, None: true}
			}
		}
		got, err := damp.Cuts(c, h, b)
		require.NoError(t, err)
		require.Equal(t, want, got[0])
	}
}

// thickness lets any thickness of fiber pass.
func thickness(want string) string {
	head, tail, _ := strings.Cut(want, "fiberglass ")
	_, rest, more := strings.Cut(tail, ",")
	out := "^" + quote(head) + `fiberglass \d+`
	if more {
		out += "," + quote(rest)
	}
	return out + "$"
}

func quote(s string) string { return strings.NewReplacer("^", `\^`, ".", `\.`).Replace(s) }

// Every kind has sections that can be made of every fiber, or says why not.
func TestEveryKindIsJudgedOrSaysWhy(t *testing.T) {
	c := fixture.Yearly(t).Catalog()
	for _, kind := range c.Kinds {
		if kind.NotJudged != "" {
			require.Empty(t, kind.Damp, kind.ID)
			continue
		}
		require.NotEmpty(t, kind.Damp, kind.ID)
		if kind.Derived {
			continue
		}
		for _, m := range c.Materials {
			h, b := planned(t, at("chicago-il", true), "id = \"x\"\nkind = \""+kind.ID+"\"", m.ID)
			cuts, err := damp.Cuts(c, h, b)
			require.NoError(t, err, "%s %s", kind.ID, m.ID)
			for _, cut := range cuts {
				require.Contains(t, cut, "!", "a plane is watched: %s", cut)
				require.Contains(t, cut, "~", "a leak comes out: %s", cut)
			}
		}
	}
}

// What the check has no figures for is not judged, and said.
func TestNotJudged(t *testing.T) {
	j := damp.New(fixture.Yearly(t).Catalog())
	judge := func(h damp.House, b damp.Build) damp.Verdict {
		v, err := j.Judge(context.Background(), h, b)
		require.NoError(t, err)
		require.Equal(t, damp.NotJudged, v.Word)
		require.False(t, v.Alarm())
		require.NotEmpty(t, v.Why)
		return v
	}
	h, b := planned(t, at("chicago-il", false), strings.Replace(vented("2x6"), `"osb"`, `"fiberboard"`, 1), "mineral-wool")
	require.Contains(t, judge(h, b).Why, "fiberboard")
	h, b = planned(t, at("chicago-il", false), vented("2x6"), "mineral-wool")
	far := h
	far.Climate.ID, far.Climate.Name = "nowhere", "Nowhere"
	require.Contains(t, judge(far, b).Why, "Nowhere")
	h.HasClimate = false
	judge(h, b)
	h, b = planned(t, at("seattle-tacoma-wa", false), "id = \"attic\"\nkind = \"attic\"", "mineral-wool")
	require.Contains(t, judge(h, b).Why, "Pacific")
	h, b = planned(t, at("chicago-il", false), "id = \"flue\"\nkind = \"chimney\"\nchimney = \"masonry-inside\"\ngap_in = 2", "mineral-wool")
	require.Contains(t, judge(h, b).Why, "flue")
	require.Zero(t, j.Results())
}

// What nobody said is as bad as the worst it may be; an unknown is named.
func TestUnknownIsTheWorstItMayBe(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	c := fixture.Yearly(t).Catalog()
	j := damp.New(c)
	h, b := planned(t, at("baltimore-md", true), vented("2x6", unfaced, "ci_r = 5"), "fiberglass")
	judge := func(b damp.Build) damp.Verdict {
		v, err := j.Judge(context.Background(), h, b)
		require.NoError(t, err)
		return v
	}
	open := judge(b)
	require.Equal(t, []string{"cover", "board"}, open.Open)
	n := j.Results()
	var wet, mold float64
	for _, cover := range c.DampLayers().Covers {
		for _, board := range c.DampLayers().Boards {
			if !board.Usual {
				continue
			}
			said := b
			said.Cover, said.Board = cover.ID, board.ID
			v := judge(said)
			require.Empty(t, v.Open)
			wet, mold = max(wet, v.Sealed.Moisture), max(mold, v.Sealed.Mold)
		}
	}
	require.Equal(t, open.Sealed.Moisture, wet)
	require.Equal(t, open.Sealed.Mold, mold)
	require.Equal(t, n, j.Results(), "nothing is run twice")
}

// XPS is no worse than the worse of EPS and foil-faced board, so that an unknown board
// need not be tried as XPS.
func TestXPSLiesBetween(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	j := damp.Of(fixture.Yearly(t).Catalog())
	for _, x := range []struct{ site, place string }{
		{at("duluth-mn", false), vented("2x6", unfaced, "ci_r = 15")},
		{at("burlington-vt", false), wall("2x4", `cladding = "direct"`, "ci_r = 5")},
		{at("houston-tx", true), vented("2x4", unfaced, "ci_r = 5")},
		{at("baltimore-md", true), wall("2x6", unfaced, "ci_r = 5")},
		{at("chicago-il", false), strings.Replace(cellar, "foam_r = 0", "foam_r = 5", 1)},
		{at("duluth-mn", false), "id = \"rim\"\nkind = \"rim-joist\"\nci_r = 10"},
	} {
		h, b := planned(t, x.site, x.place, "fiberglass")
		of := func(board string) damp.Verdict {
			b.Board = board
			v, err := j.Judge(context.Background(), h, b)
			require.NoError(t, err)
			return v
		}
		eps, xps, foil := of("eps"), of("xps"), of("polyiso")
		for _, w := range []func(damp.Verdict) damp.Worst{func(v damp.Verdict) damp.Worst { return v.Sealed }, func(v damp.Verdict) damp.Worst { return v.Holed }} {
			what := x.site + " " + x.place
			require.LessOrEqual(t, w(xps).Moisture, max(w(eps).Moisture, w(foil).Moisture)+0.002, what)
			require.LessOrEqual(t, w(xps).Mold, max(w(eps).Mold, w(foil).Mold)+0.05, what)
		}
	}
}

// More leak and more damp in the rooms never lower moisture or mold.
func TestMoreDampIsNeverDrier(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	j := damp.Of(fixture.Yearly(t).Catalog())
	for _, place := range []string{vented("2x6", unfaced, "ci_r = 0"), vented("2x6"), "id = \"slope\"\nkind = \"sloped-ceiling\"", "id = \"attic\"\nkind = \"attic\"", "id = \"rim\"\nkind = \"rim-joist\""} {
		for _, climate := range []string{"minneapolis-st-paul-mn"} {
			var last damp.Verdict
			for _, kept := range []string{"dry", "usual", "humid"} {
				site := strings.Replace(at(climate, false), `"usual"`, `"`+kept+`"`, 1)
				h, b := planned(t, site, place, "fiberglass")
				v, err := j.Judge(context.Background(), h, b)
				require.NoError(t, err)
				const hair = 1e-3
				require.GreaterOrEqual(t, v.Holed.Moisture, v.Sealed.Moisture-hair, "%s %s", place, kept)
				require.GreaterOrEqual(t, v.Holed.Mold, v.Sealed.Mold-hair, "%s %s", place, kept)
				require.GreaterOrEqual(t, v.Sealed.Moisture, last.Sealed.Moisture-hair, "%s %s", place, kept)
				require.GreaterOrEqual(t, v.Sealed.Mold, last.Sealed.Mold-hair, "%s %s", place, kept)
				last = v
			}
		}
	}
}

// Cancelled it gives up and keeps no half result; many may ask at once.
func TestManyAsk(t *testing.T) {
	j := damp.New(fixture.Yearly(t).Catalog())
	h, b := planned(t, at("duluth-mn", false), vented("2x6"), "fiberglass")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := j.Judge(ctx, h, b)
	require.ErrorIs(t, err, context.Canceled)
	require.Zero(t, j.Results())
	var all sync.WaitGroup
	got := make([]damp.Verdict, 4)
	for i := range got {
		all.Go(func() { got[i], _ = j.Judge(context.Background(), h, b) })
	}
	all.Wait()
	for _, v := range got {
		require.Equal(t, got[0], v)
		require.NotEmpty(t, v.Word)
	}
	require.Equal(t, got[0].Runs, j.Results())
}

// BenchmarkPlace is what a place costs whose answers are all unknown: with the
// weather read and the faces made, in a judge that has run nothing yet.
func BenchmarkPlace(b *testing.B) {
	c := fixture.Yearly(b).Catalog()
	for name, place := range map[string]string{
		"wall": vented("2x6"), "wall with board": vented("2x6", "ci_r = 5"), "attic": "id = \"attic\"\nkind = \"attic\"",
		"slope": "id = \"slope\"\nkind = \"sloped-ceiling\"", "floor": crawl, "cellar": cellar,
		"rim": "id = \"rim\"\nkind = \"rim-joist\"",
	} {
		b.Run(name, func(b *testing.B) {
			h, build := planned(b, at("chicago-il", true), place, "fiberglass")
			runs := 0
			for b.Loop() {
				v, err := damp.New(c).Judge(context.Background(), h, build)
				require.NoError(b, err)
				runs = v.Runs
			}
			b.ReportMetric(float64(runs), "runs")
			b.ReportMetric(b.Elapsed().Seconds()*1000/float64(b.N), "ms/place")
		})
	}
}

// How a year is worked out and from what on it is called damp are two statements, and
// a source stands behind each.
func TestVerdictNamesASourceOfEachStatement(t *testing.T) {
	c := fixture.Yearly(t).Catalog()
	h, b := planned(t, at("chicago-il", false), crawl, "fiberglass")
	v, err := damp.Of(c).Judge(context.Background(), h, b)
	require.NoError(t, err)
	require.Len(t, v.From, 2)
	require.NotEqual(t, v.From[0].Source, v.From[1].Source)
	for _, ref := range v.From {
		_, ok := c.Source(ref.Source)
		require.True(t, ok, ref.Source)
	}
}
