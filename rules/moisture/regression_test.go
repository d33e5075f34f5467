package moisture

import (
	"testing"

	"github.com/stretchr/testify/require"
)

type frameYear struct {
	InC      float64 `json:"in_c"`
	InRH     float64 `json:"in_rh"`
	MaxRH    float64 `json:"max_rh"`
	Rsi, Rse float64
	Layers   []layerRow
	Walls    map[string]struct {
		Painted bool
		Sd      float64
	}
	Rows []struct {
		Place, Wall string
		Peak        float64         `json:"peak_g_m2"`
		Gain        [Months]float64 `json:"gain_g_m2"`
		Held        [Months]float64 `json:"held_g_m2"`
	}
}

// room is the simple one of that table: a fixed humidity, never drier than
// outdoors, with a ceiling.
func (f frameYear) room(air Series) Series {
	var s Series
	sat := satPa(f.InC)
	for m := range Months {
		s.TempC[m] = f.InC
		s.Pa[m] = min(max(f.InRH*sat, air.Pa[m]), f.MaxRH*sat)
	}
	return s
}

func (f frameYear) wall(t testing.TB, name string) []Layer {
	w, ok := f.Walls[name]
	require.True(t, ok, name)
	layers := siLayers(f.Layers)
	if !w.Painted {
		layers[0].SdM = 0
	}
	layers[2].SdM = w.Sd
	return layers
}

// Table frame_year (another program, computed): 25 walls, peak and every month's gain and stock.
func TestFrameYearMonthByMonth(t *testing.T) {
	all := published(t)
	f := all.FrameYear
	require.Len(t, f.Rows, 25)
	for _, row := range f.Rows {
		air := all.air(t, row.Place)
		r := year(t, f.wall(t, row.Wall), f.Rsi, f.Rse, Join(f.room(air), air), Options{Limits: limits})
		name := row.Place + " " + row.Wall
		// 0.2 g/m2 or 0.5 %: that program works with rounded constants.
		require.InDelta(t, row.Peak, r.PeakGM2, 0.2+0.005*row.Peak, name)
		var gain, held [Months]float64
		for _, p := range r.Planes {
			for m := range Months {
				gain[m] += p.GainGM2[m]
				held[m] += p.HeldGM2[m]
			}
		}
		for m := range Months {
			require.InDelta(t, row.Gain[m], gain[m], 0.2+0.005*row.Peak, "%s month %d", name, m+1)
			require.InDelta(t, row.Held[m], held[m], 0.2+0.005*row.Peak, "%s month %d", name, m+1)
		}
		require.Zero(t, r.RemainderGM2, name)
		if row.Peak == 0 {
			require.Empty(t, r.Planes, name)
		}
	}
}

// Table frost_cap (computed): without the cap a tight wall shows water that is not there.
func TestFrostCapRemovesFalseCondensate(t *testing.T) {
	all := published(t)
	f := all.FrameYear
	air := all.air(t, all.FrostCap.Place)
	r := year(t, f.wall(t, "poly 0.06"), f.Rsi, f.Rse, Join(f.room(air), air), Options{Limits: limits})
	require.InDelta(t, all.FrostCap.Capped, r.PeakGM2, 1)

	raw := air
	for _, c := range all.Climate {
		if c.Place == all.FrostCap.Place {
			raw.Pa = c.Pa
		}
	}
	// Year caps as well, and says so.
	again := year(t, f.wall(t, "poly 0.06"), f.Rsi, f.Rse, Join(f.room(air), raw), Options{Limits: limits})
	require.InDelta(t, r.PeakGM2, again.PeakGM2, 1e-9)
	require.Equal(t, air.Capped, again.OutCapped)
	require.Less(t, 10*r.PeakGM2, all.FrostCap.Uncapped, "what it shows without the cap")
}
