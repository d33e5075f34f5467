package chart

import (
	"math"
	"strings"
)

// noFigure stands in place of a number that could not be computed.
const noFigure = "no figure"

var monthNames = [12]string{
	"January", "February", "March", "April", "May", "June", "July",
	"August", "September", "October", "November", "December",
}

// known reports whether a number can be drawn at all.
func known(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// list joins words the way they are spoken: "a", "a and b", "a, b and c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// aside puts facts in brackets behind a name, leaving out empty ones. The full
// stop of a note is dropped: it would end the sentence in the middle.
func aside(name string, facts ...string) string {
	said := make([]string, len(facts))
	for i, f := range facts {
		said[i] = unstop(clean(f))
	}
	if said = present(said...); len(said) == 0 {
		return clean(name)
	}
	return strings.TrimSpace(clean(name) + " (" + strings.Join(said, "; ") + ")")
}

// present leaves out empty texts.
func present(texts ...string) []string {
	var kept []string
	for _, t := range texts {
		if t != "" {
			kept = append(kept, t)
		}
	}
	return kept
}

func unstop(s string) string { return strings.TrimRight(s, ". ") }
