package pages

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/bill"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/takeoff"
	"battwright/rules/units"
)

// CutBlocks are the cut list of every place, then how to cut each blanket.
func CutBlocks(o order.Order, opts Options) []page.Block {
	var out []page.Block
	for _, p := range o.Places {
		out = append(out, cutBlock(p, opts))
	}
	for _, l := range o.Lines {
		if b := cuttingBlock(l, opts); len(b.Rows) > 0 {
			out = append(out, b)
		}
	}
	return out
}

func cutBlock(p order.Place, opts Options) page.Block {
	s := opts.System
	b := page.Block{ID: "cut", Place: p.ID, Title: fmt.Sprintf("Cut list: %s, %s", p.Label, s.Area(p.AreaFt2))}
	switch {
	case p.Skipped != "":
		b.Loud("Nothing is ordered: %s", p.Skipped)
		return b
	case p.Problem != "":
		b.Loud("NOT COUNTED: %s", p.Problem)
	}
	for _, text := range firstTexts(p) {
		b.Loud("%s", text)
	}
	if text := mindText(p); text != "" {
		b.Loud("%s", text)
	}
	if p.NotMeasured() {
		b.Loud("NOT MEASURED: %s", strings.Join(p.Assumed, ", "))
	}
	b.Say("Counted %s. Sizes: %s.", howText(p.How), sizesText(p))
	if p.Differ != "" {
		b.Loud("SIZES DISAGREE: %s.", p.Differ)
	}
	for _, n := range p.Notes {
		b.Sub("%s", n)
	}
	for i, l := range p.Layers {
		layerRows(&b, p, l, i, len(p.Layers), opts)
	}
	return b
}

// howText names the counting convention in plain words.
func howText(c takeoff.Convention) string {
	switch c {
	case takeoff.ByModule:
		return "by area, stud and space together (" + string(c) + "): narrow spaces are not in it"
	case takeoff.ByClearShare:
		return "by area, the wood taken off first (" + string(c) + ")"
	}
	return "bay by bay"
}

func sizesText(p order.Place) string {
	if p.Sizes == 0 {
		return "none"
	}
	return fmt.Sprintf("%d measured, %d as typed, %d assumed", p.Measured, max(0, p.Sizes-p.Measured-len(p.Assumed)), len(p.Assumed))
}

func layerRows(b *page.Block, p order.Place, l bill.Layer, i, n int, opts Options) {
	s, sliver := opts.System, opts.Catalog.Figure("sliver").Value
	form := l.Form
	head := fmt.Sprintf("%s %s, %s, %s x %s", l.Material.Name, s.R(l.Product.NominalR), FaceWord(l.Facing), s.Inches(l.WidthIn), s.Inches(l.LengthIn))
	if n > 1 {
		head = fmt.Sprintf("Layer %d of %d: ", i+1, n) + head
		if l.Across {
			head += ", across the joists"
		}
	}
	b.Tick(page.Plain, fmt.Sprintf("%s: %s", head, plural(l.Stock, form)))
	for _, t := range bayLines(l.Bays, sliver, stripText(p), s) {
		b.Sub("spaces %s", t)
	}
	if len(l.Cut) == 0 {
		b.Sub("no cut list from an area: cut each to its space, a little wider and longer")
		return
	}
	for _, t := range pieceLines(l, sliver, s) {
		b.Sub("%s", t)
	}
	for _, j := range l.Joints {
		b.Sub("%s", jointText(j, s))
	}
}

// stripText is what goes into a space too narrow for a piece of its own. Usual
// sealant burns and stays away from a chimney.
func stripText(p order.Place) string {
	if p.NearHeat {
		return "a strip of offcut"
	}
	return "a strip of offcut, or sealant"
}

// bayLines gives spaces of one kind and height in one line, widest first.
func bayLines(bays []takeoff.Bay, sliverIn float64, strip string, s units.System) []string {
	var out []string
	for i := 0; i < len(bays); {
		j := i
		var widths []string
		slivers := 0
		for ; j < len(bays) && bays[j].Kind == bays[i].Kind && bays[j].HeightIn == bays[i].HeightIn; j++ {
			if bays[j].WidthIn < sliverIn {
				slivers += bays[j].Count
				continue
			}
			widths = append(widths, fmt.Sprintf("%d of %s", bays[j].Count, knife(bays[j].WidthIn, s)))
		}
		if slivers > 0 {
			widths = append(widths, fmt.Sprintf("%d under %s (%s)", slivers, s.Inches(sliverIn), strip))
		}
		out = append(out, fmt.Sprintf("%s, %s long, wide: %s", kindText(bays[i].Kind), knife(bays[i].HeightIn, s), strings.Join(widths, ", ")))
		i = j
	}
	return out
}

func kindText(k takeoff.Kind) string {
	switch k {
	case takeoff.KindOdd:
		return "narrow"
	case takeoff.KindAbove:
		return "over the windows and doors"
	case takeoff.KindBelow:
		return "under the windows"
	case takeoff.KindAcross:
		return "rows over the joists"
	case takeoff.KindRim:
		return "at the rim"
	}
	return "of usual width"
}

// pieceLines gives the pieces to set by length, widest first.
func pieceLines(l bill.Layer, sliverIn float64, s units.System) []string {
	pieces := slices.Clone(l.Cut)
	var out []string
	for i := 0; i < len(pieces); {
		j := i
		var widths []string
		for ; j < len(pieces) && pieces[j].LengthIn == pieces[i].LengthIn; j++ {
			if aStrip(pieces[j].WidthIn, pieces[j].LengthIn, sliverIn) {
				continue
			}
			w := knife(pieces[j].WidthIn, s)
			if pieces[j].WidthIn == l.WidthIn {
				w = "full width"
			}
			widths = append(widths, fmt.Sprintf("%d of %s", pieces[j].Count, w))
		}
		if len(widths) == 0 {
			i = j
			continue
		}
		length := "cut to " + knife(pieces[i].LengthIn, s)
		if pieces[i].LengthIn == l.LengthIn {
			length = "whole length " + knife(l.LengthIn, s)
		}
		out = append(out, fmt.Sprintf("set, %s: %s", length, strings.Join(widths, ", ")))
		i = j
	}
	return out
}

func jointText(j takeoff.Joint, s units.System) string {
	text := fmt.Sprintf("%s of %s: %d whole", plural(j.Bays, "space"), knife(j.BayIn, s), j.Whole)
	if j.EvenIn > 0 {
		text += " + " + knife(j.EvenIn, s)
	}
	if j.RemnantIn > 0 {
		text += " + " + knife(j.RemnantIn, s)
	}
	return text + ", end to end, tight"
}

// cuttingBlock says how to cut the batts of one kind for the whole house.
func cuttingBlock(l bill.Line, opts Options) page.Block {
	s, sliver := opts.System, opts.Catalog.Figure("sliver").Value
	form, strips := l.Form, false
	b := page.Block{ID: "cutting", Title: fmt.Sprintf("How to cut: %s %s, %s, %s wide, for %s", l.Material.Name, s.R(l.Product.NominalR), FaceWord(l.Facing), s.Inches(l.WidthIn), strings.Join(l.CutFor, ", "))}
	whole := 0
	for _, p := range l.Patterns {
		if isWhole(p, l) {
			whole += p.Count
			continue
		}
		text, some := patternText(p, l, sliver, s)
		strips = strips || some
		if text == "" {
			text = "strips only"
		}
		b.Sub("%s: %s", plural(p.Count, form), text)
	}
	if len(b.Rows) == 0 {
		return b
	}
	top := "Cut"
	switch {
	case whole == 1:
		top = plural(whole, form) + " goes in whole. The rest, cut"
	case whole > 1:
		top = plural(whole, form) + " go in whole. The rest, cut"
	}
	b.Rows = append([]page.Row{{Text: top + " so that least is wasted; | means side by side, + end to end:"}}, b.Rows...)
	if strips {
		b.Sub("spaces under %s get strips of what is left over, cut by eye", s.Inches(sliver))
	}
	if rest := slices.DeleteFunc(slices.Clone(l.Places), func(p string) bool { return slices.Contains(l.CutFor, p) }); len(rest) > 0 {
		b.Sub("not in this list: %s, counted by the area; measure each space there before you cut for it", strings.Join(rest, ", "))
	}
	if l.Short > 0 {
		b.Sub("with more thought it might take %d fewer", l.Short)
	}
	return b
}

func isWhole(p takeoff.StockCut, l bill.Line) bool {
	return len(p.Slots) == 1 && p.Slots[0].Count == 1 && len(p.Slots[0].Pieces) == 1 && p.Slots[0].Pieces[0].Count == 1 &&
		p.Slots[0].Pieces[0].WidthIn == l.WidthIn && p.Slots[0].LengthIn == l.LengthIn
}

// aStrip reports whether a piece is narrower or shorter than a knife can
// follow: the space gets a strip of what is left over.
func aStrip(widthIn, lengthIn, sliverIn float64) bool {
	return widthIn < sliverIn+takeoff.FitWidthIn || lengthIn < sliverIn // cut over by the fit
}

// patternText is one way to cut a blanket, without its strips; empty when only
// strips are cut from it.
func patternText(p takeoff.StockCut, l bill.Line, sliverIn float64, s units.System) (text string, strips bool) {
	var slots []string
	for _, slot := range p.Slots {
		var beside []string
		for _, q := range slot.Pieces {
			if aStrip(q.WidthIn, q.LengthIn, sliverIn) {
				strips = true
				continue
			}
			text := knife(q.WidthIn, s) + " x " + knife(q.LengthIn, s)
			if q.WidthIn == l.WidthIn {
				text = knife(q.LengthIn, s)
			}
			for range min(q.Count, 12) {
				beside = append(beside, text)
			}
		}
		if len(beside) == 0 {
			continue
		}
		text := strings.Join(beside, " | ")
		if slot.Count > 1 {
			text = fmt.Sprintf("%d times (%s)", slot.Count, text)
		}
		slots = append(slots, text)
	}
	if len(slots) == 0 {
		return "", strips
	}
	text = strings.Join(slots, " + ")
	if p.OffcutIn >= takeoff.MinPieceIn {
		text += "; " + knife(p.OffcutIn, s) + " left"
	}
	return text, strips
}
