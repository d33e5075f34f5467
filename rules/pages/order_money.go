package pages

import (
	"fmt"
	"math"
	"strings"

	"battwright/rules/bill"
	"battwright/rules/catalog"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/units"
)

// moneyBlock is what the order costs, place by place.
func moneyBlock(o order.Order, opts Options) page.Block {
	s := opts.System
	b := page.Block{ID: "money", Title: "Money and hours"}
	for _, p := range o.Places {
		if p.Skipped != "" || p.Problem != "" {
			continue
		}
		b.Say("%s: %s; %s", p.Label, threeText(p.Money.Total, s), workText(p))
		b.Sub("%s", partsText(p.Money, s))
	}
	if len(b.Rows) == 0 {
		return b
	}
	m := o.Money
	b.Say("ALL: about %s", threeText(m.Total, s))
	b.Sub("%s", partsText(m.PlaceMoney, s))
	if left := m.Without; len(left) > 0 {
		b.Loud("NOT IN IT: %s", strings.Join(left, "; "))
	}
	b.Say("Whole packages, the spare and all that goes with the blankets are in it. Amounts are rounded: they add up to about the sum.")
	b.Say("%s", OrderPriceText(m, s))
	if m.HasBudget {
		b.Say("%s", holdsText(m, s))
	}
	return b
}

// threeText is low, typical, high.
func threeText(r units.Range[units.Cents], s units.System) string {
	if r.Low == r.High {
		return s.Money(r.Typical)
	}
	return fmt.Sprintf("%s low, %s typical, %s high", s.MoneyOf(r.Low, r), s.MoneyOf(r.Typical, r), s.MoneyOf(r.High, r))
}

func partsText(m bill.PlaceMoney, s units.System) string {
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

// workText says how long a place takes. The handover says the same of those who
// do it themselves.
func workText(p order.Place) string {
	if p.Self {
		const n = catalog.EffortPeople
		return "two people, " + units.HoursText(p.Hours.Low/n, p.Hours.High/n) + " at a first-timer's pace"
	}
	return units.HoursText(p.Hours.Low, p.Hours.High) + " of an installer"
}

// priceText says whose prices these are.
func priceText(m bill.Money) string {
	var out []string
	if text := QuotedText(m.Quoted, m.PartQuoted, m.Priced); text != "" {
		out = append(out, text)
	}
	if m.Year > 0 {
		out = append(out, fmt.Sprintf("Rough prices are of %d (%s); each can be off by a third.", m.Year, KnownText(m.Known)))
	}
	return strings.Join(out, " ")
}

// OrderPriceText says whose prices these are and what may be said of them.
// Odds are given only where the builder's own prices carry the bigger half.
func OrderPriceText(m bill.Money, s units.System) string {
	if m.Enough == nil {
		return strings.TrimLeft(priceText(m)+" No odds before your own prices make up the bigger half of the money: carry the asking sheet to the store.", " ")
	}
	low, high := s.MoneyOf(min(m.Enough.Independent, m.Enough.Together), m.Total), s.MoneyOf(max(m.Enough.Independent, m.Enough.Together), m.Total)
	if low != high {
		low += " to " + high
	}
	return strings.TrimLeft(priceText(m)+" "+low+" is enough 9 times in 10, as far as these ranges hold.", " ")
}

func holdsText(m bill.Money, s units.System) string {
	text := fmt.Sprintf("Your budget is %s: ", s.Money(m.Budget))
	short := "at the typical prices all of it is spent, or a little more"
	if gap := units.MoneyGap(m.Total.Typical-m.Budget, m.Total); gap > 0 {
		short = "at the typical prices it falls about " + s.Money(gap) + " short"
	}
	without := ""
	if len(m.Without) > 0 {
		without = ", and what has no price here comes on top"
	}
	switch {
	case m.Odds != nil:
		low, high := min(m.Odds.Independent, m.Odds.Together), max(m.Odds.Independent, m.Odds.Together)
		return text + "it holds in " + casesText(low, high) + ", as far as these ranges hold" + without + "."
	case m.Budget < m.Total.Low:
		return text + "it does not hold, not even at the low prices; " + short + without + "."
	case m.Budget < m.Total.Typical:
		return text + "it does not hold unless most prices turn out low; " + short + without + "."
	case m.Budget < m.Total.High:
		return text + "it may hold. It does at the typical prices, not at the high ones" + without + "."
	}
	if without != "" {
		return text + "it may hold. It does even at the high prices" + without + "."
	}
	return text + "it holds even at the high prices."
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
