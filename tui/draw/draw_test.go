package draw

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"battwright/rules/damp"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// The year of every place of the demo houses keeps to its window and its signs, and
// its sentence says the case and what each alarm of the drawing is.
func TestYearsOfDemoHouses(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	drawn := 0
	for _, name := range demo.Names() {
		for _, p := range plan.Make(fixture.Demo(t, name)).Places {
			for width := 20; width <= 120; width += 5 {
				for _, ascii := range []bool{false, true} {
					tool := Tool{Catalog: fixture.Catalog(t), System: units.US, ASCII: ascii, Width: width}
					x, ok := tool.Months(p)
					require.Equal(t, p.Choice != nil && p.Choice.Damp.Judged(), ok)
					if !ok {
						continue
					}
					drawn++
					holdsYear(t, fmt.Sprintf("%s %s at %d", name, p.Surface.ID, width), p.Choice.Damp.Year, tool, x.Lines, x.Sentence)
				}
			}
		}
	}
	require.Positive(t, drawn)
}

func holdsYear(t *testing.T, name string, y damp.Year, tool Tool, lines []string, sentence string) {
	t.Helper()
	for _, c := range []damp.Case{y.Well.Case, y.Holes.Case} {
		require.Contains(t, sentence, pages.DampCase(c, tool.System), name)
	}
	for _, l := range lines {
		require.LessOrEqual(t, utf8.RuneCountInString(l), min(tool.Width, 76), name)
		require.True(t, !tool.ASCII || len(l) == utf8.RuneCountInString(l), name)
	}
	require.LessOrEqual(t, len(lines), 18, name)
	for _, words := range [][12]string{y.Well.Words, y.Holes.Words} {
		for _, w := range words {
			require.Contains(t, strings.ToLower(sentence), strings.ToLower(wordOf[w].Text)+" ", name)
			require.NotEmpty(t, wordOf[w].Text, name)
		}
	}
	require.Equal(t, y.Wood, strings.HasPrefix(sentence, "Water in the "), name)
}
