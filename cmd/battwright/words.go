package main

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/report"
	"battwright/rules/strict"
	"battwright/rules/units"
)

func runWords(args []string, e env) int {
	var o openFlags
	f := newFlags("words")
	o.declare(f)
	terms, err := parseFlags(f, args)
	if err != nil {
		return flagProblem(e, "words", err)
	}
	if problem := o.wrongUnits(); problem != "" {
		return usage(e, "%s", problem)
	}
	system := systemOf(o.system)
	c, err := loadCatalog(o.dataDir)
	if err != nil {
		return fail(e, err)
	}
	if len(terms) == 0 {
		for _, w := range c.Words {
			fmt.Fprintf(e.stdout, "%-26s %s\n", w.Term, firstSentence(w.Meaning.In(system)))
		}
		return exitDone
	}
	term := strings.Join(terms, " ")
	if r, ok := c.Book.Rule(term); ok {
		printRule(r, c, system, e)
		return exitDone
	}
	found, near := c.FindWord(term)
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
	for i, w := range found {
		if i > 0 {
			fmt.Fprintln(e.stdout)
		}
		printWord(w, c, system, e)
	}
	return exitDone
}

// mostEchoed is how much of a word that is not known is printed back, in cells.
const mostEchoed = 60

func printWord(w catalog.Word, c *catalog.Catalog, s units.System, e env) {
	fmt.Fprintln(e.stdout, w.Term)
	for _, part := range []string{w.Meaning.In(s), "Why it matters: " + w.Matters.In(s)} {
		for _, line := range report.Wrap(part, 74) {
			fmt.Fprintln(e.stdout, "  "+line)
		}
	}
	title := w.Source
	if s, ok := c.Source(w.Source); ok {
		title = s.Title
	}
	printFrom(title, w.Known, e)
}

// printRule shows a rule of the book by its id, with where it is from.
func printRule(r *rules.Rule, c *catalog.Catalog, s units.System, e env) {
	fmt.Fprintf(e.stdout, "Rule %s: %s\n", r.ID, r.Title)
	for _, line := range report.Wrap(report.RuleText(c, r, s), 74) {
		fmt.Fprintln(e.stdout, "  "+line)
	}
	title := r.Source
	if s, ok := c.Source(r.Source); ok {
		title = s.Title
	}
	printFrom(title, catalog.Known(r.Known), e)
}

func printFrom(title string, known catalog.Known, e env) {
	for _, line := range report.Wrap(fmt.Sprintf("From: %s [%s]", title, report.KnownText(known)), 74) {
		fmt.Fprintln(e.stdout, "  "+line)
	}
}

func firstSentence(s string) string {
	if i := strings.Index(s, ". "); i > 0 {
		return s[:i+1]
	}
	return s
}
