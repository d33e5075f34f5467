package pages

import (
	"fmt"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// closingBlock ends a page.
func closingBlock() page.Block {
	b := page.Block{}
	b.Add(page.Row{Tone: page.Quiet, Text: Closing})
	return b
}

// CoverBlocks are the cautions and steps of the whole house, to walk it with
// before the walls close.
func CoverBlocks(p plan.Plan, o Options) []page.Block {
	head := page.Block{Title: "Before anything is covered"}
	head.Add(page.Row{Tone: page.Quiet, Text: "Walk the house with this list. Do not cover a blanket before the insulation inspection."})
	firstRows(&head, p)
	out := []page.Block{head}
	for _, pl := range p.Places {
		b := page.Block{Title: pl.Surface.Label}
		for _, s := range pl.StopLines() {
			b.Item(page.Stop, s)
		}
		for _, text := range FindFirst(pl, o) {
			b.Tick(page.Stop, text)
		}
		if pl.Choice != nil {
			b.Tick(page.Plain, "the label says "+ProductText(pl.Choice.Assessed, o.System))
			if part := inspect.PartToBuy(pl, o.System); part != "" {
				b.Tick(page.Care, "the "+part+" is there: look before it is hidden")
			}
		}
		for _, c := range Cautions(pl, o) {
			b.Tick(page.Care, c)
		}
		for _, h := range Steps(pl) {
			b.Tick(page.Plain, h)
		}
		out = append(out, b)
	}
	return append(out, closingBlock())
}

// firstRows say what must be settled for the whole house.
func firstRows(b *page.Block, p plan.Plan) {
	for _, text := range p.First() {
		b.Tick(page.Stop, text)
	}
}

// ReadyBlocks list what to see, sign, photograph and keep, and what the walk
// through the finished work still says.
func ReadyBlocks(j inspect.Job, r inspect.FoundResult) []page.Block {
	tone := page.Care
	switch {
	case r.Stops():
		tone = page.Stop
	case r.ReadyToClose():
		tone = page.Good
	}
	head := page.Block{Title: "Ready to close"}
	head.Add(page.Row{Tone: tone, Text: "Finished work: " + FoundVerdict(r)})
	out := []page.Block{head}
	for _, g := range inspect.ClosingGroups {
		b := page.Block{Title: g.Title}
		for _, n := range inspect.HouseNotes(j, g.Group, "") {
			b.Tick(page.Plain, n.Text.In(j.System))
		}
		if g.Group == "certificate" {
			for _, l := range inspect.CertificateLines(j) {
				b.Item(page.Quiet, l)
			}
		}
		out = append(out, b)
	}
	return append(out, closingBlock())
}

// mind says the cautions of a place that a sheet does not say in full.
func mind(b *page.Block, p plan.Place, o Options) {
	if text := p.MindText(o.System); text != "" {
		b.Add(page.Row{Tone: page.Care, Text: text})
	}
}

// SheetBlocks are the handover sheet of a place, or why it has none.
func SheetBlocks(j inspect.Job, p plan.Place, o Options) []page.Block {
	head := page.Block{Title: p.Surface.Label}
	firstRows(&head, j.Plan)
	sheet, ok := inspect.SheetOf(j, p)
	if !ok {
		head.Add(page.Row{Tone: page.Stop, Text: "No sheet: " + Glance(p, o)})
		mind(&head, p, o)
		same := page.Block{Title: "Looked at all the same"}
		for _, x := range sheet.Points {
			same.Tick(page.Plain, PointText(x, o.System))
		}
		return page.Full([]page.Block{head, same})
	}
	for _, text := range FindFirst(p, o) {
		head.Tick(page.Stop, text)
	}
	mind(&head, p, o)
	sheetFacts(&head, sheet, o)
	out := []page.Block{head}
	notes := func(title string, list []catalog.HandoverNote) {
		b := page.Block{Title: title}
		for _, n := range list {
			b.Tick(page.Plain, n.Text.In(o.System))
		}
		if len(list) > 0 {
			out = append(out, b)
		}
	}
	notes("First", sheet.First)
	notes("Stays clear", sheet.Clear)
	points := page.Block{Title: "Accepted by these points"}
	for _, x := range sheet.Points {
		points.Tick(page.Plain, PointText(x, o.System))
	}
	out = append(out, points)
	notes("Left behind", sheet.Leave)
	for _, n := range sheet.Hold {
		b := page.Block{}
		b.Add(page.Row{Tone: page.Care, Text: n.Text.In(o.System)})
		out = append(out, b)
	}
	return out
}

// FoundRows say what the answers about one place come to: the points that do
// not pass, then the figures beside the plan's.
func FoundRows(p inspect.FoundPlace, o Options) []page.Row {
	var out []page.Row
	for _, x := range p.Points {
		switch {
		case x.State == inspect.Halt:
			out = append(out, page.Row{Tone: page.Stop, Text: PointLine(x, o.System) + ". " + x.Ask})
		case x.State > inspect.Pass:
			out = append(out, page.Row{Tone: page.Care, Text: PointLine(x, o.System)})
		}
	}
	for _, l := range FoundLines(p, o) {
		out = append(out, page.Row{Kind: page.Fact, Label: l.Label, Text: l.Text})
	}
	return out
}

// FoundNote is one place of the walk in a few words.
func FoundNote(p inspect.FoundPlace) string {
	open := p.Open()
	switch {
	case p.Worst() == inspect.Halt:
		return "STOP: do not close"
	case !p.Begun():
		return "not looked at yet"
	case p.Worst() > inspect.Pass:
		return fmt.Sprintf("%s; %d of %d points not looked at", p.Worst(), open, len(p.Points))
	case open > 0:
		return fmt.Sprintf("%d of %d points not looked at", open, len(p.Points))
	case p.ShortText(units.US) != "" && !p.Plan.Surface.Waived:
		return "less R than is asked for"
	case p.PaintToCome():
		return "every point passes but the paint, still to come on the drywall"
	}
	return "every point passes"
}

// WalkNote is the walk so far in a few words.
func WalkNote(j inspect.Job, w *inspect.Walk) string {
	if !w.Begun() {
		return "room by room with a tape measure; you can stop at any point"
	}
	return FoundVerdict(w.Judge(j))
}
