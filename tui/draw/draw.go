// Package draw turns a place of a plan into the drawings that every front end
// shows: the layers from inside to outside, and the year of the damp check.
package draw

import (
	"cmp"
	"fmt"
	"slices"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/tui/chart"
)

// Tool is what a drawing is made with.
type Tool struct {
	Catalog *catalog.Catalog
	System  units.System
	ASCII   bool
	Width   int
}

// widest keeps drawings readable; wider only spreads them.
const widest = 78

// Pen draws in the signs of the theme.
func (t Tool) Pen() chart.Pen {
	p := chart.Pen{Glyphs: chart.Unicode()}
	if t.ASCII {
		p.Glyphs = chart.ASCII()
	}
	return p
}

func (t Tool) width() int { return min(t.Width, widest) }

// Picture draws the layers of a place under its words; lines hear its sentence.
func (t Tool) Picture(d page.Page, p plan.Place) page.Page {
	x, ok := t.Layers(p)
	b := d.Block("")
	if !ok {
		b.Loud("There is nothing to draw: no blanket is planned here.")
		return d
	}
	d.Block("").Say("%s", x.Sentence)
	figure(&d, x)
	d.Block("").Add(page.Row{Tone: page.Quiet, Text: "Layers from inside to outside. Temperatures are in steady cold, through the blanket and not through the wood."})
	return d
}

// Year draws the year of the damp check under its words.
func (t Tool) Year(d page.Page, p plan.Place) page.Page {
	x, ok := t.Months(p)
	if !ok {
		return d
	}
	figure(&d, x) // first: it just fits the usual window
	d.Block("").Say("%s", x.Sentence)
	b := d.Block("")
	for _, l := range pages.DampLimits(p, t.Catalog, t.System) {
		b.Add(page.Row{Tone: page.Quiet, Text: l})
	}
	return d
}

// figure puts a drawing on a page; where there is no room for one, its sentence
// stands alone.
func figure(d *page.Page, x chart.Drawing) {
	if len(x.Lines) > 0 {
		d.Block("").Add(page.Row{Kind: page.Figure, Lines: x.Lines})
	}
}

// Layers draws the place from inside to outside with the temperature of each
// layer in the coldest month and the dampest spot; false when there is nothing
// to draw.
func (t Tool) Layers(p plan.Place) (chart.Drawing, bool) {
	if p.Choice == nil {
		return chart.Drawing{}, false
	}
	var layers []chart.SectionLayer
	for _, l := range p.Choice.Stack(p.Surface, t.Catalog, p.Target) {
		layers = append(layers, chart.SectionLayer{Name: l.Name, Note: l.Note, Kind: kindOf(l.Role)})
	}
	inside, outside := "the room", "what lies beyond"
	if cold, ok := p.Coldest(&p.Choice.Assessed); ok {
		t.known(layers, cold)
		inside = fmt.Sprintf("%s in the coldest month", t.System.Temp(cold.InC))
		outside = t.System.Temp(cold.OutC)
	}
	return t.Pen().Section(layers, inside, outside, t.width()), true
}

// known adds the temperature of each layer, by name: the picture has the same layers
// in the same order, and some it does not have.
func (t Tool) known(layers []chart.SectionLayer, cold candidate.Cold) {
	at := 0
	for i := range layers {
		for j := at; j < len(cold.Layers); j++ {
			if cold.Layers[j] == layers[i].Name {
				layers[i].TempText, at = t.System.Temp(cold.InnerC[j]), j+1
				break
			}
		}
	}
}

// Months draws the year of the damp check: the water in the wood, or the humidity
// where no wood is; false when nothing was judged.
func (t Tool) Months(p plan.Place) (chart.Drawing, bool) {
	if p.Choice == nil || !p.Choice.Damp.Judged() || p.Choice.Damp.Runs == 0 {
		return chart.Drawing{}, false
	}
	year := p.Choice.Damp.Year
	o := chart.MonthsOpts{What: "Humidity where most mold may grow" + onWhat(year.Well.MoldOn), Full: 1, LimitName: "top", LimitText: t.System.Percent(1)}
	if year.Wood {
		wet := t.Catalog.DampLayers().WetsMoisture
		o = chart.MonthsOpts{What: "Water in the " + cmp.Or(year.Well.Wood, "wood") + moldElsewhere(year), Limit: wet, LimitName: "wet", LimitText: t.System.Percent(wet)}
	}
	o.What += " (" + pages.DampCase(year.Well.Case, t.System) + ")" // both runs differ in the holes alone
	o.Runs = []chart.MonthsRun{run("built well", year.Well), run("with holes", year.Holes)}
	return t.Pen().Months(o, t.width()), true
}

func onWhat(name string) string {
	if name == "" {
		return ""
	}
	return ", on the " + name
}

// moldElsewhere says where the mold is that the words under the bars tell of, where
// that is not the wood of the bars.
func moldElsewhere(y damp.Year) string {
	for _, m := range []damp.Months{y.Well, y.Holes} {
		if slices.Contains(m.Words[:], damp.Mold) && m.MoldOn != "" && m.MoldOn != y.Well.Wood {
			return ", mold on the " + m.MoldOn
		}
	}
	return ""
}

// wordOf is how a month is called in a drawing.
var wordOf = map[string]chart.MonthWord{
	damp.Dry: {Text: "dry", Sign: "-"}, damp.Damp: {Text: "damp", Sign: "d"}, damp.Wet: {Text: "WET", Sign: "W"}, damp.Mold: {Text: "MOLD", Sign: "M"},
}

func run(name string, m damp.Months) chart.MonthsRun {
	out := chart.MonthsRun{Name: name, Values: m.Of}
	for i, w := range m.Words {
		out.Words[i] = wordOf[w]
	}
	return out
}

func kindOf(role string) chart.Kind {
	switch role {
	case candidate.RoleFiber:
		return chart.Fiber
	case candidate.RoleRetarder:
		return chart.Retarder
	case candidate.RoleSheathing:
		return chart.Sheathing
	case candidate.RoleCladding:
		return chart.Cladding
	case candidate.RoleGap:
		return chart.Gap
	case candidate.RoleConcrete:
		return chart.Concrete
	}
	return chart.Board
}
