package pages

import (
	"fmt"

	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// AskBlocks is the asking sheet: what to ask stores and installers, with blanks
// for the answers.
func AskBlocks(o order.Order, p plan.Plan, opts Options) []page.Block {
	s := opts.System
	var out []page.Block
	inch := units.Prose("{in|mm}").In(s)
	top := page.Block{ID: "ask", Title: "Asking sheet"}
	beforeRows(&top, o)
	top.Say("Carry it to the store or read it on the phone. Then type what you heard under prices and labels, or as [[quote]] in the house file; the plan and the order are worked out again.")
	top.Blank("Store", "")
	top.Blank("Asked on, spoke to", "")
	out = append(out, top)
	for i, l := range o.Lines {
		b := page.Block{ID: "ask", Title: fmt.Sprintf("%d. %s", i+1, lineText(l, s))}
		b.Say("%s, %d with spare.", plural(l.Stock, l.Form)+" counted", l.WithSpare)
		if text := fireMark(l); text != "" {
			b.Loud("%s", text)
		}
		for _, q := range []struct{ text, unit string }{
			{"Price of a package, face included", "$"},
			{"Pieces in a package", ""},
			{"Width", inch},
			{"Length", inch},
			{"Thickness on the label", inch},
			{"R on the label", ""},
			{"Coverage on the label", units.Prose("{ft2|m2}").In(s)},
			{"Packages in stock, or weeks to wait", ""},
		} {
			b.Blank(q.text, q.unit)
		}
		b.Sub(`in the house file: product = "%s", facing = "%s"`, l.Product.ID, l.Facing)
		out = append(out, b)
	}
	out = append(out, askGoods(o, opts), askStore(), askInstaller(o, p, s))
	return page.Full(out)
}

// AskPage is the asking sheet to print, as wide as the paper: 78 columns, or 40
// for a telephone.
func AskPage(o order.Order, p plan.Plan, opts Options) page.Page {
	return page.Page{Title: "Asking sheet: " + houseName(p), Blocks: AskBlocks(o, p, opts)}
}

func askGoods(o order.Order, opts Options) page.Block {
	s := opts.System
	b := page.Block{ID: "ask", Title: "What goes with them"}
	for _, g := range o.Goods {
		b.Blank(goodsCount(g, opts.Catalog, s)+", "+g.Name, "$")
	}
	boardRows(&b, o)
	return b
}

func askStore() page.Block {
	b := page.Block{ID: "ask", Title: "Ask every store"}
	b.Blank("Delivery to the house", "$")
	b.Blank("Are closed packages taken back, until when", "")
	b.Blank("Less for the whole order", "$")
	b.Blank("How large is a package, how many fit a pickup", "")
	return b
}

// overOldText names what lies there already, empty where nothing does.
func overOldText(p plan.Place, s units.System) string {
	if p.Surface.ExistingR <= 0 {
		return ""
	}
	return "; the old " + s.R(p.Surface.ExistingR) + " lies there already"
}

// askInstaller is read on the phone: one line of what, then blanks.
func askInstaller(o order.Order, p plan.Plan, s units.System) page.Block {
	b := page.Block{ID: "ask", Title: "For installers, on the phone"}
	b.Say(`"We want blanket insulation put in our house. May I read you what and where?"`)
	for i, place := range o.Places {
		if place.Skipped != "" || i >= len(p.Places) || p.Places[i].Choice == nil {
			continue
		}
		pl := p.Places[i]
		b.Tick(page.Plain, fmt.Sprintf("%s: %s of %s, %s", place.Label, s.Area(place.AreaFt2), FrameText(pl, s), ProductText(pl.Choice.Assessed, s)+overOldText(pl, s)))
		if mind := pl.MindText(s); mind != "" {
			b.Sub("%s", mind)
		}
		b.Blank("Work and material", "$")
		b.Blank("Work alone", "$")
	}
	for _, q := range []string{
		"Company, license number", "Insured: whose policy, until when", "Who seals the gaps first", "Who brings the vapor sheet, supports, baffles",
		"No gaps, nothing squeezed (Grade I): who checks it", "Can you start on", "Days of work", "What is not in the price", "Will you give it in writing",
	} {
		b.Blank(q, "")
	}
	return b
}
