package pages

import (
	"fmt"
	"strings"

	"battwright/rules/plan"
	"battwright/rules/units"
)

// NoChange says that an edit changed nothing.
const NoChange = "No place changes."

// ChangeText says in one line what an edit changed: "Street wall: fiberglass
// -> mineral wool, about $140 more". Nothing changed is said too.
func ChangeText(changes []plan.Change, s units.System) string {
	if len(changes) == 0 {
		return NoChange
	}
	added := 0
	for _, c := range changes {
		if c.Added {
			added++
		}
	}
	if added > 1 && added == len(changes) {
		return fmt.Sprintf("%d places added.", added)
	}
	parts := make([]string, len(changes))
	for i, c := range changes {
		parts[i] = oneChange(c, s)
	}
	text := strings.Join(parts, "; ")
	if len(changes) > 2 {
		text = fmt.Sprintf("%d places change: %s", len(changes), text)
	}
	return text
}

func oneChange(c plan.Change, s units.System) string {
	name := func(m string) string {
		if m == "" {
			return "no blanket"
		}
		return m
	}
	switch {
	case c.Added:
		return c.Label + ": new, " + name(c.To)
	case c.Removed:
		return c.Label + ": removed"
	}
	var parts []string
	switch {
	case c.From != c.To:
		parts = append(parts, name(c.From)+" -> "+name(c.To)+costDelta(c.Cost, s))
	case c.Product:
		parts = append(parts, "a different "+c.To+" blanket"+costDelta(c.Cost, s))
	case c.Cost != 0 || c.First == plan.WaitsAlike && c.Board[0] == c.Board[1]:
		parts = append(parts, strings.TrimPrefix(costDelta(c.Cost, s), ", "))
	}
	if c.Board[0] != c.Board[1] {
		parts = append(parts, boardName(c.Board[0], s)+" -> "+boardName(c.Board[1], s)+" to buy")
	}
	if text := firstChanged[c.First]; text != "" {
		parts = append(parts, text)
	}
	return c.Label + ": " + strings.Join(parts, ", ")
}

func boardName(r float64, s units.System) string {
	if r <= 0 {
		return "no board"
	}
	return s.R(r) + " board"
}

// firstChanged says how what comes first at a place has changed.
var firstChanged = map[plan.Waiting]string{
	plan.Halts: "STOP, nobody works there now", plan.WaitsOtherwise: "something else to find out or settle first", plan.WaitsLess: "less to find out or settle first",
}

func costDelta(c units.Cents, s units.System) string {
	switch {
	case c > 0:
		return ", about " + s.MoneyAbout(c) + " more"
	case c < 0:
		return ", about " + s.MoneyAbout(-c) + " less"
	}
	return ", same price"
}
