package report

import (
	"strings"

	"battwright/rules/order"
	"battwright/rules/plan"
)

// OrderText writes the order for a terminal or a printer.
func OrderText(o order.Order, p plan.Plan, opts Options) string {
	return blocksText("ORDER: "+houseTitle(p), OrderBlocks(o, opts), opts)
}

// AskText writes the asking sheet, as wide as the paper: 78 columns, or 40 for
// a telephone.
func AskText(o order.Order, p plan.Plan, opts Options) string {
	return blocksText("ASKING SHEET: "+houseTitle(p), AskBlocks(o, p, opts), opts)
}

func houseTitle(p plan.Plan) string {
	if p.Name == "" {
		return "House without a name"
	}
	return p.Name
}

func blocksText(title string, blocks []OrderBlock, opts Options) string {
	t := &writer{width: opts.Width}
	if t.width <= 0 {
		t.width = textWidth
	}
	t.heading(strings.ToUpper(title), "=")
	for _, b := range blocks {
		t.heading(b.Title, "-")
		for _, r := range b.Rows {
			t.orderRow(r)
		}
	}
	return t.String()
}

func (t *writer) orderRow(r OrderRow) {
	const hang = "    "
	switch r.Tone {
	case OrderTick:
		for i, l := range Wrap(r.Text, t.width-len(hang)) {
			lead := hang
			if i == 0 {
				lead = "[ ] "
			}
			t.line(lead + l)
		}
	case OrderSub:
		for _, l := range Wrap(r.Text, t.width-len(hang)) {
			t.line(hang + l)
		}
	case OrderLoud:
		for i, l := range Wrap(r.Text, t.width-2) {
			lead := "  "
			if i == 0 {
				lead = "! "
			}
			t.line(lead + l)
		}
	case OrderBlank:
		for _, l := range BlankLine(r, t.width-2) {
			t.line("  " + l)
		}
	default:
		t.para(r.Text)
	}
}

// OrderMarkdown writes the order for a page that renders it.
func OrderMarkdown(o order.Order, p plan.Plan, opts Options) string {
	return blocksMarkdown("Order: "+houseTitle(p), OrderBlocks(o, opts))
}

// AskMarkdown writes the asking sheet for a page that renders it.
func AskMarkdown(o order.Order, p plan.Plan, opts Options) string {
	return blocksMarkdown("Asking sheet: "+houseTitle(p), AskBlocks(o, p, opts))
}

func blocksMarkdown(title string, blocks []OrderBlock) string {
	m := &markdown{}
	m.head(1, title)
	for _, b := range blocks {
		m.head(2, b.Title)
		for _, r := range b.Rows {
			text := mdText(r.Text)
			switch r.Tone {
			case OrderTick:
				m.put("- [ ] " + text)
			case OrderSub:
				m.put("  - " + text)
			case OrderLoud:
				m.put("- **" + text + "**")
			case OrderBlank:
				unit := r.Unit
				if unit != "" {
					unit += " "
				}
				m.put("- " + text + ": " + unit + mdText(strings.Repeat("_", 16)))
			default:
				m.put("- " + text)
			}
		}
	}
	return m.b.String()
}
