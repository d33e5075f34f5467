// Package print sets pages as plain text of any width and as Markdown.
package print

import (
	"strings"

	"battwright/rules/strict"
)

// usualWidth is that of a printed page.
const usualWidth = 78

// Clean takes out what must not reach a terminal.
func Clean(s string) string {
	s, _ = strict.CleanText(s)
	return s
}

// Wrap breaks a text into lines of at most width runes, at spaces where it
// can. All our own words are one column a rune; names from files are cleaned
// before they are shown.
func Wrap(s string, width int) []string {
	if width < 1 {
		width = 1
	}
	var lines []string
	var cur []rune
	flush := func() { lines, cur = append(lines, string(cur)), nil }
	for _, word := range strings.Fields(s) {
		w := []rune(word)
		for len(w) > width {
			if len(cur) > 0 {
				flush()
			}
			lines, w = append(lines, string(w[:width])), w[width:]
		}
		switch {
		case len(cur) == 0:
			cur = append(cur, w...)
		case len(cur)+1+len(w) <= width:
			cur = append(append(cur, ' '), w...)
		default:
			flush()
			cur = append(cur, w...)
		}
	}
	if len(cur) > 0 || len(lines) == 0 {
		flush()
	}
	return lines
}

// Pad fills a text with spaces up to a width in runes.
func Pad(s string, width int) string {
	if n := width - len([]rune(s)); n > 0 {
		return s + strings.Repeat(" ", n)
	}
	return s
}

// BlankLine is a blank to write on, filling the width: "Width ______ in".
func BlankLine(text, unit string, width int) []string {
	lead, tail := "", ""
	switch unit {
	case "":
	case "$":
		lead = "$ "
	default:
		tail = " " + unit
	}
	const least = 10
	lines := Wrap(text, width)
	last := lines[len(lines)-1]
	room := width - len([]rune(last)) - len(lead) - len(tail) - 1
	if room < least {
		lines = append(lines, "")
		last, room = "", width-len(lead)-len(tail)
	} else {
		last += " "
	}
	lines[len(lines)-1] = last + lead + strings.Repeat("_", max(1, room)) + tail
	return lines
}
