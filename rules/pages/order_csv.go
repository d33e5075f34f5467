package pages

import (
	"fmt"
	"strings"

	"battwright/rules/bill"
	"battwright/rules/order"
	"battwright/rules/units"
)

// OrderCSV writes one row for each thing to buy.
func OrderCSV(o order.Order, opts Options) (string, error) {
	rows := [][]string{{"what", "item", "r", "facing", "width_in", "length_in", "pieces", "spare", "pieces_per_package", "packages", "have", "buy", "unit", "places", "low_usd", "typical_usd", "high_usd", "price", "note"}}
	for _, p := range o.Places { // first, as in the list that is read
		for _, text := range firstTexts(p) {
			rows = append(rows, csvOf("find out first", p, text))
		}
		if text := mindText(p); text != "" {
			rows = append(rows, csvOf("mind", p, text))
		}
		if text := dampBeforeBuying(p); text != "" {
			rows = append(rows, csvOf("damp", p, text))
		}
		if p.Differ != "" {
			rows = append(rows, csvOf("sizes disagree", p, p.Differ))
		}
		for _, text := range p.Board {
			rows = append(rows, csvOf("board", p, text))
		}
	}
	for _, text := range o.First {
		rows = append(rows, csvOf("find out first", order.Place{Place: bill.Place{Label: "the whole house"}}, text))
	}
	if o.InPlace != "" {
		rows = append(rows, csvOf("in place", order.Place{Place: bill.Place{Label: "the whole house"}}, o.InPlace))
	}
	for _, l := range o.Lines {
		note, price := "", fmt.Sprintf("rough %d", l.Year)
		if !l.Label {
			note = "usual package, the label decides"
		}
		if text := fireMark(l); text != "" {
			note = strings.Trim(note+"; "+text, "; ")
		}
		if text := onlyIf(l); text != "" {
			note = strings.Trim(note+"; "+text, "; ")
		}
		if l.Quoted {
			price = "own"
		}
		rows = append(rows, append(append([]string{
			"blanket", l.Material.Name, fmt.Sprintf("%g", l.Product.NominalR), FaceWord(l.Facing), fmt.Sprintf("%g", l.WidthIn), fmt.Sprintf("%g", l.LengthIn),
			fmt.Sprint(l.Stock), fmt.Sprint(l.Spare), fmt.Sprint(l.PerPackage), fmt.Sprint(l.Packages), fmt.Sprint(l.Have), fmt.Sprint(l.Buy), "package", strings.Join(l.Places, "; "),
		}, usdCells(l.Cost)...), price, note))
	}
	for _, list := range [][]bill.Goods{o.Goods, o.Gear} {
		for _, g := range list {
			rows = append(rows, csvGoods(g))
		}
	}
	for _, p := range o.Places {
		if why := p.Skipped + p.Problem; why != "" {
			rows = append(rows, csvOf("not counted", p, why))
		} else if p.NotMeasured() {
			rows = append(rows, csvOf("not measured", p, strings.Join(p.Assumed, ", ")))
		}
	}
	if o.Money.Labour.High > 0 {
		rows = append(rows, csvSum("work", o.Money.Labour, ""))
	}
	rows = append(rows, csvSum("all together", o.Money.Total, "what has no price is not in it"))
	return csvText(rows)
}

// csvOf is a row about a place of which nothing is bought by it.
func csvOf(what string, p order.Place, note string) []string {
	row := append([]string{what, p.Label}, make([]string, 11)...)
	return append(row, p.Label, "", "", "", "", note)
}

// csvSum is a sum over the whole order, so that nobody adds up a part of it.
func csvSum(what string, sum units.Range[units.Cents], note string) []string {
	row := append([]string{what}, make([]string, 13)...)
	return append(append(row, usdCells(sum)...), "", note)
}

func csvGoods(g bill.Goods) []string {
	what, price := "with it", ""
	cost := []string{"", "", ""}
	switch {
	case g.Quote:
		what, price = "get a quote", "none"
	case g.Priced:
		cost, price = usdCells(g.Cost), fmt.Sprintf("rough %d", g.Year)
	}
	if g.Places == nil {
		what = "gear"
	}
	row := append([]string{what, g.Name}, make([]string, 9)...)
	row = append(row, fmt.Sprint(g.Count), g.Unit, strings.Join(g.Places, "; "))
	return append(append(row, cost...), price, g.Note)
}

func usdCells(r units.Range[units.Cents]) []string {
	return []string{fmt.Sprintf("%.2f", r.Low.Dollars()), fmt.Sprintf("%.2f", r.Typical.Dollars()), fmt.Sprintf("%.2f", r.High.Dollars())}
}
