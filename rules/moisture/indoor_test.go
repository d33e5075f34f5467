package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Table indoor (ISO 13788 Annex A chart, read).
func TestIndoorExcess(t *testing.T) {
	f := published(t).Indoor
	for _, row := range f.Rows {
		got, err := excessGM3At(Class(row.Class), row.OutC)
		require.NoError(t, err)
		require.InDelta(t, row.Excess, got, 1e-12, "%+v", row)
	}
	require.InDelta(t, f.PaOf4, excessPa(4, 20), 0.6) // the source takes 293 K
	_, err := excessGM3At(-1, 0)
	require.ErrorIs(t, err, ErrHumidity)
	_, err = excessGM3At(Usual, math.NaN())
	require.ErrorIs(t, err, ErrTemperature)
}

// A house in Miami, cooled but in the coldest months.
func TestACooledHouse(t *testing.T) {
	out := published(t).air(t, "Miami")
	in := kept()
	in.Cooled = true
	capped := 0
	for m, outC := range out.C {
		roomC, pa, err := in.At(outC, out.Pa[m])
		require.NoError(t, err)
		wantC, most := in.HeatingC, in.MaxRH
		if outC > in.CoolAboveC {
			wantC, most = in.CoolingC, in.MaxRHCooled
		}
		require.Equal(t, wantC, roomC)
		excess, err := excessGM3At(in.Class, outC)
		require.NoError(t, err)
		full := out.Pa[m] + excessPa(excess, roomC)
		require.InDelta(t, min(full, most*satPa(roomC)), pa, 1e-9)
		if full > pa {
			capped++
		}
	}
	require.Positive(t, capped, "the air of July holds more than cooled rooms may")

	in.Cooled = false
	roomC, _, err := in.At(out.C[6], out.Pa[6])
	require.NoError(t, err)
	require.Equal(t, out.C[6], roomC, "without cooling the room follows")
}

// Winter air brought in and warmed leaves rooms dry, the excess of the household
// and all.
func TestAHeatedHouseInTheCold(t *testing.T) {
	out := published(t).air(t, "Burlington")
	in := kept()
	roomC, pa, err := in.At(out.C[0], out.Pa[0])
	require.NoError(t, err)
	require.Equal(t, in.HeatingC, roomC)
	require.InDelta(t, out.Pa[0]+excessPa(float64(Usual), roomC), pa, 1e-9)
	require.Less(t, pa, in.MaxRH*satPa(roomC))
}

func TestIndoorRefusesTheImpossible(t *testing.T) {
	for _, c := range []struct {
		spoil     func(*Indoor)
		outC, out float64
		want      error
	}{
		{func(in *Indoor) { in.HeatingC = math.NaN() }, 0, 500, ErrTemperature},
		{func(in *Indoor) { in.MaxRH = 1.2 }, 0, 500, ErrHumidity},
		{func(in *Indoor) { in.DriedRH = -0.1 }, 0, 500, ErrHumidity},
		{func(in *Indoor) { in.Class = -2 }, 0, 500, ErrHumidity},
		{func(*Indoor) {}, math.Inf(-1), 500, ErrTemperature},
		{func(*Indoor) {}, 0, -1, ErrPressure},
	} {
		in := kept()
		c.spoil(&in)
		_, _, err := in.At(c.outC, c.out)
		require.ErrorIs(t, err, c.want)
	}
}
