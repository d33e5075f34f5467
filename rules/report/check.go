package report

import (
	"fmt"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/plan"
)

// CheckKind is how a row of a page of the last step is set.
type CheckKind int

// The kinds of a row.
const (
	CheckText CheckKind = iota
	CheckItem           // belongs to the title above it
	CheckTick           // a thing to tick off
	CheckFact           // Label: Text
)

// CheckTone is how a row is meant; each front end marks it in its own way.
type CheckTone int

// The tones of a row.
const (
	CheckPlain CheckTone = iota
	CheckQuiet           // said beside the matter
	CheckGood
	CheckCare
	CheckStop // can hurt people
)

// CheckRow is one row of a page of the last step.
type CheckRow struct {
	Kind        CheckKind
	Tone        CheckTone
	Label, Text string
}

// CheckBlock is a part of such a page; the last ones may have no title. Screens
// and line mode show the same blocks.
type CheckBlock struct {
	Title string
	Rows  []CheckRow
}

func (b *CheckBlock) add(k CheckKind, t CheckTone, text string) {
	b.Rows = append(b.Rows, CheckRow{Kind: k, Tone: t, Text: text})
}

// closingBlock ends a page.
func closingBlock() CheckBlock {
	b := CheckBlock{}
	b.add(CheckText, CheckQuiet, Closing)
	return b
}

// CoverBlocks are the cautions and steps of the whole house, to walk it with
// before the walls close.
func CoverBlocks(p plan.Plan, o Options) []CheckBlock {
	head := CheckBlock{Title: "Before anything is covered"}
	head.add(CheckText, CheckQuiet, "Walk the house with this list. Do not cover a blanket before the insulation inspection.")
	firstRows(&head, p)
	out := []CheckBlock{head}
	for _, pl := range p.Places {
		b := CheckBlock{Title: pl.Surface.Label}
		for _, s := range pl.StopLines() {
			b.add(CheckItem, CheckStop, s)
		}
		for _, text := range FindFirst(pl, o) {
			b.add(CheckTick, CheckStop, text)
		}
		if pl.Choice != nil {
			b.add(CheckTick, CheckPlain, "the label says "+ProductText(pl.Choice.Assessed, o.System))
			if part := inspect.PartToBuy(pl, o.System); part != "" {
				b.add(CheckTick, CheckCare, "the "+part+" is there: look before it is hidden")
			}
		}
		for _, c := range Cautions(pl, o) {
			b.add(CheckTick, CheckCare, c)
		}
		for _, h := range Steps(pl) {
			b.add(CheckTick, CheckPlain, h)
		}
		out = append(out, b)
	}
	return append(out, closingBlock())
}

// firstRows say what must be settled for the whole house.
func firstRows(b *CheckBlock, p plan.Plan) {
	for _, text := range p.First() {
		b.add(CheckTick, CheckStop, text)
	}
}

// ReadyBlocks list what to see, sign, photograph and keep, and what the walk
// through the finished work still says.
func ReadyBlocks(j inspect.Job, r inspect.FoundResult) []CheckBlock {
	tone := CheckCare
	switch {
	case r.Stops():
		tone = CheckStop
	case r.ReadyToClose():
		tone = CheckGood
	}
	head := CheckBlock{Title: "Ready to close"}
	head.add(CheckText, tone, "Finished work: "+FoundVerdict(r))
	out := []CheckBlock{head}
	for _, g := range inspect.ClosingGroups {
		b := CheckBlock{Title: g.Title}
		for _, n := range inspect.HouseNotes(j, g.Group, "") {
			b.add(CheckTick, CheckPlain, n.Text.In(j.System))
		}
		if g.Group == "certificate" {
			for _, l := range inspect.CertificateLines(j) {
				b.add(CheckItem, CheckQuiet, l)
			}
		}
		out = append(out, b)
	}
	return append(out, closingBlock())
}

// SheetBlocks are the handover sheet of a place, or why it has none.
func SheetBlocks(j inspect.Job, p plan.Place, o Options) []CheckBlock {
	head := CheckBlock{Title: p.Surface.Label}
	firstRows(&head, j.Plan)
	sheet, ok := inspect.SheetOf(j, p)
	if !ok {
		head.add(CheckText, CheckStop, "No sheet: "+Glance(p, o))
		return []CheckBlock{head}
	}
	for _, text := range FindFirst(p, o) {
		head.add(CheckTick, CheckStop, text)
	}
	for _, l := range SheetLines(sheet, o) {
		row := CheckRow{Kind: CheckFact, Label: l.Label, Text: l.Text}
		if l.Label == "Gap" || l.Label == "Plus" {
			row.Tone = CheckStop
		}
		head.Rows = append(head.Rows, row)
	}
	out := []CheckBlock{head}
	notes := func(title string, list []catalog.HandoverNote) {
		b := CheckBlock{Title: title}
		for _, n := range list {
			b.add(CheckTick, CheckPlain, n.Text.In(o.System))
		}
		if len(list) > 0 {
			out = append(out, b)
		}
	}
	notes("First", sheet.First)
	notes("Stays clear", sheet.Clear)
	points := CheckBlock{Title: "Accepted by these points"}
	for _, x := range sheet.Points {
		points.add(CheckTick, CheckPlain, PointText(x, o.System))
	}
	out = append(out, points)
	notes("Left behind", sheet.Leave)
	for _, n := range sheet.Hold {
		b := CheckBlock{}
		b.add(CheckText, CheckCare, n.Text.In(o.System))
		out = append(out, b)
	}
	return out
}

// FoundRows say what the answers about one place come to: the points that do
// not pass, then the figures beside the plan's.
func FoundRows(p inspect.FoundPlace, o Options) []CheckRow {
	var out []CheckRow
	for _, x := range p.Points {
		switch {
		case x.State == inspect.Halt:
			out = append(out, CheckRow{Tone: CheckStop, Text: PointLine(x, o.System) + ". " + x.Ask})
		case x.State > inspect.Pass:
			out = append(out, CheckRow{Tone: CheckCare, Text: PointLine(x, o.System)})
		}
	}
	for _, l := range FoundLines(p, o) {
		out = append(out, CheckRow{Kind: CheckFact, Label: l.Label, Text: l.Text})
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
