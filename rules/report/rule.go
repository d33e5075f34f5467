package report

import (
	"strings"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/units"
)

// RuleText is the reason of a rule as it stands in the book, of no house: its
// own figures in a system of units, and the name of each fact in its place.
func RuleText(c *catalog.Catalog, r *rules.Rule, s units.System) string {
	return c.Book.Render(r, nil, func(f rules.Fact, v rules.Value) string {
		if f.Unit == rules.Written {
			return units.Figure(v.String(), s)
		}
		unit := "_" + strings.ReplaceAll(strings.ToLower(f.Unit), "/", "_")
		return "(" + strings.ReplaceAll(strings.TrimSuffix(f.Name, unit), "_", " ") + ")"
	})
}
