package damp_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/damp"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// From where on a month is damp, wet or moldy.
func TestMonthWords(t *testing.T) {
	l := fixture.Catalog(t).DampLayers().DampVerdict
	for _, x := range []struct {
		of, mold    float64
		falls, wood bool
		want        string
	}{
		{0, 0, false, true, damp.Dry},
		{l.EdgeMoisture - 0.001, l.EdgeMold - 0.01, false, true, damp.Dry},
		{l.EdgeMoisture, 0, false, true, damp.Damp},
		{0.05, l.EdgeMold, false, true, damp.Damp},
		{l.WetsMoisture, 0, false, true, damp.Damp},
		{l.WetsMoisture + 0.001, 0, false, true, damp.Wet},
		{l.WetsMoisture + 0.001, l.Mold - 0.01, false, true, damp.Wet},
		{0.05, l.Mold, false, true, damp.Mold},
		{0.3, l.Mold, false, true, damp.Mold},
		{0.05, l.Mold, true, true, damp.Damp},
		{0.3, 5, true, true, damp.Wet},
		{0.99, 0, false, false, damp.Dry},
		{0.99, l.EdgeMold, false, false, damp.Damp},
		{0.5, l.Mold, false, false, damp.Mold},
		{0.99, l.Mold, true, false, damp.Damp},
	} {
		require.Equal(t, x.want, damp.MonthWord(x.of, x.mold, x.falls, x.wood, l), "%+v", x)
	}
}

// The middle of a 30-day mean lies in the month that is nearest to its days.
func TestMonthOf(t *testing.T) {
	for day, want := range map[int]int{0: 0, 30: 0, 31: 1, 58: 1, 59: 2, 364: 11, -1: 11, -15: 11, 365: 0} {
		require.Equal(t, want, damp.MonthOf(day), day)
	}
}

// agrees holds the months that are drawn to the verdict beside them: whoever reads
// one of them knows the other.
func agrees(t testing.TB, name string, v damp.Verdict, wets float64) {
	t.Helper()
	if v.Word == damp.NotJudged {
		return
	}
	has := func(m damp.Months, word string) bool { return slices.Contains(m.Words[:], word) }
	well, holes := v.Year.Well, v.Year.Holes
	alarms := has(well, damp.Mold) || has(well, damp.Wet)
	switch v.Word {
	case damp.Mold:
		require.True(t, has(well, damp.Mold), name)
	case damp.Wets:
		require.True(t, has(well, damp.Wet) && !has(well, damp.Mold), name)
	case damp.Edge:
		require.True(t, has(well, damp.Damp) && !alarms, name)
	case damp.Holds:
		require.Equal(t, [12]string{}, but(well.Words, damp.Dry), name)
	case damp.HoldsIfSealed:
		require.False(t, alarms, name)
	}
	switch v.WithHoles {
	case damp.Mold:
		require.True(t, has(well, damp.Mold) || has(holes, damp.Mold), name)
	case damp.Wets:
		require.True(t, has(well, damp.Wet) || has(holes, damp.Wet), name)
	default:
		require.False(t, has(holes, damp.Mold) || has(holes, damp.Wet), name)
	}
	require.Equal(t, well.Case, holes.Case, "%s: the two runs differ in the holes alone", name)
	for _, m := range []damp.Months{well, holes} {
		require.NotEmpty(t, m.Case.Face, name)
		for i, w := range m.Words {
			if v.Year.Wood {
				require.True(t, w != damp.Wet || m.Of[i] > wets, name)
				require.True(t, w == damp.Wet || w == damp.Mold || m.Of[i] <= wets, name)
			}
			require.Positive(t, m.Of[i], name)
		}
	}
}

// but takes a word out.
func but(words [12]string, word string) [12]string {
	for i, w := range words {
		if w == word {
			words[i] = ""
		}
	}
	return words
}

func TestMonthsAgreeWithTheVerdict(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	c := fixture.Yearly(t).Catalog()
	j := damp.Of(c)
	words := map[string]int{}
	for _, k := range slices.Concat(wellKnown(), further(), documented()) {
		v := try(t, j, k)
		words[v.Word]++
		agrees(t, k.name, v, c.DampLayers().WetsMoisture)
	}
	for _, w := range []string{damp.Holds, damp.HoldsIfSealed, damp.Edge, damp.Mold} {
		require.Positive(t, words[w], w)
	}
}

func TestMonthsOfDemoHousesAgree(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	judged := 0
	for _, name := range demo.Names() {
		a := fixture.Demo(t, name)
		for _, p := range plan.Make(a).Places {
			if p.Choice != nil && p.Choice.Damp.Judged() {
				judged++
				agrees(t, name+" "+p.Surface.ID, p.Choice.Damp.Verdict, a.List.Catalog().DampLayers().WetsMoisture)
			}
		}
	}
	require.Greater(t, judged, 10)
}
