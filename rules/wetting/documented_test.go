package wetting_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/moisture"
	"battwright/rules/wetting"
)

// outcome is how a build-up turns out where it was measured, or by practice.
type outcome bool

const (
	works outcome = true
	fails outcome = false
)

// known is a build-up with a known outcome.
type known struct {
	name    string
	climate string
	layers  string
	set     string // of faces: "", "roof", "crawl", "soil"
	room    roomOf
	is      outcome
	source  string
}

// roomOf makes the hours of a room.
type roomOf func(t testing.TB, w *wetting.Weather) []wetting.Edge

func kept(in moisture.Indoor) roomOf {
	return func(t testing.TB, w *wetting.Weather) []wetting.Edge {
		out, err := w.Room(in)
		require.NoError(t, err)
		return out
	}
}

func steady(tC, rh float64) roomOf {
	return func(_ testing.TB, w *wetting.Weather) []wetting.Edge {
		out := make([]wetting.Edge, len(w.Hours))
		for i := range out {
			out[i] = wetting.RoomAir(tC, rh)
		}
		return out
	}
}

// The sources of the rows. Practice has none: it is what the code allows and
// builders do, or what it bars because it went wrong.
const (
	practice = "practice"
	olympia  = "Ueno, Townsend, Lubliner 2008, ACEEE Summer Study (abstract)"
	devens   = "Ueno 2015, Building America BA-1501 (abstract)"
	madison  = "Sherwood 1983, Forest Products Laboratory FPL-RP-433 (abstract)"
)

// documented are build-ups that somebody opened or measured, and the brick of
// Houston, known by practice, which no house file can tell (what one can tell is
// held by package damp). Layers and rooms are partly ours: the abstracts do not
// tell them all. "Occupied-like" (E01 to E04) is the house as the program assumes it; with a steady 45 % instead, as
// was tried first, paint alone comes to 19.0 % and stands 5.7 points above the
// smart sheet, not 6. E30 watched its fiber only after it had missed, and misses
// still.
func documented() []known {
	heated := kept(usual(false))
	lived := steady(21, 0.45)
	return []known{
		{"Houston unfaced", "houston-tx", "paint, gypsum 12.5, !fiberglass 89, !~osb 11, wrap, behind-brick 25, brick 90", "", kept(usual(true)), works, practice},
		{"Houston polyethylene", "houston-tx", "paint, gypsum 12.5, polyethylene, !fiberglass 89, !~osb 11, wrap, behind-brick 25, brick 90", "", kept(usual(true)), fails, practice},
		{"E01 Olympia latex only", "seattle-tacoma-wa", "paint, gypsum 12.5, !fiberglass 140, !~osb 11, wrap, behind-siding 10, softwood 13", "", heated, fails, olympia},
		{"E02 Olympia kraft", "seattle-tacoma-wa", "paint, gypsum 12.5, kraft, !fiberglass 140, !~osb 11, wrap, behind-siding 10, softwood 13", "", heated, works, olympia},
		{"E03 Olympia smart", "seattle-tacoma-wa", "paint, gypsum 12.5, smart, !fiberglass 140, !~osb 11, wrap, behind-siding 10, softwood 13", "", heated, works, olympia},
		{"E04 Olympia polyethylene", "seattle-tacoma-wa", "paint, gypsum 12.5, polyethylene, !fiberglass 140, !~osb 11, wrap, behind-siding 10, softwood 13", "", heated, works, olympia},
		{"E07 Devens 12 in cellulose, 45 %", "boston-ma", "paint, gypsum 12.5, !cellulose 305, !~osb 11, wrap, behind-siding 10, softwood 13", "", lived, fails, devens},
		{"E08 the same, 20 %", "boston-ma", "paint, gypsum 12.5, !cellulose 305, !~osb 11, wrap, behind-siding 10, softwood 13", "", steady(21, 0.2), fails, devens},
		{"E09b Devens 12 in foam, 20 %", "boston-ma", "paint, gypsum 12.5, !open-cell-foam 305, !~osb 11, wrap, behind-siding 10, softwood 13", "", steady(21, 0.2), works, devens},
		{"E09c the same, 45 %", "boston-ma", "paint, gypsum 12.5, !open-cell-foam 305, !~osb 11, wrap, behind-siding 10, softwood 13", "", lived, works, devens},
		{"E10 Madison polyethylene", "minneapolis-st-paul-mn", "paint, gypsum 12.5, polyethylene, !fiberglass 89, !~plywood 12, wrap, behind-siding 10, softwood 13", "", steady(21, 0.35), works, madison},
		{"E12 Fairbanks + 2 in foam", "fairbanks-ak", "paint, gypsum 12.5, polyethylene, !fiberglass 140, !~osb 11, wrap, eps 51, behind-siding 10, softwood 13", "", steady(21, 0.35), fails, "Craven, Garber-Slaght 2014, HVAC&R Research 20(4) (abstract)"},
		{"E13c Fairbanks 12 in cellulose", "fairbanks-ak", "paint, gypsum 12.5, !cellulose 89, polyethylene, !cellulose 216, !~plywood 12, wrap, behind-siding 10, softwood 13", "", steady(21, 0.3), works, "Grunau 2013, poster (excerpt)"},
		{"E24 coastal attic, north slope", "seattle-tacoma-wa", "paint, gypsum 12.5, fiberglass 300, attic 1000, !~plywood 12, roofing", "roof", heated, fails, "Finch and others 2015, RCI"},
		{"E30 Chicago basement, faced roll", "chicago-il", "vinyl-wallpaper, !fiberglass 76, !concrete 200, roofing", "soil", heated, fails, "Home Energy, January 2006"},
		{"E31 northern Wisconsin, humid", "duluth-mn", "paint, gypsum 12.5, !fiberglass 89, !~plywood 9, wrap, softwood 13", "", steady(21, 0.5), fails, "TenWolde 1988"},
		{"E32 Southeast, vinyl-faced board", "new-orleans-la", "vinyl-wallpaper, !gypsum 12.5, !fiberglass 89, !~osb 11, wrap, behind-siding 10, softwood 13", "", steady(22, 0.5), fails, "Moyer and others 2001, FSEC-GP-212-01"},
	}
}

// judgedCase is what came out, workmanlike and with holes.
type judgedCase struct{ moisture, mold [2]float64 }

// alarm is whether the worst face is called wet or moldy, workmanlike (0) or
// with holes (1): moisture above 20 %, or an index of 3.
func (j judgedCase) alarm(holes int) bool { return j.moisture[holes] > 0.20 || j.mold[holes] >= 3 }

func (j judgedCase) word(holes int) string {
	switch {
	case j.mold[holes] >= 3:
		return "mold"
	case j.moisture[holes] > 0.20:
		return "wets"
	case j.moisture[holes] >= 0.16 || j.mold[holes] >= 1:
		return "edge"
	}
	return "holds"
}

// faces are the outer hours a case meets.
func faces(t testing.TB, l *catalog.Layers, w *wetting.Weather, k known) [][]wetting.Edge {
	t.Helper()
	one := func(out []wetting.Edge, err error) [][]wetting.Edge {
		require.NoError(t, err)
		return [][]wetting.Edge{out}
	}
	switch k.set {
	case "crawl":
		return one(w.Sheltered())
	case "soil":
		mean := 0.0
		for i := range w.Hours {
			mean += w.Hours[i].TempC / float64(len(w.Hours))
		}
		const swingC, warmest = 6, 230 // a meter or so deep (practice)
		return one(wetting.Soil(len(w.Hours), mean, swingC, warmest, l.SoilFilmWM2K), nil)
	case "roof":
		return one(w.Outside(wetting.Surface{TiltDeg: 25, Absorbs: l.AbsorbsRoof, Emits: l.Emits}))
	}
	var out [][]wetting.Edge
	for _, azimuth := range []float64{0, 180, 270} {
		f := wall(l, azimuth)
		if strings.Contains(k.layers, "brick") {
			f.Absorbs = l.AbsorbsBrick
		}
		out = append(out, one(w.Outside(f))...)
	}
	return out
}

// try runs a case on all its faces and keeps the worst of each.
func try(t testing.TB, c *catalog.Catalog, k known) judgedCase {
	t.Helper()
	l := c.DampLayers()
	w := weatherOf(t, c, k.climate)
	room := k.room(t, &w)
	var j judgedCase
	for _, out := range faces(t, l, &w, k) {
		for holes, leak := range []float64{l.LeakWorkmanlikeM3M2H, l.LeakWithHolesM3M2H} {
			sec := sectionOf(t, c, k.layers, leak)
			for i := range sec.Layers { // in an attic the leak comes into its air
				if sec.Layers[i].Air != nil && k.set == "roof" {
					sec.Leaks = []wetting.Leak{{Layer: i, M3M2H: leak}}
				}
			}
			r, err := wetting.Run(sec, room, out, wetting.Course{})
			require.NoError(t, err, k.name)
			for _, s := range r.Skins {
				j.moisture[holes] = max(j.moisture[holes], s.Worst)
			}
			for _, p := range r.Planes {
				j.mold[holes] = max(j.mold[holes], p.Mold)
			}
		}
	}
	return j
}

// score says how what came out stands to what is known.
func (k known) score(j judgedCase) string {
	switch {
	case bool(k.is) && !j.alarm(0), !bool(k.is) && j.alarm(0):
		return "hit"
	case bool(k.is):
		return "false alarm"
	case j.alarm(1):
		return "hit with holes"
	}
	return "miss"
}

func line(k known, j judgedCase) string {
	word := map[outcome]string{works: "works", fails: "fails"}[k.is]
	return fmt.Sprintf("%-34s %5.1f/%5.1f %%  M %.1f/%.1f  %-5s/%-5s  %s: %-14s (%s)",
		k.name, 100*j.moisture[0], 100*j.moisture[1], j.mold[0], j.mold[1], j.word(0), j.word(1), word, k.score(j), k.source)
}

// Walls and roofs that were opened: a table of what came out, with its misses.
// What is asked of it is what the measured walls of Olympia showed: the one
// with paint alone is wetter by far than its neighbors, and they are well.
func TestDocumented(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	c := base(t)
	got := map[string]judgedCase{}
	for _, k := range documented() {
		j := try(t, c, k)
		got[k.name[:3]] = j
		t.Log(line(k, j))
		if k.source == practice {
			require.Equal(t, "hit", k.score(j), k.name)
		}
	}
	for _, id := range []string{"E02", "E03", "E04"} {
		require.False(t, got[id].alarm(0), id)
		require.Greater(t, got["E01"].moisture[0], got[id].moisture[0]+0.06, id)
	}
}
