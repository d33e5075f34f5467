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
	Held struct {
		Rows []struct {
			City, Wall string
			Peak       float64
			DryBy      string `json:"dry_by"`
			Months     [12]float64
		}
	}
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
	require.NotEmpty(t, p.Held.Rows)
	require.NotEmpty(t, p.Humidity.Rows)
	require.NotEmpty(t, p.Signs.Rows)
	return p
}

// Source: monthly runs after ISO 13788:2012 (computed); the sentence must give
// the peak and the month of drying of their summary table.
func TestMonthsSayPeakAndDryingOfPublishedRuns(t *testing.T) {
	for _, r := range load(t).Held.Rows {
		t.Run(r.City+" "+r.Wall, func(t *testing.T) {
			o := heldOpts()
			o.What = "Water held"
			s := Pen{}.Months(r.Months, o, 80).Sentence
			if r.Peak == 0 {
				require.Equal(t, "Water held is nothing in any month.", s)
				return
			}
			require.Contains(t, s, fmt.Sprintf(", %.0f g/m2;", r.Peak))
			require.True(t, strings.HasSuffix(s, "it is gone by "+r.DryBy+"."), s)
		})
	}
}

// Source: TMY3 station files (read). The months over a limit of 70 percent
// were read off the row by eye.
func TestMonthsSayWhichMonthsAreOverTheLimit(t *testing.T) {
	want := map[string]string{
		"Burlington": "Humidity outdoors is highest in January, 75 %; it is over the limit of 70 % in January and August to October and back within it in February.",
		"Miami":      "Humidity outdoors is highest in December, 77 %; it is over the limit of 70 % in May to January and back within it in February.",
		"Phoenix":    "Humidity outdoors is highest in February, 52 %; it is never over the limit of 70 %.",
	}
	for _, r := range load(t).Humidity.Rows {
		o := humidityOpts()
		o.What, o.Limit = "Humidity outdoors", 70
		require.Equal(t, want[r.City], Pen{}.Months(r.Months, o, 80).Sentence)
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
		g.bar, g.over, g.base, g.limit,
		g.up, g.down, g.board, g.fiber, g.retarder, g.sheathing,
		g.cladding, g.gap, g.concrete,
	}
}
