package main

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/rules/strict"
)

func runWords(o options, e env) int {
	system := systemOf(o.system)
	c, err := e.loadCatalog(o.dataDir)
	if err != nil {
		return fail(e, err)
	}
	if len(o.files) == 0 {
		for _, w := range c.Words() {
			fmt.Fprintf(e.stdout, "%-26s %s\n", w.Term, firstSentence(w.Meaning.In(system)))
		}
		return exitDone
	}
	term := strings.Join(o.files, " ")
	found, near := pages.TermBlocks(c, term, system)
	if len(found) == 0 {
		clean, _ := strict.CleanText(term)
		clean = ansi.Truncate(clean, mostEchoed, "...")
		fmt.Fprintf(e.stderr, "battwright: no entry for %q", clean)
		if near != "" {
			fmt.Fprintf(e.stderr, "; did you mean %s?", near)
		}
		fmt.Fprintln(e.stderr)
		return exitInput
	}
	fmt.Fprint(e.stdout, print.Text(page.Page{Blocks: found}, 0))
	return exitDone
}

// mostEchoed is how much of a word that is not known is printed back, in cells.
const mostEchoed = 60

func firstSentence(s string) string {
	if i := strings.Index(s, ". "); i > 0 {
		return s[:i+1]
	}
	return s
}
