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
		got, err := IndoorExcessGM3(Class(row.Class), row.OutC)
		require.NoError(t, err)
		require.InDelta(t, row.Excess, got, 1e-12, "%+v", row)
	}
	require.InDelta(t, f.PaOf4, ExcessPa(4, 20), 0.6) // the source takes 293 K
	_, err := IndoorExcessGM3(-1, 0)
	require.ErrorIs(t, err, ErrHumidity)
	_, err = IndoorExcessGM3(Usual, math.NaN())
	require.ErrorIs(t, err, ErrTemperature)
}

// The house of table hot_crawl: cooled all year round but for the winter.
func TestIndoorMonthsOfACooledHouse(t *testing.T) {
	f := published(t)
	air := f.air(t, f.HotCrawl.Place)
	in := kept()
	in.Cooled = true
	room := rooms(t, in, air)
	for m := range Months {
		sat := satPa(room.TempC[m])
		if air.TempC[m] > in.CoolAboveC {
			require.Equal(t, in.CoolingC, room.TempC[m])
			require.LessOrEqual(t, room.Pa[m], in.MaxRHCooled*sat)
		} else {
			require.Equal(t, in.HeatingC, room.TempC[m])
			require.LessOrEqual(t, room.Pa[m], in.MaxRH*sat)
		}
	}
	require.True(t, room.Capped[6], "July air holds more than cooled rooms may")

	in.Cooled = false
	room = rooms(t, in, air)
	require.Equal(t, air.TempC[6], room.TempC[6], "without cooling the room follows")
	require.False(t, rooms(t, kept(), f.air(t, "Burlington")).Capped[0])
}

func TestIndoorRefusesTheImpossible(t *testing.T) {
	air := published(t).air(t, "Burlington")
	for _, spoil := range []struct {
		how  func(*Indoor, *Series)
		want error
	}{
		{func(in *Indoor, _ *Series) { in.HeatingC = math.NaN() }, ErrTemperature},
		{func(in *Indoor, _ *Series) { in.MaxRH = 1.2 }, ErrHumidity},
		{func(in *Indoor, _ *Series) { in.Class = -2 }, ErrHumidity},
		{func(_ *Indoor, a *Series) { a.TempC[3] = math.Inf(-1) }, ErrTemperature},
		{func(_ *Indoor, a *Series) { a.Pa[3] = -1 }, ErrPressure},
	} {
		in, a := kept(), air
		spoil.how(&in, &a)
		_, err := in.Months(a)
		require.ErrorIs(t, err, spoil.want)
	}
}

func TestAirIsCappedOverIce(t *testing.T) {
	f := published(t)
	air := f.air(t, f.FrostCap.Place)
	require.True(t, air.Capped[0], "given over water, January holds more than ice allows")
	require.InDelta(t, satPa(air.TempC[0]), air.Pa[0], 1e-9)
	require.False(t, air.Capped[6])
	_, err := AirSeries([Months]float64{2: 1000}, [Months]float64{})
	require.ErrorIs(t, err, ErrTemperature)
	_, err = AirSeries([Months]float64{}, [Months]float64{2: math.NaN()})
	require.ErrorIs(t, err, ErrPressure)
}

func TestSoilMonths(t *testing.T) {
	s, err := SoilMonths(7.7, 6, 3)
	require.NoError(t, err)
	require.InDelta(t, 1.7, s.TempC[2], 1e-9)
	require.InDelta(t, 13.7, s.TempC[8], 1e-9)
	var sum float64
	for m := range Months {
		sum += s.TempC[m]
		require.InDelta(t, satPa(s.TempC[m]), s.Pa[m], 1e-9)
	}
	require.InDelta(t, 7.7*Months, sum, 1e-9)
	for _, bad := range []float64{0, 13, math.NaN()} {
		_, err = SoilMonths(7.7, 6, bad)
		require.ErrorIs(t, err, ErrMonth)
	}
	_, err = SoilMonths(7.7, -1, 3)
	require.ErrorIs(t, err, ErrTemperature)
	_, err = SoilMonths(math.NaN(), 1, 3)
	require.ErrorIs(t, err, ErrTemperature)
}
