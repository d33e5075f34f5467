package moisture

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The cases of this file are worked by hand.

func TestAfterDriest(t *testing.T) {
	for _, c := range []struct {
		what  string
		gain  [Months]float64
		start int
	}{
		{"never below the start", [Months]float64{1, 1, 1}, 0},
		{"a gain first, then all of it back", [Months]float64{5, -5, 1}, 0},
		{"lowest after January", [Months]float64{-1, 2}, 1},
		{"lowest after December: the year starts in January", [Months]float64{11: -1}, 0},
		{"down, up, down further", [Months]float64{-1, 3, 0, -4, 9}, 4},
		{"equally low twice: the earlier", [Months]float64{-1, 1, -1, 1}, 1},
	} {
		require.Equal(t, c.start, afterDriest(&c.gain), c.what)
	}
}

func TestPeak(t *testing.T) {
	for _, c := range []struct {
		what         string
		held         [Months]float64
		most         float64
		month, clear int
	}{
		{"nothing", [Months]float64{}, 0, 0, 0},
		{"the earlier of two equal ends of month", [Months]float64{2: 5, 3: 5}, 5, 3, 5},
		{"dry again beyond the new year", [Months]float64{0: 3, 11: 8}, 8, 12, 2},
		{"never dry", [Months]float64{1, 1, 1, 1, 1, 9, 1, 1, 1, 1, 1, 1}, 9, 6, 0},
		{"a millionth of a gram is dry", [Months]float64{4, dryGM2, 1}, 4, 1, 2},
		{"two millionths are not", [Months]float64{4, 2 * dryGM2, 0}, 4, 1, 3},
		{"dry only in the month before the peak", [Months]float64{0, 9, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}, 9, 2, 1},
	} {
		most, month, clear := peak(&c.held)
		require.Equal(t, []any{c.most, c.month, c.clear}, []any{most, month, clear}, c.what)
	}
}

// cutOf lays three sliced layers: 0.5, 1.0 and 0.25 m2K/W, of 2, 4 and 1 slices.
func cutOf(t *testing.T) *Workspace {
	var w Workspace
	require.NoError(t, w.grid.cut([]Layer{
		{RM2KW: 0.5, SdM: 1}, {RM2KW: 1, SdM: 2, Sensitive: true}, {RM2KW: 0.25, SdM: 1},
	}, 0.13, 0.04))
	return &w
}

func TestPlaceInsideALayer(t *testing.T) {
	g := &cutOf(t).grid
	require.Equal(t, 8, g.points)
	for k, want := range map[int]Plane{
		1: {Inner: 0, Outer: 0, Share: 0.5},
		2: {Inner: 0, Outer: 1, Share: 1, Judged: true},
		3: {Inner: 1, Outer: 1, Share: 0.25, Judged: true},
		5: {Inner: 1, Outer: 1, Share: 0.75, Judged: true},
		6: {Inner: 1, Outer: 2, Share: 1, Judged: true},
	} {
		require.Equal(t, want, g.place(k), "node %d", k)
	}
}

// A plane that grows never clears, though the count of one year starts dry.
func TestAGrowingPlaneNeverClears(t *testing.T) {
	w := cutOf(t)
	for m, g := range [Months]float64{-2, 1, 3, -1} { // g/m2: 1 more every year
		w.gain[m][3] = g / gPerKg
	}
	p := w.plane(3, 7/gPerKg, 0)
	require.InDelta(t, 1, p.RemainderGM2, 1e-9)
	require.InDeltaSlice(t, []float64{1, 1, 4, 3, 3, 3, 3, 3, 3, 3, 3, 3}, p.HeldGM2[:], 1e-9)
	require.InDelta(t, 4, p.PeakGM2, 1e-9)
	require.Equal(t, []int{3, 0}, []int{p.PeakMonth, p.ClearMonth})

	dry := cutOf(t)
	dry.gain[0][3], dry.gain[5][3] = 2/gPerKg, -3/gPerKg
	p = dry.plane(3, 1/gPerKg, 0)
	require.Zero(t, p.RemainderGM2)
	require.InDeltaSlice(t, []float64{3, 3, 3, 3, 3, 0, 0, 0, 0, 0, 0, 0}, p.HeldGM2[:], 1e-9)
	require.Equal(t, []int{1, 6}, []int{p.PeakMonth, p.ClearMonth})
}

func TestPlanesAddUp(t *testing.T) {
	plane := func(judged bool, peak, rest float64, held [Months]float64) Plane {
		return Plane{Judged: judged, PeakGM2: peak, RemainderGM2: rest, HeldGM2: held}
	}
	r := Result{Wettest: -1, WettestJudged: -1, Planes: []Plane{
		plane(true, 5, 0, [Months]float64{5, 2}),
		plane(false, 9, 4, [Months]float64{0, 9}),
		plane(true, 5, 0, [Months]float64{1, 5}),
		plane(true, 2, 0, [Months]float64{0, 0, 2}),
	}}
	r.sum()
	require.Equal(t, 1, r.Wettest)
	require.Zero(t, r.WettestJudged, "of two equal ones the inner")
	require.Equal(t, []any{7.0, 2, 4}, []any{r.PeakGM2, r.PeakMonth, r.ClearMonth})
	require.Equal(t, 16.0, r.TotalPeakGM2)
	require.Zero(t, r.RemainderGM2, "what no sensitive layer touches does not count")

	r.Planes[3].RemainderGM2 = 0.5
	r.RemainderGM2, r.Wettest, r.WettestJudged = 0, -1, -1
	r.sum()
	require.Equal(t, 0.5, r.RemainderGM2)
	require.Zero(t, r.ClearMonth)
}

// A limit is not passed by what stands exactly on it.
func TestLimitsAreNotPassedAtTheirValue(t *testing.T) {
	l := Limits{PeakGM2: 200, TraceGM2: 5, MoldRH: 0.8, MoldAboveC: 5, MoldMonths: 2}
	for _, c := range []struct {
		peak, rest float64
		mold       int
		want       Verdict
	}{
		{5, 0, 0, NoBuildUp},
		{5.1, 0, 0, BuildsUpAndDries},
		{200, 0, 0, BuildsUpAndDries},
		{200.1, 0, 0, MoldRisk},
		{0, 0, 1, NoBuildUp},
		{0, 0, 2, MoldRisk},
		{5, 3, 0, NoBuildUp},
		{5.1, 3, 0, StaysWet},
		{500, 3, 5, StaysWet},
	} {
		r := Result{PeakGM2: c.peak, RemainderGM2: c.rest, MoldMonths: c.mold}
		r.decide(l)
		require.Equal(t, c.want, r.Verdict, "%+v", c)
	}
	l.MoldMonths = 0
	r := Result{}
	r.decide(l)
	require.Equal(t, NoBuildUp, r.Verdict, "no months of mold are none, however few it takes")
}

func TestDampMonths(t *testing.T) {
	limits := Limits{MoldRH: 0.8, MoldAboveC: 5}
	month := same(Month{OutC: 10, OutPa: 0.9 * satPa(10)})
	face := func(rh, tempC float64) Interface {
		f := Interface{Judged: true}
		for m := range Months {
			f.RH[m], f.TempC[m] = 0.5, tempC
		}
		f.RH[3] = rh
		return f
	}
	for _, c := range []struct {
		what   string
		faces  []Interface
		open   bool
		months int
		warm   Spot
	}{
		{"exactly the limit", []Interface{face(0.8, 12)}, false, 0, Spot{0.8, 4, 0}},
		{"over it", []Interface{face(0.81, 12)}, false, 1, Spot{0.81, 4, 0}},
		{"over it at two faces of one month", []Interface{face(0.81, 12), face(0.85, 12)}, false, 1, Spot{0.85, 4, 1}},
		{"equally damp: the inner", []Interface{face(0.85, 12), face(0.85, 12)}, false, 1, Spot{0.85, 4, 0}},
		{"no warmer than the limit", []Interface{face(0.99, 5)}, false, 0, Spot{}},
		{"as damp as the open air, which is 90 %", []Interface{face(0.9, 12)}, true, 0, Spot{}},
		{"damper than the open air", []Interface{face(0.91, 12)}, true, 1, Spot{0.91, 4, 0}},
	} {
		r := Result{Interfaces: c.faces}
		r.damp(&month, Options{Limits: limits, OutsideAir: c.open})
		require.Equal(t, c.months, r.MoldMonths, c.what)
		require.Equal(t, c.warm, r.WorstWarm, c.what)
		require.Equal(t, 4, r.Worst.Month, c.what)
	}
}

// What an earlier, longer string left behind does not count.
func TestOnlyTheBendsInUseCount(t *testing.T) {
	r := rope{len: 3}
	r.at[0], r.at[1], r.at[2], r.at[3], r.at[4] = 0, 2, 5, 3, 4
	r.rate[1], r.rate[2], r.rate[3], r.rate[4] = -2, -50, -70, -90
	require.Equal(t, -2.0, r.total())
	held := [maxPoints]float64{2: 10, 3: 1, 4: 1, 5: 1}
	step, node := firstDry(&r, &held, 100)
	require.Equal(t, []any{5.0, 2}, []any{step, node})
	step, node = firstDry(&r, &held, 4)
	require.Equal(t, []any{4.0, noLayer}, []any{step, node})
	step, node = firstDry(&r, &held, 5)
	require.Equal(t, []any{5.0, noLayer}, []any{step, node}, "dry just as the month ends")
}

// A layer may use all the slices there are, and not one more.
func TestSlicesAreCounted(t *testing.T) {
	var g grid
	full := Layer{RM2KW: SliceRM2KW * (MaxSlices - 1), SdM: 10}
	last := Layer{RM2KW: SliceRM2KW, SdM: 1}
	require.NoError(t, g.cut([]Layer{full, last}, 0.13, 0.04))
	require.Equal(t, MaxSlices+1, g.points)
	require.Equal(t, MaxSlices, g.last)
	last.RM2KW *= 1.01
	err := g.cut([]Layer{full, last}, 0.13, 0.04)
	require.ErrorIs(t, err, ErrTooMany)
	require.ErrorContains(t, err, "160")
}

func TestALayerIsThereForBothDirections(t *testing.T) {
	for _, l := range []Layer{{SdM: 1, SdDryingM: 1e-8}, {SdM: 1e-8, SdDryingM: 1}} {
		require.ErrorIs(t, l.check(), ErrLayer, "%+v", l)
	}
	require.NoError(t, Layer{SdM: 1, SdDryingM: thinSdM * MaxSlices}.check())
	require.NoError(t, Layer{SdM: thinSdM * MaxSlices, SdDryingM: 1}.check())
}

func TestAirAtSaturationIsNotCapped(t *testing.T) {
	var tempC, pa [Months]float64
	for m := range Months {
		sat, err := SaturationPa(tempC[m])
		require.NoError(t, err)
		pa[m] = sat
	}
	s, err := AirSeries(tempC, pa)
	require.NoError(t, err)
	require.Equal(t, [Months]bool{}, s.Capped)
	pa[2] *= 1.001
	s, err = AirSeries(tempC, pa)
	require.NoError(t, err)
	require.Equal(t, [Months]bool{2: true}, s.Capped)
}
