package pages

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
	quoted, part, all := 0, 0, 0
	for _, place := range p.Places {
		if place.Choice == nil {
			continue
		}
		all++
		switch m := place.Choice.Money; {
		case m.AllQuoted(len(place.Choice.Layers)):
			quoted++
		case m.Quoted > 0:
			part++
		}
	}
	switch text := QuotedText(quoted, part, all); {
	case text == "":
		return "Rough prices, area times a price range; each price can be off by a third."
	case quoted == all:
		return text + " What goes with the blankets is at rough prices."
	default:
		return text + " The rest is area times a rough price; each can be off by a third."
	}
}

// QuotedText is the effect of what came back from the stores: in how many
// places the builder's prices replace ours, and in how many for some of the
// blankets. Empty when they do nowhere.
func QuotedText(quoted, part, all int) string {
	switch {
	case quoted > 0 && part > 0:
		return fmt.Sprintf("Your prices replace ours in %d of %d places, and for part of the blankets in %d more.", quoted, all, part)
	case quoted > 0:
		return fmt.Sprintf("Your prices replace ours in %d of %d places.", quoted, all)
	case part > 0:
		return fmt.Sprintf("Your prices replace ours for part of the blankets in %d of %d places.", part, all)
	}
	return ""
}
