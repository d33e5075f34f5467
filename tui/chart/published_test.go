package chart

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// published holds figures from outside the project; each group names its
// source and mark in the file.
type published struct {
	Humidity struct {
		Rows []struct {
			City   string
			Months [12]float64
		}
	}
	Signs struct {
		Rows []struct {
			Sign, Code string
			Width      string `json:"east_asian_width"`
		}
	}
}

func load(t testing.TB) published {
	t.Helper()
	var p published
	fixture.Published(t, "chart.json", &p)
	require.NotEmpty(t, p.Humidity.Rows)
	require.NotEmpty(t, p.Signs.Rows)
	return p
}

// Source: TMY3 station files (read). The months over a limit of 70 percent
// were read off the row by eye.
func TestBarsCrossInThePublishedMonths(t *testing.T) {
	want := map[string]string{
		"Burlington": "Jan Aug Sep Oct",
		"Miami":      "Jan May Jun Jul Aug Sep Oct Nov Dec",
		"Phoenix":    "",
	}
	for _, r := range load(t).Humidity.Rows {
		o := MonthsOpts{Limit: 70, Runs: []MonthsRun{{Values: r.Months}}}
		var over []string
		for m, yes := range crossed(Pen{}.Months(o, 80), '#') {
			if yes {
				over = append(over, monthNames[m][:3])
			}
		}
		require.Equal(t, want[r.City], strings.Join(over, " "), r.City)
	}
}

// Source: Unicode Character Database (read). No sign may be one that takes two
// columns everywhere, and none may be missing from the list.
func TestUnicodeSignsAreOneColumn(t *testing.T) {
	class := map[string]string{" ": "Na"}
	for _, r := range load(t).Signs.Rows {
		first, _ := utf8.DecodeRuneInString(r.Sign)
		require.Equal(t, r.Code, fmt.Sprintf("U+%04X", first))
		class[r.Sign] = r.Width
	}
	for _, g := range Unicode().all() {
		require.Contains(t, []string{"N", "Na", "H", "A"}, class[g], "sign %q", g)
		require.Equal(t, 1, utf8.RuneCountInString(g))
		require.False(t, g >= "\u2800" && g <= "\u28ff", "Braille %q", g)
	}
	for _, g := range ASCII().all() {
		require.Len(t, g, 1)
		require.Less(t, g[0], byte(128))
	}
}

func (g Glyphs) all() []string {
	return []string{
		g.bar, g.second, g.base, g.limit,
		g.up, g.down, g.board, g.fiber, g.retarder, g.sheathing,
		g.cladding, g.gap, g.concrete,
	}
}
