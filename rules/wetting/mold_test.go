package wetting

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// The constants were read in the open file of the Finnish mold growth model
// (testdata/published/mold-index.json). mold-curves.csv was worked out of them
// apart from this program.

func after(class Class, weeks, tC, rh float64) float64 {
	m := mold{class: class}
	for range int(weeks * weekH) {
		m.pass(1, tC, rh)
	}
	return m.index
}

func TestMoldCurves(t *testing.T) {
	f, err := os.Open("../../testdata/published/mold-curves.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	classes := map[string]Class{"very sensitive": VerySensitive, "sensitive": Sensitive, "medium resistant": MediumResistant}
	checked := 0
	for _, row := range rows[1:] {
		num := func(i int) float64 {
			x, err := strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
			return x
		}
		require.Contains(t, classes, row[0])
		for i, weeks := range []float64{4, 8, 12, 26, 52} {
			require.InDelta(t, num(3+i), after(classes[row[0]], weeks, num(1), num(2)/100), 0.01, "%v week %v", row, weeks)
			checked++
		}
	}
	require.Equal(t, 75, checked)
}

// By hand: while the index is far from its highest, index 1 is reached after
// exp(-0.68 ln T - 13.9 ln RH + 66.02) / k1 weeks.
func TestMoldByHand(t *testing.T) {
	weeks := math.Exp(-0.68*math.Log(22) - 13.9*math.Log(97) + 66.02)
	require.InDelta(t, 1.39, weeks, 0.005)
	require.InDelta(t, 1, after(VerySensitive, weeks, 22, 0.97), 0.02)
	// The highest index of the sensitive class at 22 C and 97 %, where nothing
	// grows below 80.15 %.
	x := (80.15 - 97) / (80.15 - 100)
	require.InDelta(t, 0.3+6*x-x*x, after(Sensitive, 400, 22, 0.97), 0.01)
	// Nothing grows at 79 %, at 0 C or at 50 C.
	for _, x := range [][2]float64{{22, 0.79}, {0, 1}, {-5, 1}, {50, 1}, {5, 0.84}} {
		require.Zero(t, after(VerySensitive, 20, x[0], x[1]), "%v", x)
	}
	require.InDelta(t, -0.00267*125+0.160*25-3.13*5+100, criticalRH(5, 80), 1e-9)
}

// Growth that stops falls back for 6 hours, rests until a day has gone, then
// falls half as fast.
func TestMoldFallsBack(t *testing.T) {
	m := mold{class: VerySensitive, index: 2}
	dry := func(hours int) float64 {
		for range hours {
			m.pass(1, 20, 0.5)
		}
		return m.index
	}
	require.InDelta(t, 2-0.032*6/24, dry(6), 1e-12)
	require.InDelta(t, 2-0.032*6/24, dry(18), 1e-12)
	require.InDelta(t, 2-0.032*6/24-0.016*5, dry(5*24), 1e-12)
	m = mold{class: Sensitive, index: 0.001}
	require.Zero(t, dry(24))
	// One long step is many short ones.
	a, b := mold{class: Sensitive, index: 3}, mold{class: Sensitive, index: 3}
	a.pass(50, 20, 0.5)
	for range 50 {
		b.pass(1, 20, 0.5)
	}
	require.InDelta(t, b.index, a.index, 1e-12)
}
