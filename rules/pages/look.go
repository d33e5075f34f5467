package pages

import (
	"slices"

	"battwright/rules/page"
	"battwright/rules/plan"
)

// GlancePage heads the first look: what all of it costs, and what must be
// settled for the whole house.
func GlancePage(p plan.Plan, o Options) page.Page {
	d := page.Page{Title: "The house at a glance"}
	b := d.Block("")
	b.Add(page.Row{Text: MoneyGlance(p, o.System)})
	for _, text := range p.First() {
		b.Loud("%s", text)
	}
	if text := p.InPlace(); text != "" {
		b.Loud("%s", text)
	}
	if len(p.Places) == 0 {
		b.Loud("There is no place yet: add one under places.")
	}
	return d
}

// LookBlocks are the places of the first look: what to do in each, and then
// every material with what speaks for it and against it.
func LookBlocks(p plan.Plan, o Options) []page.Block {
	var out []page.Block
	for _, place := range p.Places {
		b := page.Block{Place: place.Surface.ID, Title: place.Surface.Label, Rows: []page.Row{GlanceRow(place, o)}}
		for i, r := range RankRows(place, o) {
			row := page.Row{Kind: page.Item, Tone: r.Tone, Label: r.Name, Text: r.Fit}
			if r.Price != "" { // never cut
				row.Text += ", " + r.Price
			}
			if i < len(place.Entries) && takes(place, place.Entries[i]) {
				row.Mark = page.Taken
			}
			b.Add(row)
			if r.Plus != "" {
				b.Add(page.Row{Kind: page.Sub, Tone: page.Quiet, Mark: page.For, Text: r.Plus})
			}
			if r.Minus != "" {
				b.Add(page.Row{Kind: page.Sub, Tone: page.Quiet, Mark: page.Against, Text: r.Minus})
			}
		}
		out = append(out, b)
	}
	return out
}

// GlanceRow says what to do in a place.
func GlanceRow(p plan.Place, o Options) page.Row {
	row := page.Row{Text: Glance(p, o)}
	if p.Choice == nil || len(p.Asks()) > 0 {
		row.Tone = page.Stop
	}
	return row
}

// takes reports whether the plan takes the material of an entry.
func takes(p plan.Place, e plan.Entry) bool {
	return p.Choice != nil && p.Choice.MaterialID == e.MaterialID
}

// LookTable is the first look at once: the places beside every material, with the
// most likely prices; * is what the plan takes.
func LookTable(p plan.Plan, o Options) [][]string {
	head := []string{"Place"}
	for _, m := range o.Catalog.Materials {
		head = append(head, m.Name)
	}
	out := [][]string{head}
	for _, place := range p.Places {
		cells := make([]string, len(head))
		cells[0] = placeCell(place, o)
		for i, r := range RankRows(place, o) {
			at := slices.Index(head, r.Name)
			if at < 0 {
				continue
			}
			e := place.Entries[i]
			cells[at] = r.Fit
			if r.Price != "" {
				cells[at] += " " + moneyOf(place.CostOf(&e.Assessed).Total, o.System)
			}
			if takes(place, e) {
				cells[at] = "* " + cells[at]
			}
		}
		out = append(out, cells)
	}
	return out
}

// placeCell names a place, and says in it what no score may stand for.
func placeCell(p plan.Place, o Options) string {
	if p.Stopped() {
		return p.Surface.Label + ": STOP, see below"
	}
	cell := p.Surface.Label
	if len(p.Asks()) > 0 {
		cell += ": FIND OUT FIRST, see below"
	}
	if p.Surface.Kind.BesideChimney {
		cell += ": " + GapText(p, o)
	}
	return cell
}

// NotCoveredBlock lists what somebody else must be asked about.
func NotCoveredBlock(p plan.Plan) page.Block {
	b := page.Block{Title: "Not covered: ask somebody else, so that nobody thinks they are done"}
	for _, n := range p.NotCovered {
		b.Add(page.Row{Kind: page.Item, Tone: page.Quiet, Mark: page.Step, Text: n})
	}
	return b
}
