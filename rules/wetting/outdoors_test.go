package wetting

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The example of the solar position algorithm of the US National Renewable
// Energy Laboratory (NREL/TP-560-34302, from memory): Golden, Colorado, the
// 17th of October, 12:30:30 at 7 hours behind Greenwich, zenith 50.112, azimuth
// 194.340 degrees. The short series used here is good to half a degree.
func TestSunStandsWhereItShould(t *testing.T) {
	w := Weather{LatDeg: 39.742, LonDeg: -105.179, ZoneH: -7}
	s := w.sunAt((31+28+31+30+31+30+31+31+30+17-1)*24 + 12)
	require.InDelta(t, 1, s.north*s.north+s.east*s.east+s.up*s.up, 1e-12)
	require.InDelta(t, 50.112, math.Acos(s.up)/degree, 0.5)
	require.InDelta(t, 194.340, math.Atan2(s.east, s.north)/degree+360, 0.6)
}

// By geometry: at solar noon of the longest and shortest day the sun stands
// 90 - latitude +- 23.44 degrees high, and in the south.
func TestSunAtNoon(t *testing.T) {
	for day, tilt := range map[int]float64{171: 23.44, 354: -23.44} {
		w := Weather{LatDeg: 45, ZoneH: 0, LonDeg: 7.5} // the middle of the hour before 12 is noon
		high := 0.0
		var at sunPosition
		for h := range 24 {
			if s := w.sunAt(day*24 + h); s.up > high {
				high, at = s.up, s
			}
		}
		require.InDelta(t, 45+tilt, math.Asin(at.up)/degree, 0.3, "day %d", day)
		require.InDelta(t, 0, at.east, 0.03)
		require.Negative(t, at.north)
	}
}

// A wall that faces the sun takes it whole; one that looks away gets the sky
// and the ground alone.
func TestSunOnSurfaces(t *testing.T) {
	sun := sunPosition{north: -math.Cos(math.Pi / 6), up: 0.5} // 30 degrees high in the south
	h := &Hour{DirectWM2: 800, DiffuseWM2: 100}
	level := 800*0.5 + 100
	for _, x := range []struct{ azimuth, tilt, want float64 }{
		{180, 90, 800*math.Cos(math.Pi/6) + 100*0.5 + 0.2*level*0.5},
		{0, 90, 100*0.5 + 0.2*level*0.5},
		{90, 90, 100*0.5 + 0.2*level*0.5},
		{0, 0, level},
		{180, 60, 800 + 100*0.75 + 0.2*level*0.25},
		{0, 180, 0.2 * level},
	} {
		got := Surface{AzimuthDeg: x.azimuth, TiltDeg: x.tilt}.look().sun(h, sun)
		require.InDelta(t, x.want, got, 1e-9, "%+v", x)
	}
	require.Zero(t, Surface{AzimuthDeg: 0, TiltDeg: 90}.look().sun(&Hour{DirectWM2: 800}, sunPosition{north: 0.9, up: -0.1}))
}

// The loss to a clear night sky lies where textbooks have it (practice: 60 to
// 100 W/m2), little is lost to an overcast one, and a wall loses less than half
// of what a roof does.
func TestNightSky(t *testing.T) {
	clear := &Hour{TempC: 10, DewC: 3}
	require.InDelta(t, 80, clear.toSky(), 20)
	cloudy := &Hour{TempC: 10, DewC: 3, Cloud: 1}
	require.InDelta(t, 15, cloudy.toSky(), 10)
	wall, roof := Surface{TiltDeg: 90}.look(), Surface{TiltDeg: 0}.look()
	require.InDelta(t, 1, roof.open, 1e-12)
	require.InDelta(t, 0.354, wall.open, 0.001)
}

func TestOutside(t *testing.T) {
	w := Weather{LatDeg: 45, LonDeg: -93, ZoneH: -6, Hours: make([]Hour, 48)}
	for i := range w.Hours {
		w.Hours[i] = Hour{TempC: -20, DewC: -20, WindMS: 4}
	}
	out, err := w.Outside(Surface{TiltDeg: 90, Absorbs: 0.6, Emits: 0.9})
	require.NoError(t, err)
	require.Len(t, out, 48)
	require.InDelta(t, saturation(-20), out[0].VaporPa, 1e-9, "held to saturation over ice")
	require.InDelta(t, 20, out[0].HeatWM2K, 1e-9)
	require.Negative(t, out[0].AbsorbedWM2)
	under, err := w.Sheltered()
	require.NoError(t, err)
	require.Zero(t, under[0].AbsorbedWM2)
	for _, broken := range []func(*Weather){
		func(w *Weather) { w.LatDeg = 91 },
		func(w *Weather) { w.LonDeg = math.NaN() },
		func(w *Weather) { w.ZoneH = 15 },
		func(w *Weather) { w.Hours = nil },
		func(w *Weather) { w.Hours = []Hour{{TempC: 99}} },
		func(w *Weather) { w.Hours = []Hour{{DewC: math.NaN()}} },
		func(w *Weather) { w.Hours = []Hour{{DirectWM2: -1}} },
		func(w *Weather) { w.Hours = []Hour{{Cloud: 10}} },
	} {
		x := w
		broken(&x)
		_, err := x.Outside(Surface{TiltDeg: 90})
		require.ErrorIs(t, err, ErrClimate)
	}
	for _, f := range []Surface{{TiltDeg: 190}, {AzimuthDeg: math.Inf(1)}, {Absorbs: 2}, {Emits: -1}} {
		_, err := w.Outside(f)
		require.ErrorIs(t, err, ErrClimate)
	}
}
