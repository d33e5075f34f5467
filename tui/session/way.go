package session

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"battwright/rules/house"
)

// toOrder is the way to an order; the rough look is not written.
const toOrder = "ready to order"

// KeptWay is how a house is asked about, as the kept answers hold it: nothing for
// the rough look, else the way to an order with the places led through.
func KeptWay(rough bool, sized map[string]bool) string {
	if rough {
		return ""
	}
	out := house.WayMark + toOrder + "\n"
	for _, id := range slices.Sorted(maps.Keys(sized)) {
		out += house.WayMark + strconv.Quote(id) + "\n"
	}
	return out
}

// WayOf takes it out of kept answers.
func WayOf(kept string) (rough bool, sized map[string]bool) {
	rough, sized = true, map[string]bool{}
	for l := range strings.Lines(kept) {
		what, ok := strings.CutPrefix(strings.TrimSpace(l), house.WayMark)
		switch id, err := strconv.Unquote(what); {
		case !ok:
		case what == toOrder:
			rough = false
		case err == nil:
			sized[id] = true
		}
	}
	return rough, sized
}

// WithoutWay is the rest of kept answers, which a house file may hold.
func WithoutWay(kept string) string {
	var out strings.Builder
	for l := range strings.Lines(kept) {
		if !strings.HasPrefix(l, house.WayMark) && !strings.HasPrefix(l, house.BeganMark) {
			out.WriteString(l)
		}
	}
	return out.String()
}
