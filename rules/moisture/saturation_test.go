package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// Tables saturation (open psychrometric library, read), saturation_iso (ISO
// 13788 formula, computed) and saturation_course (university course, read).
func TestSaturationAgreesWithTables(t *testing.T) {
	f := published(t)
	require.Len(t, f.Saturation.Rows, 71)
	for _, band := range f.Saturation.Band {
		for _, row := range f.Saturation.Rows {
			if row.C < band.FromC || row.C > band.ToC {
				continue
			}
			got, err := SaturationPa(row.C)
			require.NoError(t, err)
			require.InEpsilon(t, row.Pa, got, band.Relative, "%v C", row.C)
		}
	}
	for _, row := range f.SaturationISO.Rows {
		got, err := SaturationPa(row.C)
		require.NoError(t, err)
		require.InDelta(t, row.Pa, got, 0.006, "%v C", row.C)
	}
	for _, row := range f.SaturationCourse.Rows {
		got, err := SaturationPa(row.C)
		require.NoError(t, err)
		require.InEpsilon(t, row.Pa, got, f.SaturationCourse.Relative, "%v C", row.C)
	}
}

// Table dew (open psychrometric library, read).
func TestDewPointAgreesWithTable(t *testing.T) {
	f := published(t)
	require.Len(t, f.Dew.Rows, 135)
	for _, row := range f.Dew.Rows {
		got, err := DewPointC(row.Pa)
		require.NoError(t, err)
		require.InDelta(t, row.DewC, got, f.Dew.ToleranceK, "%v C %v", row.C, row.RH)
	}
}

func TestDewPointInvertsSaturation(t *testing.T) {
	last := 0.0
	for c := MinTempC; c <= MaxTempC; c += 0.25 {
		p, err := SaturationPa(c)
		require.NoError(t, err)
		require.Greater(t, p, last, "%v C", c)
		last = p
		back, err := DewPointC(p)
		require.NoError(t, err)
		require.InDelta(t, c, back, 1e-9)
	}
}

func TestSaturationRefusesTheImpossible(t *testing.T) {
	for _, c := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -273, 1e300} {
		_, err := SaturationPa(c)
		require.ErrorIs(t, err, ErrTemperature)
	}
	for _, p := range []float64{math.NaN(), math.Inf(1), 0, -1, 1e9} {
		_, err := DewPointC(p)
		require.ErrorIs(t, err, ErrPressure)
	}
}

// Table perm (unit computed, sheets from memory), and the one factor the rest of the program uses.
func TestPermToSd(t *testing.T) {
	for _, row := range published(t).Perm {
		got, err := PermToSdM(row.Perm)
		require.NoError(t, err)
		require.InEpsilon(t, row.SdM, got, 0.01, "%v perm", row.Perm)
		require.InEpsilon(t, units.SdMPerPerm/row.Perm, got, 2e-4)
	}
	for _, p := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := PermToSdM(p)
		require.ErrorIs(t, err, ErrPermeance)
	}
}

// Table wet_board (university script on ISO 10456, read).
func TestWetLambda(t *testing.T) {
	b := published(t).WetBoard
	got, err := WetLambda(b.Lambda, b.Water, b.Thickness, b.FPsi)
	require.NoError(t, err)
	require.InDelta(t, b.WetLambda, got, 0.0005) // printed to two figures
	require.InDelta(t, b.DeltaR, b.Thickness/b.Lambda-b.Thickness/got, 0.0005)
	for _, bad := range [][4]float64{{0, .1, .1, 4}, {.04, -1, .1, 4}, {.04, 200, .1, 4}, {.04, .1, 0, 4}, {.04, .1, .1, -1}, {math.NaN(), .1, .1, 4}} {
		_, err := WetLambda(bad[0], bad[1], bad[2], bad[3])
		require.ErrorIs(t, err, ErrLayer, "%v", bad)
	}
}
