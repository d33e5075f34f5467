package pages

import (
	"fmt"
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
