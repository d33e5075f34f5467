package pages

import (
	"battwright/rules/catalog"
	"battwright/rules/page"
	"battwright/rules/strict"
)

// clean and cleanAll are the gate for the forms without lines: nothing passes it
// that must not reach a terminal.
func clean(s string) string {
	s, _ = strict.CleanText(s)
	return s
}

func cleanAll(list []string) []string {
	out := make([]string, 0, len(list))
	for _, s := range list {
		out = append(out, clean(s))
	}
	return out
}

// cite names where a figure on a page is from, each source once.
func cite(d *page.Page, c *catalog.Catalog, r catalog.Ref) {
	if r.Source != "" {
		d.Cite(sourceText(c, r.Source))
	}
}
