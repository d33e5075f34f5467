package moisture

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The cases of this file are worked by hand.

func TestAsManyLayersAndMonthsAsThereMayBe(t *testing.T) {
	var g grid
	layers := make([]Layer, MaxLayers)
	for i := range layers {
		layers[i] = Layer{RM2KW: 0.1, SdM: 0.1}
	}
	require.NoError(t, g.cut(layers, 0.13, 0.04))
	require.Equal(t, MaxLayers, g.between[MaxLayers])
	require.ErrorIs(t, g.cut(append(layers, layers[0]), 0.13, 0.04), ErrTooMany)
	require.ErrorIs(t, g.cut(nil, 0.13, 0.04), ErrTooMany)

	l := Limits{MoldRH: 0.8, MoldMonths: Months}
	require.NoError(t, l.check())
	l.MoldMonths++
	require.ErrorIs(t, l.check(), ErrLimit)
	l.MoldMonths = -1
	require.ErrorIs(t, l.check(), ErrLimit)
	l.MoldMonths = 0
	require.NoError(t, l.check())
}

// Layers that let vapor through freely share the plane before them, to the
// very outside.
func TestPlaceOfASharedPlane(t *testing.T) {
	var g grid
	require.NoError(t, g.cut([]Layer{{RM2KW: 0.1, SdM: 1}, {RM2KW: 0.1}, {RM2KW: 0.1, SdM: 2}, {RM2KW: 0.1}}, 0.13, 0.04))
	require.Equal(t, 2, g.last)
	require.Equal(t, Plane{Inner: 0, Outer: 2, Share: 1}, g.place(1))
	require.Equal(t, Plane{Inner: 2, Outer: noLayer, Share: 1}, g.place(2))
}

func TestTheWettestStaysTheWettest(t *testing.T) {
	r := Result{Wettest: -1, WettestJudged: -1, Planes: []Plane{
		{Judged: true, PeakGM2: 9}, {Judged: true, PeakGM2: 5}, {Judged: true, PeakGM2: 8},
	}}
	r.sum()
	require.Equal(t, []int{0, 0}, []int{r.Wettest, r.WettestJudged})
}

// The pressure between two bends lies on the straight line between them, and
// what is at a bend is counted once.
func TestPressureAlongTheString(t *testing.T) {
	r := rope{len: 3}
	r.at[1], r.at[2], r.at[3] = 2, 4, 3
	var sdM, y, mean [maxPoints]float64
	for k := range 5 {
		sdM[k] = float64(k)
	}
	y[0], y[1], y[2], y[3], y[4] = 1000, 7, 600, 7, 800
	r.addPressure(&sdM, &y, 0.5, &mean)
	require.Equal(t, []float64{500, 400, 300, 350, 400, 0}, mean[:6])
}
