package wetting_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/wetting"
)

// sampled are sections that differ in what decides.
var sampled = []string{
	latexWall, kraftWall, polyWall,
	"paint, gypsum 12.5, smart, !fiberglass 89, !~plywood 12, wrap, softwood 13",
	"paint, gypsum 12.5, !cellulose 140, !~osb 11, wrap, xps 25, behind-siding 10, softwood 13",
	"vinyl-wallpaper, !gypsum 12.5, !wool 140, !~osb 11, wrap, behind-brick 25, brick 90",
	"paint, gypsum 12.5, polyethylene, mineral-wool 300, !attic 1000, !~osb 12, felt",
	"paint, gypsum 12.5, !cotton 140, !~osb 11, polyiso 38, foil, behind-siding 10, softwood 13",
}

// More air that leaks, and more moisture in the room, never lower the worst
// moisture of the sheathing or the mold index at its planes.
func TestMoreIsNeverDrier(t *testing.T) {
	c := base(t)
	l := c.DampLayers()
	climates := []string{"duluth-mn", "chicago-il", "seattle-tacoma-wa", "miami-fl"}
	if testing.Short() {
		climates = climates[1:2]
	}
	course := wetting.Course{Runs: 1, StepH: 3}
	pairs := 0
	for _, at := range climates {
		w := weatherOf(t, c, at)
		out, err := w.Outside(north(l))
		require.NoError(t, err)
		for _, layers := range sampled {
			var last wetting.Result
			for i, leak := range []float64{0, 0.03, 0.15} {
				room := steady(21, 0.4)(t, &w)
				r, err := wetting.Run(sectionOf(t, c, layers, leak), room, out, course)
				require.NoError(t, err)
				if i > 0 {
					requireNotDrier(t, last, r, "%s %s leak %v", at, layers, leak)
					pairs++
				}
				last = r
			}
			for i, rh := range []float64{0.25, 0.4, 0.55} {
				r, err := wetting.Run(sectionOf(t, c, layers, 0.03), steady(21, rh)(t, &w), out, course)
				require.NoError(t, err)
				if i > 0 {
					requireNotDrier(t, last, r, "%s %s room %v", at, layers, rh)
					pairs++
				}
				last = r
			}
		}
	}
	t.Logf("%d pairs", pairs)
}

// requireNotDrier allows for what more moisture does do: it opens a sheet that
// follows humidity, and a wall that is driven from outside dries through it by a
// hair; and fiber that is soaked carries heat to wood that is soaked as well.
func requireNotDrier(t *testing.T, less, more wetting.Result, format string, args ...any) {
	t.Helper()
	const hairMoisture, hairMold, soaked = 0.001, 0.05, 0.28
	say := append([]any{format}, args...)
	require.GreaterOrEqual(t, more.Skins[0].Worst, min(soaked, less.Skins[0].Worst-hairMoisture), say...)
	for i := range more.Planes {
		require.GreaterOrEqual(t, more.Planes[i].Mold, less.Planes[i].Mold-hairMold, say...)
	}
}

// A quarter of an hour instead of an hour moves the worst moisture by less than
// 0.2 points and the mold index by less than 0.6.
func TestQuarterHours(t *testing.T) {
	if testing.Short() {
		t.Skip("long years")
	}
	c := base(t)
	l := c.DampLayers()
	moisture, mold := 0.0, 0.0
	for _, at := range []string{"chicago-il", "houston-tx"} {
		w := weatherOf(t, c, at)
		out, err := w.Outside(north(l))
		require.NoError(t, err)
		room, err := w.Room(usual(at == "houston-tx"))
		require.NoError(t, err)
		for _, layers := range sampled[:5] {
			for _, leak := range []float64{0.03, 0.15} {
				sec := sectionOf(t, c, layers, leak)
				hour, err := wetting.Run(sec, room, out, wetting.Course{})
				require.NoError(t, err)
				quarter, err := wetting.Run(sec, room, out, wetting.Course{Runs: 2, StepH: 0.25, CoarseH: 3})
				require.NoError(t, err)
				d, m := apart(hour, quarter)
				moisture, mold = max(moisture, d), max(mold, m)
				require.Less(t, d, 0.002, "%s %s %v", at, layers, leak)
				require.Less(t, m, 0.6, "%s %s %v", at, layers, leak)
			}
		}
	}
	t.Logf("at most %.2f points and %.2f of the index", 100*moisture, mold)
}

// apart is how far the worst moisture and the mold indexes of two runs lie
// from each other.
func apart(a, b wetting.Result) (moisture, mold float64) {
	for i := range a.Skins {
		moisture = max(moisture, abs(a.Skins[i].Worst-b.Skins[i].Worst))
	}
	for i := range a.Planes {
		mold = max(mold, abs(a.Planes[i].Mold-b.Planes[i].Mold))
	}
	return moisture, mold
}

func abs(x float64) float64 { return max(x, -x) }

// Cells of half and of a quarter the size: what stays dry moves by less than
// half a point, and halving again moves it less than halving did.
func TestHalvedCells(t *testing.T) {
	c := base(t)
	w := weatherOf(t, c, "chicago-il")
	out, err := w.Outside(north(c.DampLayers()))
	require.NoError(t, err)
	room, err := w.Room(usual(false))
	require.NoError(t, err)
	for _, layers := range []string{kraftWall, polyWall} {
		var runs []wetting.Result
		for _, fine := range []int{1, 2, 4} {
			sec := sectionOf(t, c, layers, 0.03)
			sec.Fine = fine
			r, err := wetting.Run(sec, room, out, wetting.Course{Runs: 1, StepH: 1})
			require.NoError(t, err)
			runs = append(runs, r)
		}
		d1, m1 := apart(runs[0], runs[1])
		d2, m2 := apart(runs[1], runs[2])
		t.Logf("moisture %.2f then %.2f points, mold %.2f then %.2f", 100*d1, 100*d2, m1, m2)
		require.Less(t, d1, 0.005, layers)
		require.Less(t, d2, d1, layers)
		require.Less(t, m1, 0.2, layers)
		require.Less(t, m2, 0.2, layers)
	}
}

// Whatever is thrown at it, a run ends in figures that can be or in an error
// that says what was wrong.
func FuzzRun(f *testing.F) {
	c := base(f)
	for seed := range uint64(20) {
		f.Add(seed, 0.03, 12.0, 140.0, 1.0, 0.5)
	}
	f.Fuzz(func(t *testing.T, seed uint64, leak, thin, thick, hours, rh float64) {
		dice := rand.New(rand.NewPCG(seed, 1))
		names := []string{"fiberglass", "wool", "osb", "gypsum", "concrete", "xps", "paint", "kraft", "foil", "attic", "behind-siding"}
		l := c.DampLayers()
		sec := wetting.Section{StartC: 20 * dice.NormFloat64(), StartRH: rh, Fine: dice.IntN(3)}
		for range 1 + dice.IntN(8) {
			name := names[dice.IntN(len(names))]
			layer, err := l.Of(name, []float64{thin, thick}[dice.IntN(2)]/1000)
			if err != nil {
				layer, _ = l.Of(name, 0) // a sheet, or nothing at all
			}
			sec.Layers = append(sec.Layers, layer)
		}
		some := func() int { // now and then one that is not there
			if dice.IntN(20) == 0 {
				return -1
			}
			return dice.IntN(len(sec.Layers))
		}
		if dice.IntN(2) == 0 {
			sec.Leaks = append(sec.Leaks, wetting.Leak{Layer: some(), M3M2H: leak})
		}
		sec.Watch = append(sec.Watch, wetting.Watch{Plane: some(), Class: wetting.Class(min(4, dice.IntN(20)))})
		sec.Skins = append(sec.Skins, wetting.Skin{Layer: some(), DepthM: 0.0045, Outer: dice.IntN(2) == 0})
		room, out := make([]wetting.Edge, 48), make([]wetting.Edge, 48)
		for i := range room {
			room[i] = wetting.RoomAir(20+3*dice.NormFloat64(), rh)
			out[i] = wetting.RoomAir(30*dice.NormFloat64(), rh*dice.Float64())
			out[i].AbsorbedWM2, out[i].WindMS = 200*dice.NormFloat64(), 5*dice.ExpFloat64()
		}
		r, err := wetting.Run(sec, room, out, wetting.Course{Runs: 1 + dice.IntN(2), StepH: hours})
		if err != nil {
			for _, kind := range []error{wetting.ErrSection, wetting.ErrMaterial, wetting.ErrClimate, wetting.ErrStep} {
				if errors.Is(err, kind) {
					return
				}
			}
			t.Fatalf("an error of no kind: %v", err)
		}
		for _, p := range r.Planes {
			require.True(t, p.Mold >= 0 && p.Mold <= 6.1 && p.WorstRH >= 0 && p.WorstRH <= 1.0001 && p.FreeGM2 >= 0, "%+v", p)
		}
		for _, k := range r.Skins {
			require.True(t, k.Worst >= 0 && k.Worst < 20, "%+v", k)
		}
		require.InDelta(t, 0, r.DriftGM2, 1e-3)
	})
}
