package chart

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"battwright/testdata/fixture"
)

// The golden files hold invented houses and prices; they fix the look, not
// figures.

var goldenWidths = []int{40, 80}

// drawings is one sample of each kind, at the width given.
var drawings = map[string]func(Pen, int) Drawing{
	"section":  func(p Pen, w int) Drawing { return p.Section(sampleWall(), "living room, 70 F", "January, 20 F", w) },
	"held":     func(p Pen, w int) Drawing { return p.Months(sampleHeld(), heldOpts(), w) },
	"humidity": func(p Pen, w int) Drawing { return p.Months(sampleHumidity(), humidityOpts(), w) },
}

func TestGolden(t *testing.T) {
	for name, draw := range drawings {
		t.Run(name, func(t *testing.T) {
			var b strings.Builder
			for _, w := range goldenWidths {
				for _, set := range []struct {
					name   string
					glyphs Glyphs
				}{{"ascii", ASCII()}, {"unicode", Unicode()}} {
					d := draw(Pen{Glyphs: set.glyphs}, w)
					fmt.Fprintf(&b, "== %d columns, %s\n%s\n", w, set.name, strings.Join(d.Lines, "\n"))
				}
			}
			fmt.Fprintf(&b, "== sentence\n%s\n", draw(Pen{}, 80).Sentence)
			golden(t, name, b.String())
		})
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	fixture.Golden(t, "testdata", name, got)
}

func sampleWall() []SectionLayer {
	return []SectionLayer{
		{Name: "painted gypsum, 1/2 in", Kind: Board, TempText: "68 F"},
		{Name: "paper face", Kind: Retarder, TempText: "67 F", Note: "staple it flat to the studs; never a second sheet over it"},
		{Name: "fiberglass batt R-21, 5 1/2 in", Kind: Fiber, TempText: "67 F", Note: "fills the bay, nothing pressed in"},
		{Name: "OSB, 7/16 in", Kind: Sheathing, TempText: "24 F", Note: "the plane to watch: damp air that gets this far meets a cold board"},
		{Name: "vented gap", Kind: Gap, TempText: "21 F"},
		{Name: "siding", Kind: Cladding, TempText: "20 F"},
	}
}

func sampleHeld() [12]float64 {
	return [12]float64{120, 171, 190.4, 84, 3, 0, 0, 0, 0, 0, 12, 66}
}

func heldOpts() MonthsOpts {
	return MonthsOpts{
		What: "Water held against the sheathing", Held: true, Rows: 8,
		Text: func(v float64) string { return fmt.Sprintf("%.0f g/m2", v) },
	}
}

func sampleHumidity() [12]float64 {
	return [12]float64{88, 86, 79, 71, 62, 55, 54, 56, 61, math.NaN(), 78, 85}
}

func humidityOpts() MonthsOpts {
	return MonthsOpts{
		What: "Humidity at the sheathing", Limit: 80, LimitLabel: "mold risk above", Rows: 8,
		Text: func(v float64) string { return fmt.Sprintf("%.0f %%", v) },
	}
}
