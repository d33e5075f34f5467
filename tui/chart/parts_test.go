package chart

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestRetarderSide(t *testing.T) {
	layers := func(kinds ...Kind) []SectionLayer {
		var ls []SectionLayer
		for _, k := range kinds {
			ls = append(ls, SectionLayer{Name: "layer", Kind: k})
		}
		return ls
	}
	cases := []struct {
		layers     []SectionLayer
		at         int
		want       side
		sign, says string
	}{
		{layers(Gap, Board, Retarder, Fiber, Sheathing), 2, inward, "-^-", "on the inside of the fiber"},
		{layers(Retarder, Board, Gap, Fiber), 0, inward, "-^-", "on the inside of the fiber"},
		{layers(Board, Fiber, Retarder, Gap), 2, outward, "-v-", "on the outside of the fiber"},
		{layers(Fiber, Retarder, Fiber), 1, between, "^-v", "between two layers of fiber"},
		{layers(Fiber, Board, Retarder, Fiber), 2, inward, "-^-", "on the inside of the fiber"},
		{layers(Board, Retarder, Concrete), 1, alone, "---", ""},
	}
	for _, c := range cases {
		require.Equal(t, c.want, sideOf(c.layers, c.at))
		d := Pen{}.Section(c.layers, "", "", 80)
		require.True(t, strings.HasPrefix(d.Lines[1+c.at], c.sign+" layer"), d.Lines[1+c.at])
		require.Contains(t, d.Lines[1+c.at], c.says)
		require.Contains(t, d.Sentence, c.says)
	}
}

// Layers can be told apart by their signs alone, in both sets.
func TestKindsLookDifferent(t *testing.T) {
	for _, g := range []Glyphs{ASCII(), Unicode()} {
		seen := map[string]Kind{}
		for k := Board; k <= Concrete; k++ {
			other, twice := seen[g.layer(k)]
			require.False(t, twice, "kinds %d and %d", k, other)
			seen[g.layer(k)] = k
		}
		require.Equal(t, " ", g.layer(-1))
		require.Equal(t, " ", g.layer(Concrete+1))
	}
}

func TestNotesOfASectionStayShort(t *testing.T) {
	long := strings.Repeat("word ", 60)
	d := Pen{}.Section([]SectionLayer{{Name: "batt", Note: long, Kind: Fiber}}, "", "", 200)
	for _, l := range d.Lines {
		require.LessOrEqual(t, len(l), mostNote+signColumns+1)
	}
	require.Equal(t, 60, strings.Count(strings.Join(d.Lines, " "), "word"))
}
