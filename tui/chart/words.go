package chart

import (
	"math"
	"strconv"
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

// plain writes a number for which the caller gave no text: whole from a
// hundred up, one decimal below when it has one.
func plain(v float64) string {
	a := math.Abs(v)
	switch {
	case !known(v):
		return noFigure
	case a >= 1e9:
		return strconv.FormatFloat(v, 'g', 3, 64)
	case a < 0.05:
		return "0" // never "-0" or "0.0"
	case a < 99.95:
		return strings.TrimSuffix(strconv.FormatFloat(v, 'f', 1, 64), ".0")
	}
	return thousands(strconv.FormatFloat(v, 'f', 0, 64))
}

func thousands(digits string) string {
	sign := ""
	if strings.HasPrefix(digits, "-") {
		sign, digits = "-", digits[1:]
	}
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return sign + digits
}

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
