package chart

import (
	"fmt"
	"strings"
	"testing"

	"battwright/testdata/fixture"
)

// The golden files hold invented houses and prices; they fix the look, not
// figures.

var goldenWidths = []int{40, 50, 60, 80}

// drawings is one sample of each kind, at the width given.
var drawings = map[string]func(Pen, int) Drawing{
	"section": func(p Pen, w int) Drawing { return p.Section(sampleWall(), "living room, 70 F", "January, 20 F", w) },
	"sealed":  func(p Pen, w int) Drawing { return p.Months(sampleSealed(), w) },
	"wet":     func(p Pen, w int) Drawing { return p.Months(sampleWet(), w) },
	"no-wood": func(p Pen, w int) Drawing { return p.Months(sampleNoWood(), w) },
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

// year is a run from October, as it is drawn; its words are those of four columns.
func year(name string, values [12]float64, words string) MonthsRun {
	r := MonthsRun{Name: name}
	for i, w := range strings.Fields(words) {
		r.Values[monthAt(i)] = values[i]
		r.Words[monthAt(i)] = MonthWord{Text: w, Sign: map[string]string{"dry": "-", "damp": "d", "WET": "W", "MOLD": "M"}[w]}
	}
	return r
}

func wood(runs ...MonthsRun) MonthsOpts {
	return MonthsOpts{What: "Water in the OSB", Limit: 0.2, LimitName: "wet", LimitText: "20 %", Runs: runs}
}

const allDry = "dry dry dry dry dry dry dry dry dry dry dry dry"

// sampleSealed holds if it is sealed.
func sampleSealed() MonthsOpts {
	const sealed = 0.08
	return wood(
		year("built well", [12]float64{sealed, sealed, sealed, sealed, sealed, sealed, sealed, sealed, sealed, sealed, sealed, sealed}, allDry),
		year("with holes", [12]float64{0.075, 0.1, 0.125, 0.15, 0.18, 0.18, 0.17, 0.15, 0.125, 0.1, 0.075, 0.075}, "dry dry dry dry damp damp MOLD MOLD dry dry dry dry"),
	)
}

// sampleWet is a wall that nobody should build.
func sampleWet() MonthsOpts {
	return wood(year("built well", [12]float64{0.1, 0.13, 0.17, 0.21, 0.28, 0.28, 0.18, 0.1, 0.075, 0.075, 0.075, 0.075}, "dry dry damp WET WET WET damp dry dry dry dry dry"))
}

// sampleNoWood has humidity, and holes that dry it in spring.
func sampleNoWood() MonthsOpts {
	well := year("built well", [12]float64{0.7, 0.66, 0.6, 0.55, 0.5, 0.52, 0.6, 0.7, 0.83, 0.88, 0.87, 0.8}, "damp damp dry dry dry dry dry dry dry damp MOLD MOLD")
	holes := year("with holes", [12]float64{0.75, 0.6, 0.5, 0.4, 0.35, 0.4, 0.5, 0.7, 0.9, 0.95, 0.9, 0.8}, "MOLD damp damp damp dry dry dry dry dry damp MOLD MOLD")
	return MonthsOpts{What: "Humidity where most mold may grow", Full: 1, LimitName: "top", LimitText: "100 %", Runs: []MonthsRun{well, holes}}
}
