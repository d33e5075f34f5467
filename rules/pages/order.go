package pages

import (
	"fmt"
	"math"
	"strings"

	"battwright/rules/bill"
	"battwright/rules/catalog"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// OrderBlocks is the whole order: what to buy, what to check, how to cut, what
// it costs.
func OrderBlocks(o order.Order, opts Options) []page.Block {
	out := []page.Block{shoppingBlock(o, opts), otherBlock(o, opts), goodsBlock(o, opts), gearBlock(o, opts), labelBlock(o, opts)}
	out = append(out, CutBlocks(o, opts)...)
	out = append(out, moneyBlock(o, opts), endBlock())
	return page.Full(out)
}

// OrderPage is the order to print.
func OrderPage(o order.Order, p plan.Plan, opts Options) page.Page {
	return page.Page{Title: "Order: " + houseName(p), Blocks: OrderBlocks(o, opts)}
}

// ShoppingBlocks are the pages to carry to the store.
func ShoppingBlocks(o order.Order, opts Options) []page.Block {
	var out []page.Block
	for _, b := range OrderBlocks(o, opts) {
		switch b.ID {
		case "cut", "cutting":
		default:
			out = append(out, b)
		}
	}
	return out
}

func endBlock() page.Block {
	b := page.Block{ID: "end", Title: "Before you order"}
	b.Say("Seal gaps first, blankets next, and cover nothing before the insulation inspection. %s", Closing)
	return b
}

// plural writes "1 batt", "2 batts".
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	if strings.HasSuffix(one, "x") {
		return fmt.Sprintf("%d %ses", n, one)
	}
	return fmt.Sprintf("%d %ss", n, one)
}

func peopleText(n int) string {
	if n == 1 {
		return "one person"
	}
	return fmt.Sprintf("%d people", n)
}

// thousands writes a count with marks: 4,478.
func thousands(n int) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// knife is a length as a knife can follow it: to an eighth of an inch.
func knife(in float64, s units.System) string { return s.Inches(math.Round(in*8) / 8) }

// lineText names a blanket as it stands on the bag.
func lineText(l bill.Line, s units.System) string {
	return fmt.Sprintf("%s %ss, %s, %s, %s thick, %s wide, %s long", l.Material.Name, l.Form, bagWord(l.Facing),
		s.R(l.Product.NominalR), s.Inches(l.Product.ThicknessIn), s.Inches(l.WidthIn), s.Inches(l.LengthIn))
}

// beforeRows say what must be known before anybody buys or asks: what is to be found
// out, settled or measured first, and where nothing is ordered.
func beforeRows(b *page.Block, o order.Order) {
	for _, p := range o.Places {
		for _, text := range firstTexts(p) {
			b.Loud("%s", text)
		}
	}
	for _, text := range o.First {
		b.Loud("%s", text)
	}
	if o.InPlace != "" {
		b.Loud("%s", o.InPlace)
	}
	if where := unmeasured(o); where != "" {
		b.Loud("NOT MEASURED: %s. Measure before you buy.", where)
	}
	for _, p := range o.Places {
		switch why := p.Skipped + p.Problem; {
		case why != "":
			b.Loud("NOTHING HERE FOR %s: %s", p.Label, why)
		case p.Differ != "":
			b.Loud("SIZES DISAGREE, %s: %s.", p.Label, p.Differ)
		}
	}
	for _, p := range o.Places {
		if damp := dampBeforeBuying(p); damp != "" {
			b.Loud("%s", damp)
		}
		if p.Short != "" {
			b.Loud("%s: %s.", p.Label, p.Short)
		}
	}
	for _, p := range o.Places {
		if text := mindText(p); text != "" {
			b.Loud("%s", text)
		}
	}
}

func shoppingBlock(o order.Order, opts Options) page.Block {
	s := opts.System
	b := page.Block{ID: "shopping", Title: "Shopping list: blankets"}
	beforeRows(&b, o)
	ft3 := 0.0
	for _, l := range o.Lines {
		b.Tick(page.Plain, fmt.Sprintf("%s: %s", buyText(l), lineText(l, s)))
		b.Sub("for %s", strings.Join(l.Places, ", "))
		if text := onlyIf(l); text != "" {
			b.Sub("%s", text)
		}
		if text := fireMark(l); text != "" {
			b.Sub("%s", text)
		}
		b.Sub("%s to cut from and %d to spare; %s", plural(l.Stock, l.Form), l.Spare, packageText(l, s))
		if text := holdText(l); text != "" {
			b.Sub("%s", text)
		}
		b.Sub("%s", linePrice(l, s))
		ft3 += l.Ft3
	}
	if len(o.Places) == 0 {
		b.Say(NoPlace)
		return b
	}
	if len(o.Lines) == 0 {
		b.Say("No blanket can be ordered yet: settle what stands above first.")
		return b
	}
	b.Say("Room: %s of blanket as it lies; bags are pressed and take much less. Ask for the size of a bag before you borrow a pickup.", s.Volume(ft3))
	b.Say("Keep it dry: bags closed, off the ground, under a roof until the day they go in. A wet blanket is not put in. Keep the receipt and one label of each kind.")
	b.Say("Blankets of one kind are counted together: an offcut of one place serves the next, so keep them until all is in.")
	return b
}

// onlyIf says for which places of a line nothing is bought while what lies there
// stays; empty for none.
func onlyIf(l bill.Line) string {
	if len(l.OnlyIf) == 0 {
		return ""
	}
	return "only if what is in comes out, or none is in yet: " + strings.Join(l.OnlyIf, ", ")
}

// firstTexts say of a place what must be found out before anybody buys for it,
// and what must be settled before anybody begins there.
func firstTexts(p order.Place) []string {
	var out []string
	if len(p.FindFirst) > 0 {
		out = append(out, fmt.Sprintf("%s: %s%s Do not buy for it or begin before that is answered.", p.Label, plan.AskHead, strings.Join(p.FindFirst, " ")))
	}
	if len(p.Settle) > 0 {
		out = append(out, fmt.Sprintf("%s: %s%s Do not begin there before that is settled.", p.Label, plan.SettleHead, strings.Join(p.Settle, " ")))
	}
	return out
}

// mindText says of a place what whoever works there minds; empty where nothing is.
func mindText(p order.Place) string {
	if len(p.Mind) == 0 {
		return ""
	}
	return fmt.Sprintf("%s: %s%s", p.Label, plan.MindHead, strings.Join(p.Mind, " "))
}

// dampBeforeBuying says of a place that gets damp what must be settled before
// anybody buys for it; empty when none is found.
func dampBeforeBuying(p order.Place) string {
	damp := dampAtAGlance(p.Damp, p.AllDamp)
	if damp == "" {
		return ""
	}
	return fmt.Sprintf("%s: %s. Settle that before you buy for it.", p.Label, strings.TrimPrefix(damp, "; "))
}

// holdText parts the packages that hold the count from those bought only
// because of the spare.
func holdText(l bill.Line) string {
	switch l.Packages - l.Hold {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("%s would just hold the count; the last one is for pieces that go wrong: buy it only if it can be returned closed", plural(l.Hold, "package"))
	}
	return fmt.Sprintf("%s would just hold the count; the other %d are for pieces that go wrong: buy them only if they can be returned closed", plural(l.Hold, "package"), l.Packages-l.Hold)
}

// fireMark says what a blanket that stays in sight must be marked; empty for one
// that is covered.
func fireMark(l bill.Line) string {
	const mark = ": flame spread 25 or less, smoke 450 or less"
	switch l.Visible {
	case bill.Burns:
		return "must be marked 25/450, covered or not (this fiber burns)" + mark
	case bill.StaysVisible:
		return "must be marked 25/450 (it stays visible)" + mark
	case bill.PerhapsVisible:
		return "must be marked 25/450 if it stays visible" + mark
	}
	return ""
}

// bagWord is a face by our name and by the word on the bag.
func bagWord(facing string) string {
	switch facing {
	case "kraft":
		return FaceWord(facing) + " (kraft faced)"
	case "none":
		return FaceWord(facing) + " (unfaced)"
	}
	return FaceWord(facing)
}

func buyText(l bill.Line) string {
	text := plural(l.Buy, "package")
	if l.Have > 0 {
		text += fmt.Sprintf(" (of %d; you have %d)", l.Packages, l.Have)
	}
	return text
}

func packageText(l bill.Line, s units.System) string {
	text := fmt.Sprintf("%d in a package, %s", l.PerPackage, s.Area(l.PackageFt2))
	if !l.Label {
		return text + ", a usual size: THE LABEL DECIDES"
	}
	return text + ", as on your label"
}

func linePrice(l bill.Line, s units.System) string {
	if l.Scaled {
		return fmt.Sprintf("%s, at the price of the width you typed, by area: about %s a package; ask for this width", s.MoneyRange(l.Cost), s.MoneyAbout(units.FromDollars(l.PerPack.Typical)))
	}
	if l.Quoted {
		return fmt.Sprintf("%s, your price: %s a package", s.MoneyRange(l.Cost), s.MoneyExact(units.FromDollars(l.PerPack.Typical)))
	}
	return fmt.Sprintf("%s, rough (%d, %s): %s a package; no store price typed yet", s.MoneyRange(l.Cost), l.Year, KnownText(l.Ref.Known), s.MoneyRange(centsRange(l.PerPack)))
}

func centsRange(r units.Range[float64]) units.Range[units.Cents] { return units.CentsOver(r, 1) }

// unmeasured names the places with a size that nobody confirmed.
func unmeasured(o order.Order) string {
	var out []string
	for _, p := range o.Places {
		if p.Skipped == "" && p.NotMeasured() {
			out = append(out, fmt.Sprintf("%s (%s)", p.Label, strings.Join(p.Assumed, ", ")))
		}
	}
	return strings.Join(out, "; ")
}

func otherBlock(o order.Order, opts Options) page.Block {
	b := page.Block{ID: "other", Title: "Not blankets, but the plan needs them: get a quote"}
	for _, g := range o.Goods {
		if !g.Quote {
			continue
		}
		b.Tick(page.Plain, fmt.Sprintf("%s: %s", goodsCount(g, opts.Catalog, opts.System), g.Name))
		b.Sub("for %s; %s", strings.Join(g.Places, ", "), g.Note)
	}
	boardRows(&b, o)
	return b
}

// boardRows say what to know before a board is bought.
func boardRows(b *page.Block, o order.Order) {
	for _, p := range o.Places {
		for _, text := range p.Board {
			b.Loud("%s: %s", p.Label, text)
		}
	}
}

func goodsCount(g bill.Goods, c *catalog.Catalog, s units.System) string {
	switch g.Unit {
	case "board":
		return fmt.Sprintf("%s of %s x %s (%s with waste)", plural(g.Count, "sheet"), s.Feet(4), s.Feet(8), s.Area(g.Qty))
	case "tube":
		return "about " + plural(g.Count, "tube") + " for some " + s.FeetAbout(tens(g.Qty)) + " of gap"
	case "paint":
		return plural(g.Count, "gallon")
	case "ft2":
		return s.Area(tens(g.Qty))
	case "ft":
		return s.FeetAbout(tens(g.Qty))
	}
	switch {
	case g.ID == "staples":
		box := int(c.Figure("staple-box").Value)
		return fmt.Sprintf("%s of %s (about %s needed)", boxes((g.Count+box-1)/box), thousands(box), thousands(int(hundreds(g.Qty))))
	case g.Count > 100:
		return "about " + thousands(int(tens(g.Qty)))
	}
	return thousands(g.Count)
}

func boxes(n int) string {
	if n == 1 {
		return "1 box"
	}
	return fmt.Sprintf("%d boxes", n)
}

// tens and hundreds round up: nobody counts staples, and too few is worse.
func tens(v float64) float64     { return math.Ceil(v/10-1e-9) * 10 }
func hundreds(v float64) float64 { return math.Ceil(v/100-1e-9) * 100 }

func goodsBlock(o order.Order, opts Options) page.Block {
	s := opts.System
	b := page.Block{ID: "goods", Title: "What goes with them"}
	for _, g := range o.Goods {
		if g.Quote {
			continue
		}
		b.Tick(page.Plain, fmt.Sprintf("%s: %s", goodsCount(g, opts.Catalog, s), g.Name))
		text := "for " + strings.Join(g.Places, ", ")
		if g.Note != "" {
			text += "; " + g.Note
		}
		if g.Priced {
			text += fmt.Sprintf("; %s, rough", s.MoneyRange(g.Cost))
		} else {
			text += "; no price here"
		}
		b.Sub("%s", text)
	}
	return b
}

func gearBlock(o order.Order, opts Options) page.Block {
	b := page.Block{ID: "gear", Title: "Gear"}
	if o.People == 0 {
		return b
	}
	b.Say("For %s, about %s of work. Wear it for all four fibers: cutting any of them makes dust.", peopleText(o.People), plural(o.Days, "day"))
	for _, g := range o.Gear {
		if g.Priced {
			b.Sub("all together %s, rough", opts.System.MoneyRange(g.Cost))
			continue
		}
		b.Tick(page.Plain, fmt.Sprintf("%d %s", g.Count, g.Name))
	}
	return b
}

// labelBlock is what is checked in the store, before a bag is opened.
func labelBlock(o order.Order, opts Options) page.Block {
	s := opts.System
	b := page.Block{ID: "label", Title: "Check the label before a bag is opened: an opened bag is not taken back"}
	for _, l := range o.Lines {
		b.Tick(page.Plain, fmt.Sprintf("%s: %s on the bag, %s thick, %s wide, %s long, %s; %s, %s of coverage", l.Material.Name, s.R(l.Product.NominalR),
			s.Inches(l.Product.ThicknessIn), s.Inches(l.WidthIn), s.Inches(l.LengthIn), bagWord(l.Facing), plural(l.PerPackage, "piece"), s.Area(l.PackageFt2)))
	}
	if len(o.Lines) > 0 {
		b.Sub("Another width, length, count or coverage: type it in (prices and labels) and the list is counted again. Another R or thickness: do not take it. Some labels count the studs into the coverage, ours here do not.")
	}
	return b
}
