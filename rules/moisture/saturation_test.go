package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
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

// Table dew (open psychrometric library, read): air is saturated at its dew
// point.
func TestSaturationAtTheDewPoint(t *testing.T) {
	f := published(t)
	require.Len(t, f.Dew.Rows, 135)
	for _, row := range f.Dew.Rows {
		below, err := SaturationPa(row.DewC - f.Dew.ToleranceK)
		require.NoError(t, err)
		above, err := SaturationPa(row.DewC + f.Dew.ToleranceK)
		require.NoError(t, err)
		require.True(t, below <= row.Pa && row.Pa <= above, "%v C %v", row.C, row.RH)
	}
	// Table mold_factor (DIN 4108-2 limit, read): the surface at which the air
	// of the room comes to 80 %.
	for _, row := range f.MoldFactor {
		require.InDelta(t, 0.8*satPa(row.SurfaceC), row.InRH*satPa(row.InC), 0.005*satPa(row.InC))
		require.InDelta(t, row.Limit, (row.SurfaceC-row.OutC)/(row.InC-row.OutC), row.Tolerance)
	}
}

func TestSaturationRises(t *testing.T) {
	last := 0.0
	for c := MinTempC; c <= MaxTempC; c += 0.25 {
		p, err := SaturationPa(c)
		require.NoError(t, err)
		require.Greater(t, p, last, "%v C", c)
		last = p
	}
}

func TestSaturationRefusesTheImpossible(t *testing.T) {
	for _, c := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -273, 1e300} {
		_, err := SaturationPa(c)
		require.ErrorIs(t, err, ErrTemperature)
	}
}
