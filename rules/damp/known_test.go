package damp_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/rules/candidate"
	"battwright/rules/damp"
	"battwright/testdata/fixture"
)

// known is a build-up with a known outcome, told as a builder would: a house
// file. What no file can say is in change.
type known struct {
	name   string
	site   string // keys of the site
	place  string // keys of the place
	fiber  string // the material, and the R on its bag
	r      float64
	sheet  string // what is on the room side: as planned, or what the plan would not allow
	works  bool
	source string
	change func(*damp.House, *damp.Build)
}

// The sources of the rows. Practice has none: it is what the code allows and
// builders do, or what it bars because it went wrong.
const (
	practice = "practice"
	olympia  = "Ueno, Townsend, Lubliner 2008, ACEEE Summer Study (abstract)"
	madison  = "Sherwood 1983, Forest Products Laboratory FPL-RP-433 (abstract)"
	panels   = "fiberglass panels on block wall, two winters, ASTM paper (abstract)"
)

func at(climate string, cooled bool) string {
	return fmt.Sprintf("climate = %q\ncode = \"irc-2021\"\nindoor = \"usual\"\ncooled = %v", climate, cooled)
}

func wall(studs string, more ...string) string {
	return strings.Join(append([]string{`id = "wall"`, `kind = "exterior-wall"`, `framing.size = "` + studs + `"`, `framing.spacing_in = 16`, `sheathing = "osb"`, `exposed = false`}, more...), "\n")
}

func vented(studs string, more ...string) string {
	return wall(studs, append([]string{`cladding = "vented"`}, more...)...)
}

func plywood(place string) string { return strings.Replace(place, `"osb"`, `"plywood"`, 1) }

const (
	unfaced = `retarder = "none"`
	crawl   = "id = \"crawl\"\nkind = \"crawl-space\"\nvented = true\nground_cover = true"
	cellar  = "id = \"cellar\"\nkind = \"basement-wall\"\nframing.size = \"2x4\"\nfoam_r = 0"
)

// wellKnown are the 13 by which the monthly check was weighed and found wanting
// (6 of them right). The brick of Houston cannot be told in a house file: it is
// siding with a gap here.
func wellKnown() []known {
	return []known{
		{"Houston unfaced", at("houston-tx", true), vented("2x4", unfaced), "fiberglass", 13, "none", true, practice, nil},
		{"Houston polyethylene", at("houston-tx", true), vented("2x4"), "fiberglass", 13, "polyethylene", false, practice, nil},
		{"Miami polyethylene", at("miami-fl", true), vented("2x4"), "fiberglass", 13, "polyethylene", false, practice, nil},
		{"Miami floor over crawl, no layer", at("miami-fl", true), crawl, "fiberglass", 13, "none", false, practice, func(_ *damp.House, b *damp.Build) { b.Parts = b.Parts[:len(b.Parts)-1] }},
		{"Atlanta polyethylene, flat siding", at("atlanta-ga", true), wall("2x4", `cladding = "direct"`), "fiberglass", 13, "polyethylene", false, practice, nil},
		{"Seattle kraft", at("seattle-tacoma-wa", false), vented("2x6"), "fiberglass", 21, "kraft", true, practice, nil},
		{"Seattle smart + R-5", at("seattle-tacoma-wa", false), vented("2x6", `retarder = "smart"`, "ci_r = 5"), "fiberglass", 21, "smart", true, practice, nil},
		{"Chicago kraft", at("chicago-il", false), vented("2x6"), "fiberglass", 21, "kraft", true, practice, nil},
		{"Chicago paint + R-15", at("chicago-il", false), vented("2x6", unfaced, "ci_r = 15"), "fiberglass", 21, "none", true, practice, nil},
		{"Duluth paint only", at("duluth-mn", false), vented("2x6", unfaced), "fiberglass", 21, "none", false, practice, nil},
		{"Chicago basement, fiber on concrete", at("chicago-il", false), cellar, "fiberglass", 13, "none", false, practice, nil},
		{"Seattle floor over crawl", at("seattle-tacoma-wa", false), crawl, "fiberglass", 30, "none", true, practice, nil},
		{"Fairbanks polyethylene", at("fairbanks-ak", false), vented("2x6", `retarder = "polyethylene"`), "fiberglass", 21, "polyethylene", true, practice, nil},
	}
}

// further are more of them.
func further() []known {
	return []known{
		{"Charleston paint", at("charleston-sc", true), vented("2x6", unfaced), "fiberglass", 21, "none", true, practice, nil},
		{"Baltimore paint", at("baltimore-md", false), vented("2x6", unfaced), "fiberglass", 21, "none", true, practice, nil},
		{"Chicago paint + R-7.5", at("chicago-il", false), vented("2x6", unfaced, "ci_r = 7.5"), "fiberglass", 21, "none", true, practice, nil},
		{"Minneapolis paint + R-11.25", at("minneapolis-st-paul-mn", false), vented("2x6", unfaced, "ci_r = 11.25"), "fiberglass", 21, "none", true, practice, nil},
		{"Burlington paint + R-10", at("burlington-vt", false), vented("2x6", unfaced, "ci_r = 10"), "fiberglass", 21, "none", true, practice, nil},
		{"Duluth kraft + R-7.5", at("duluth-mn", false), vented("2x6", "ci_r = 7.5"), "fiberglass", 21, "kraft", true, practice, nil},
		{"Miami floor, its layer under it", at("miami-fl", true), crawl, "fiberglass", 13, "none", true, practice, nil},
		{"Miami unfaced", at("miami-fl", true), vented("2x4", unfaced), "fiberglass", 13, "none", true, practice, nil},
		{"Minneapolis vented attic", at("minneapolis-st-paul-mn", false), "id = \"attic\"\nkind = \"attic\"", "fiberglass", 49, "none", true, practice, nil},
		{"Chicago vented slope, kraft", at("chicago-il", false), "id = \"slope\"\nkind = \"sloped-ceiling\"\nexposed = false", "fiberglass", 30, "kraft", true, practice, nil},
		{"Houston wallpaper of vinyl", at("houston-tx", true), vented("2x4", unfaced), "fiberglass", 13, "none", false, practice, cover("wallpaper-or-vinyl")},
	}
}

func cover(id string) func(*damp.House, *damp.Build) {
	return func(_ *damp.House, b *damp.Build) { b.Cover = id }
}

// steady keeps the rooms at a humidity: more damp than they can have, taken down
// to it.
func steady(tC, rh float64, more ...func(*damp.House, *damp.Build)) func(*damp.House, *damp.Build) {
	return func(h *damp.House, b *damp.Build) {
		const soaked = 20
		h.Indoor.Class, h.Indoor.HeatingC, h.Indoor.MaxRH, h.Indoor.MaxRHCooled = soaked, tC, rh, rh
		for _, f := range more {
			f(h, b)
		}
	}
}

// documented are build-ups that somebody opened or measured, as far as a house
// file can tell them: deep walls of cellulose and sprayed foam cannot be told.
// Layers and rooms are partly ours: the abstracts do not tell them all.
func documented() []known {
	return []known{
		{"E01 Olympia latex only", at("seattle-tacoma-wa", false), vented("2x6", unfaced), "fiberglass", 21, "none", false, olympia, nil},
		{"E02 Olympia kraft", at("seattle-tacoma-wa", false), vented("2x6"), "fiberglass", 21, "kraft", true, olympia, nil},
		{"E03 Olympia smart", at("seattle-tacoma-wa", false), vented("2x6", `retarder = "smart"`), "fiberglass", 21, "smart", true, olympia, nil},
		{"E04 Olympia polyethylene", at("seattle-tacoma-wa", false), vented("2x6", `retarder = "polyethylene"`), "fiberglass", 21, "polyethylene", true, olympia, nil},
		{"E10 Madison polyethylene", at("minneapolis-st-paul-mn", false), plywood(vented("2x4", `retarder = "polyethylene"`)), "fiberglass", 13, "polyethylene", true, madison, steady(21, 0.35)},
		{"E12 Fairbanks + 2 in foam", at("fairbanks-ak", false), vented("2x6", "ci_r = 7.8"), "fiberglass", 21, "polyethylene", false, "Craven, Garber-Slaght 2014, HVAC&R Research 20(4) (abstract)", steady(21, 0.35, func(_ *damp.House, b *damp.Build) { b.Board = "eps" })},
		{"E20 Houston unvented roof", at("houston-tx", true), "id = \"slope\"\nkind = \"sloped-ceiling\"\nframing.size = \"2x12\"\nexposed = false\nretarder = \"none\"", "fiberglass", 30, "none", false, "Ueno, Lstiburek, Building America CP-1302 (abstract)", func(_ *damp.House, b *damp.Build) { b.Sections = []string{"unvented-slope"} }},
		{"E24 coastal attic", at("seattle-tacoma-wa", false), "id = \"attic\"\nkind = \"attic\"", "fiberglass", 49, "none", false, "Finch and others 2015, RCI", nil},
		{"E25 Carolina vented crawl, no layer", at("raleigh-durham-nc", true), crawl, "fiberglass", 19, "none", false, "Advanced Energy, Princeville field study (part read)", func(_ *damp.House, b *damp.Build) { b.Parts = b.Parts[:len(b.Parts)-1] }},
		{"E27 basement, panels", at("minneapolis-st-paul-mn", false), cellar + "\nexposed = true", "fiberglass", 13, "none", true, panels, steady(20, 0.45)},
		{"E28 the same, polyethylene inside", at("minneapolis-st-paul-mn", false), cellar + "\nexposed = true", "fiberglass", 13, "polyethylene", false, panels, steady(20, 0.45)},
		{"E30 Chicago basement, faced roll", at("chicago-il", false), cellar + "\nexposed = true", "fiberglass", 13, "polyethylene", false, "Home Energy, January 2006", nil},
		{"E31 northern Wisconsin, humid", at("duluth-mn", false), plywood(wall("2x4", `cladding = "direct"`, unfaced)), "fiberglass", 13, "none", false, "TenWolde 1988", steady(21, 0.5)},
		{"E32 Southeast, vinyl-faced board", at("new-orleans-la", true), vented("2x4", unfaced), "fiberglass", 13, "none", false, "Moyer and others 2001, FSEC-GP-212-01", cover("wallpaper-or-vinyl")},
	}
}

// build takes a case through the program's own answers: the place is assessed,
// its candidate found, and joined with the check.
func build(t testing.TB, k known) (damp.House, damp.Build) {
	t.Helper()
	a := fixture.OfPlaces(t, k.site, k.place)
	site := candidate.ResolveSite(a)
	require.True(t, site.HasClimate, k.name)
	r := candidate.Assess(a, &a.House.Places[0], site)
	cut := candidateOf(t, k, r)
	f := cut.Facing
	if got := f.Retarder(); got != k.sheet { // what the program would not plan
		f = candidate.Facing{OnBlanket: "none", Sheet: k.sheet}
		require.Contains(t, []string{"none", "polyethylene"}, k.sheet, "%s: the plan has %s", k.name, got)
	}
	t0 := r.Target
	t0.AddR = 0 // the case is as it stands, not as the code would have it
	c := fixture.Yearly(t).Catalog()
	h, b := site.DampHouse(r.Surface, c), candidate.DampBuild(r.Surface, c, cut.Blankets, f, t0)
	b.Cover, b.Board = "paint", "xps" // as the cases are told
	if k.change != nil {
		k.change(&h, &b)
	}
	return h, b
}

func candidateOf(t testing.TB, k known, r candidate.PlaceResult) candidate.Assessed {
	t.Helper()
	var best candidate.Assessed
	for _, x := range r.Candidates {
		if x.Material.ID == k.fiber && (best.Material == nil || abs(x.NominalR-k.r) < abs(best.NominalR-k.r)) {
			best = x
		}
	}
	require.NotNil(t, best.Material, k.name)
	return best
}

func abs(x float64) float64 { return max(x, -x) }

func score(k known, v damp.Verdict) string {
	switch {
	case v.Word == damp.NotJudged:
		return "not judged"
	case k.works != v.Alarm():
		return "hit"
	case k.works:
		return "false alarm"
	case v.WithHoles == damp.Wets || v.WithHoles == damp.Mold:
		return "hit with holes"
	}
	return "miss"
}

func try(t testing.TB, j *damp.Judge, k known) damp.Verdict {
	t.Helper()
	h, b := build(t, k)
	start := time.Now()
	v, err := j.Judge(context.Background(), h, b)
	require.NoError(t, err, k.name)
	took := time.Since(start)
	is := map[bool]string{true: "works", false: "fails"}[k.works]
	t.Logf("%-36s %5.1f/%5.1f %%  M %.1f/%.1f  %-15s with holes %-10s %s: %-14s (%s) %d runs, %d ms, mold worst: %s; %s",
		k.name, 100*v.Sealed.Moisture, 100*v.Holed.Moisture, v.Sealed.Mold, v.Holed.Mold, v.Word, v.WithHoles, is, score(k, v), k.source, v.Runs, took.Milliseconds(), v.Sealed.MoldCase, v.Why)
	return v
}

// Of the 13 at least 11 right and at most one false alarm, from house files
// through the join. No figure was fitted to them; misses are printed.
func TestWellKnown(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	j := damp.Of(fixture.Yearly(t).Catalog())
	count := map[string]int{}
	for _, k := range wellKnown() {
		count[score(k, try(t, j, k))]++
	}
	t.Log(count)
	require.GreaterOrEqual(t, count["hit"], 11)
	require.LessOrEqual(t, count["false alarm"], 1)
}

// The same while nobody says what is on the drywall and of what the board is: what
// alarmed still does. What more alarms is printed.
func TestWellKnownWithoutAnswers(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	j := damp.Of(fixture.Yearly(t).Catalog())
	for _, k := range wellKnown() {
		h, b := build(t, k)
		said, err := j.Judge(context.Background(), h, b)
		require.NoError(t, err)
		b.Cover, b.Board = damp.Unknown, damp.Unknown
		open, err := j.Judge(context.Background(), h, b)
		require.NoError(t, err)
		t.Logf("%-36s %-15s nobody said %v: %-15s M %.1f, %.1f %%, worst: %s; %d runs", k.name, said.Word, open.Open, open.Word, open.Sealed.Mold, 100*open.Sealed.Moisture, open.Sealed.MoldCase, open.Runs)
		require.True(t, open.Alarm() || !said.Alarm(), k.name)
	}
}

// No alarm, workmanlike, on what practice knows to work; misses are printed.
func TestFurtherKnown(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	j := damp.Of(fixture.Yearly(t).Catalog())
	for _, k := range further() {
		v := try(t, j, k)
		switch strings.Fields(k.name)[0] {
		case "Charleston", "Minneapolis", "Burlington":
			require.False(t, v.Alarm(), k.name)
			require.NotEqual(t, damp.NotJudged, v.Word, k.name)
		}
	}
}

// Build-ups that were opened: what came out, misses too. Asked of it is what the
// walls of Olympia showed: paint alone is wetter by far, its neighbors are well.
func TestDocumented(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	j := damp.Of(fixture.Yearly(t).Catalog())
	got := map[string]damp.Verdict{}
	for _, k := range documented() {
		got[k.name[:3]] = try(t, j, k)
	}
	for _, id := range []string{"E02", "E03", "E04"} {
		require.False(t, got[id].Alarm(), id)
		require.Greater(t, got["E01"].Sealed.Moisture, got[id].Sealed.Moisture+0.06, id)
	}
	require.Equal(t, damp.NotJudged, got["E24"].Word)
	require.NotEmpty(t, got["E24"].Why)
}
