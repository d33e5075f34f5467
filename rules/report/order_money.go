package report

import (
	"fmt"
	"math"
	"strings"

	"battwright/rules/order"
	"battwright/rules/units"
)

// moneyBlock is what the order costs, place by place.
func moneyBlock(o order.Order, opts Options) OrderBlock {
	s := opts.System
	b := OrderBlock{ID: "money", Title: "Money and hours"}
	for _, p := range o.Places {
		if p.Skipped != "" || p.Problem != "" {
			continue
		}
		b.add(OrderPlain, "%s: %s; %s", p.Label, threeText(p.Money.Total, s), workText(p))
		b.add(OrderSub, "%s", partsText(p.Money, s))
	}
	if len(b.Rows) == 0 {
		return b
	}
	m := o.Money
	b.add(OrderPlain, "ALL: %s", threeText(m.Total, s))
	b.add(OrderSub, "%s", partsText(m.PlaceMoney, s))
	if left := m.Without; len(left) > 0 {
		b.add(OrderLoud, "NOT IN IT: %s", strings.Join(left, "; "))
	}
	b.add(OrderPlain, "Whole packages, the spare and all that goes with the blankets are in it, so it is more than area times price.")
	b.add(OrderPlain, "%s", OrderPriceText(o, s))
	if m.HasBudget {
		b.add(OrderPlain, "%s", orderBudgetText(m, s))
	}
	return b
}

// threeText is low, typical, high.
func threeText(r units.Range[units.Cents], s units.System) string {
	if r.Low == r.High {
		return s.Money(r.Typical)
	}
	return fmt.Sprintf("%s low, %s typical, %s high", s.Money(r.Low), s.Money(r.Typical), s.Money(r.High))
}

func partsText(m order.PlaceMoney, s units.System) string {
	var parts []string
	for _, x := range []struct {
		name string
		r    units.Range[units.Cents]
	}{{"blankets", m.Blankets}, {"what goes with them", m.Extras}, {"gear", m.Gear}, {"work", m.Labour}} {
		if x.r.High > 0 {
			parts = append(parts, x.name+" "+s.MoneyRange(x.r))
		}
	}
	return strings.Join(parts, ", ")
}

func workText(p order.Place) string {
	low, high := math.Ceil(p.Hours.Low), math.Ceil(p.Hours.High)
	hours := fmt.Sprintf("%.0f to %.0f hours", low, high)
	if low == high {
		hours = fmt.Sprintf("about %.0f hours", high)
		if high == 1 {
			hours = "about an hour"
		}
	}
	if p.Self {
		return hours + " of your own, a first-timer's pace"
	}
	return hours + " of an installer"
}

// OrderPriceText says whose prices these are and what may be said of them.
// Odds are given only where the builder's own prices carry the bigger half.
func OrderPriceText(o order.Order, s units.System) string {
	m := o.Money
	var out []string
	if m.Quoted > 0 || m.QuotedShare > 0 {
		out = append(out, QuotedText(m.Quoted, m.Priced))
	}
	if m.Year > 0 {
		out = append(out, fmt.Sprintf("Rough prices are of %d (%s) and can be off by a third.", m.Year, KnownText(m.Known)))
	}
	switch {
	case m.Enough != nil:
		low, high := min(m.Enough.Independent, m.Enough.Together), max(m.Enough.Independent, m.Enough.Together)
		out = append(out, fmt.Sprintf("%s is enough 9 times in 10, as far as these ranges hold.", s.MoneyRange(units.Range[units.Cents]{Low: low, Typical: low, High: high})))
	default:
		out = append(out, "No odds before your own prices make up the bigger half of the money: carry the asking sheet to the store.")
	}
	return strings.Join(out, " ")
}

func orderBudgetText(m order.Money, s units.System) string {
	text := fmt.Sprintf("Your budget is %s: ", s.Money(m.Budget))
	switch {
	case m.Odds != nil:
		low, high := min(m.Odds.Independent, m.Odds.Together), max(m.Odds.Independent, m.Odds.Together)
		return text + "it holds in " + casesText(low, high) + ", as far as these ranges hold."
	case m.Budget >= m.Total.High:
		return text + "it holds even at the high prices, without what has no price here."
	case m.Budget < m.Total.Low:
		return text + fmt.Sprintf("it does not hold, not even at the low prices; %s are missing at the typical ones.", s.Money(m.Total.Typical-m.Budget))
	case m.Budget < m.Total.Typical:
		return text + fmt.Sprintf("it may not hold; %s are missing at the typical prices.", s.Money(m.Total.Typical-m.Budget))
	}
	return text + "it holds at the typical prices, not at the high ones."
}

// casesText gives two odds as cases of a hundred, never more certain than 99.
func casesText(low, high float64) string {
	of := func(share float64) int { return int(math.Floor(100*share + 1e-9)) }
	switch a, b := of(low), of(high); {
	case a >= 99:
		return "nearly all cases"
	case b < 1:
		return "hardly any case"
	case a == b:
		return fmt.Sprintf("about %d of 100 cases", a)
	default:
		return fmt.Sprintf("%d to %d of 100 cases", a, min(b, 99))
	}
}
