package pages

import (
	"strings"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/page"
	"battwright/rules/units"
)

// TermBlocks explain a trade word, or a rule by its id, for every glossary. They
// are empty when nothing is found; near is then the nearest word, if any.
func TermBlocks(c *catalog.Catalog, term string, s units.System) (entries []page.Block, near string) {
	entry := func(title, from string, lines ...string) {
		b := page.Block{Title: title}
		for _, l := range lines {
			b.Say("%s", l)
		}
		b.Add(page.Row{Tone: page.Quiet, Text: from})
		entries = append(entries, b)
	}
	if r, ok := c.Book().Rule(term); ok {
		entry("Rule "+r.ID+": "+r.Title, fromText(c, r.Source, catalog.Known(r.Known)), RuleText(c, r, s))
		return entries, ""
	}
	found, near := c.FindWord(term)
	for _, w := range found {
		entry(w.Term, fromText(c, w.Source, w.Known), w.Meaning.In(s), "Why it matters: "+w.Matters.In(s))
	}
	return entries, near
}

func fromText(c *catalog.Catalog, source string, known catalog.Known) string {
	if s, ok := c.Source(source); ok {
		source = s.Title
	}
	return "From: " + source + " [" + KnownText(known) + "]"
}

// RuleText is the reason of a rule as it stands in the book, of no house: its
// own figures in a system of units, and the name of each fact in its place.
func RuleText(c *catalog.Catalog, r *rules.Rule, s units.System) string {
	return c.Book().Render(r, nil, func(f rules.Fact, v rules.Value) string {
		if f.Unit == rules.Written {
			return units.Figure(v.String(), s)
		}
		unit := "_" + strings.ReplaceAll(strings.ToLower(f.Unit), "/", "_")
		return "(" + strings.ReplaceAll(strings.TrimSuffix(f.Name, unit), "_", " ") + ")"
	})
}
