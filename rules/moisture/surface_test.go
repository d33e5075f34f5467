package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func surfaceLimits(minK float64) SurfaceLimits {
	return SurfaceLimits{MaxRH: 0.8, MinDifferenceK: minK}
}

func same(m Month) (months [Months]Month) {
	for i := range months {
		months[i] = m
	}
	return months
}

// Tables mold_factor (DIN 4108-2 limit, read) and mold_surface (computed).
func TestTemperatureFactorForMold(t *testing.T) {
	all := published(t)
	for _, row := range all.MoldFactor {
		m := Month{InC: row.InC, InPa: row.InRH * satPa(row.InC), OutC: row.OutC, OutPa: 100, Days: 30}
		s, err := CheckSurface(1, same(m), surfaceLimits(2))
		require.NoError(t, err)
		require.InDelta(t, row.Limit, s.NeededFRsi, row.Tolerance)
		f, err := FRsi(row.SurfaceC, row.InC, row.OutC)
		require.NoError(t, err)
		require.InDelta(t, f, s.NeededFRsi, 0.001)
	}
	e := all.MoldSurface
	for _, row := range e.Rows {
		f, err := PlaneFRsi(e.Rsi, row.TotalR)
		require.NoError(t, err)
		require.InDelta(t, row.F, f, 0.0015, row.Name)
		m := Month{InC: e.InC, InPa: e.InRH * satPa(e.InC), OutC: e.OutC, OutPa: 100, Days: 30}
		s, err := CheckSurface(f, same(m), surfaceLimits(2))
		require.NoError(t, err)
		require.InDelta(t, row.SurfaceC, s.WorstTempC, 0.06, row.Name)
		require.InDelta(t, row.RH, s.WorstRH, 0.006, row.Name)
		require.Equal(t, row.RH > 0.8, s.Over, row.Name)
		require.Equal(t, row.RH > 1, s.Dew, row.Name)
	}
}

// Table mold_year (computed).
func TestFactorAskedForOverAYear(t *testing.T) {
	all := published(t)
	e := all.MoldYear
	for _, row := range e.Rows {
		air := all.air(t, row.Place)
		for class, want := range map[Class]float64{Usual: row.Usual, Humid: row.Humid} {
			in := kept()
			in.Class, in.HeatingC, in.MaxRH = class, e.InC, 1
			s, err := CheckSurface(0.9, Join(rooms(t, in, air), air), surfaceLimits(e.MinK))
			require.NoError(t, err)
			require.InDelta(t, want, s.NeededFRsi, e.Tolerance, "%s class %v", row.Place, class)
		}
	}
}

func TestSurfaceRefusesTheImpossible(t *testing.T) {
	ok := same(Month{InC: 20, InPa: 1000, OutC: 0, OutPa: 500, Days: 30})
	nan := math.NaN()
	_, err := FRsi(10, 20, 20)
	require.ErrorIs(t, err, ErrFactor)
	_, err = FRsi(nan, 20, 0)
	require.ErrorIs(t, err, ErrTemperature)
	_, err = PlaneFRsi(0.25, 0.2)
	require.ErrorIs(t, err, ErrResistance)
	_, err = PlaneFRsi(nan, 2)
	require.ErrorIs(t, err, ErrResistance)
	_, err = CheckSurface(nan, ok, surfaceLimits(2))
	require.ErrorIs(t, err, ErrFactor)
	_, err = CheckSurface(0.7, ok, SurfaceLimits{MaxRH: 0, MinDifferenceK: 2})
	require.ErrorIs(t, err, ErrLimit)
	_, err = CheckSurface(0.7, ok, SurfaceLimits{MaxRH: 0.8, MinDifferenceK: 0})
	require.ErrorIs(t, err, ErrLimit)
	bad := ok
	bad[4].InPa = math.Inf(1)
	_, err = CheckSurface(0.7, bad, surfaceLimits(2))
	require.ErrorIs(t, err, ErrPressure)
	dry := ok
	for m := range dry {
		dry[m].InPa = 0
	}
	s, err := CheckSurface(0.7, dry, surfaceLimits(2))
	require.NoError(t, err)
	require.Zero(t, s.NeededFRsi)
}
