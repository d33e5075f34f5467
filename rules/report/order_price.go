package report

import (
	"fmt"

	"battwright/rules/plan"
)

// priceBasis says whose prices a place was worked out with.
func priceBasis(quoted, layers int) string {
	switch {
	case quoted == 0:
		return "rough: no store price typed yet"
	case quoted < layers:
		return "your price for one of its blankets, ours for the rest"
	}
	return "at your own price"
}

// priceNote says in how many places the builder's prices replace ours.
func priceNote(p plan.Plan) string {
	quoted, all := 0, 0
	for _, place := range p.Places {
		if place.Choice == nil {
			continue
		}
		all++
		if place.Choice.Money.AllQuoted(len(place.Choice.Layers)) {
			quoted++
		}
	}
	if quoted == 0 {
		return "Rough prices, area times a price range; can be off by a third."
	}
	if quoted == all {
		return QuotedText(quoted, all) + " What goes with the blankets is at rough prices."
	}
	return QuotedText(quoted, all) + " The rest is area times a rough price, and can be off by a third."
}

// QuotedText is the effect of what came back from the stores.
func QuotedText(quoted, all int) string {
	return fmt.Sprintf("Your prices replace ours in %d of %d places.", quoted, all)
}
