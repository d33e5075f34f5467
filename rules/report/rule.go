package report

import (
	"strings"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/units"
)

// TermLines explain a trade word, or a rule by its id, for every glossary: head
// first, then what is said under it. They are empty when nothing is found; near
// is then the nearest word, if any.
func TermLines(c *catalog.Catalog, term string, s units.System) (entries []TermEntry, near string) {
	if r, ok := c.Book.Rule(term); ok {
		return []TermEntry{{"Rule " + r.ID + ": " + r.Title, []string{RuleText(c, r, s)}, fromText(c, r.Source, catalog.Known(r.Known))}}, ""
	}
	found, near := c.FindWord(term)
	for _, w := range found {
		entries = append(entries, TermEntry{w.Term, []string{w.Meaning.In(s), "Why it matters: " + w.Matters.In(s)}, fromText(c, w.Source, w.Known)})
	}
	return entries, near
}

// TermEntry is one entry of a glossary.
type TermEntry struct {
	Head  string
	Lines []string
	From  string // source and how well it is known
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
	return c.Book.Render(r, nil, func(f rules.Fact, v rules.Value) string {
		if f.Unit == rules.Written {
			return units.Figure(v.String(), s)
		}
		unit := "_" + strings.ReplaceAll(strings.ToLower(f.Unit), "/", "_")
		return "(" + strings.ReplaceAll(strings.TrimSuffix(f.Name, unit), "_", " ") + ")"
	})
}
