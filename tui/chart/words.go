package chart

import (
	"math"
	"strings"
)

var monthNames = [12]string{
	"January", "February", "March", "April", "May", "June", "July",
	"August", "September", "October", "November", "December",
}

// known reports whether a number can be drawn at all.
func known(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

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
