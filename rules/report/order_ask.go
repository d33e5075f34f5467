package report

import (
	"fmt"
	"strings"

	"battwright/rules/order"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// AskBlocks is the asking sheet: what to ask stores and installers, with blanks
// for the answers.
func AskBlocks(o order.Order, p plan.Plan, opts Options) []OrderBlock {
	s := opts.System
	var out []OrderBlock
	inch := units.Prose("{in|mm}").In(s)
	top := OrderBlock{ID: "ask", Title: "Asking sheet"}
	top.before(o)
	top.add(OrderPlain, "Carry it to the store or read it on the phone. Then type what you heard under prices and labels, or as [[quote]] in the house file; the plan and the order are worked out again.")
	top.blank("Store", "")
	top.blank("Asked on, spoke to", "")
	out = append(out, top)
	for i, l := range o.Lines {
		b := OrderBlock{ID: "ask", Title: fmt.Sprintf("%d. %s", i+1, lineText(l, s))}
		b.add(OrderPlain, "%s, %d with spare.", plural(l.Stock, l.Form)+" counted", l.WithSpare)
		if text := fireMark(l); text != "" {
			b.add(OrderLoud, "%s", text)
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
			b.blank(q.text, q.unit)
		}
		b.Rows = append(b.Rows, OrderRow{Tone: OrderSub, Text: fmt.Sprintf(`in the house file: product = "%s", facing = "%s"`, l.Product.ID, l.Facing)})
		out = append(out, b)
	}
	out = append(out, askGoods(o, opts), askStore(), askInstaller(o, p, s))
	var full []OrderBlock
	for _, b := range out {
		if len(b.Rows) > 0 {
			full = append(full, b)
		}
	}
	return full
}

func (b *OrderBlock) blank(text, unit string) {
	b.Rows = append(b.Rows, OrderRow{Tone: OrderBlank, Text: text, Unit: unit})
}

func askGoods(o order.Order, opts Options) OrderBlock {
	s := opts.System
	b := OrderBlock{ID: "ask", Title: "What goes with them"}
	for _, g := range o.Goods {
		b.blank(goodsCount(g, opts.Catalog, s)+", "+g.Name, "$")
	}
	b.boards(o)
	return b
}

func askStore() OrderBlock {
	b := OrderBlock{ID: "ask", Title: "Ask every store"}
	b.blank("Delivery to the house", "$")
	b.blank("Are closed packages taken back, until when", "")
	b.blank("Less for the whole order", "$")
	b.blank("How large is a package, how many fit a pickup", "")
	return b
}

// askInstaller is read on the phone: one line of what, then blanks.
func askInstaller(o order.Order, p plan.Plan, s units.System) OrderBlock {
	b := OrderBlock{ID: "ask", Title: "For installers, on the phone"}
	b.add(OrderPlain, `"We are building a house and want blanket insulation put in. May I read you what and where?"`)
	for i, place := range o.Places {
		if place.Skipped != "" || i >= len(p.Places) || p.Places[i].Choice == nil {
			continue
		}
		pl := p.Places[i]
		b.add(OrderTick, "%s: %s of %s, %s", place.Label, s.Area(place.AreaFt2), FrameText(pl, s), ProductText(pl.Choice.Assessed, s))
		b.blank("Work and material", "$")
		b.blank("Work alone", "$")
	}
	for _, q := range []string{
		"Company, license number", "Insured: whose policy, until when", "Who seals the gaps first", "Who brings the vapor sheet, supports, baffles",
		"No gaps, nothing squeezed (Grade I): who checks it", "Can you start on", "Days of work", "What is not in the price", "Will you give it in writing",
	} {
		b.blank(q, "")
	}
	return b
}

// BlankLine is a blank to write on, filling the width.
func BlankLine(r OrderRow, width int) []string {
	lead, tail := "", ""
	switch r.Unit {
	case "":
	case "$":
		lead = "$ "
	default:
		tail = " " + r.Unit
	}
	const least = 10
	text := Wrap(r.Text, width)
	last := text[len(text)-1]
	room := width - len([]rune(last)) - len(lead) - len(tail) - 1
	if room < least {
		text = append(text, "")
		last, room = "", width-len(lead)-len(tail)
	} else {
		last += " "
	}
	text[len(text)-1] = last + lead + strings.Repeat("_", max(1, room)) + tail
	return text
}
