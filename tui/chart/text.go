package chart

import (
	"strings"
	"unicode/utf8"

	"battwright/rules/print"
)

// clean makes a text safe to place in a line: one line, single spaces, nothing
// that a terminal obeys.
func clean(s string) string { return strings.Join(strings.Fields(print.Clean(s)), " ") }

// columns is the room a text takes: all our own words are one a rune.
func columns(s string) int { return utf8.RuneCountInString(s) }

// wrap breaks a text at its spaces; a longer word is split. There is always one
// line.
func wrap(s string, cells int) []string { return print.Wrap(clean(s), cells) }

// hang wraps a text with the lines after the first set in.
func hang(s string, cells int) []string {
	lines := wrap(s, cells-2)
	for i := 1; i < len(lines); i++ {
		lines[i] = "  " + lines[i]
	}
	return lines
}

func padRight(s string, cells int) string { return s + blank(cells-columns(s)) }

func padLeft(s string, cells int) string { return blank(cells-columns(s)) + s }

func blank(cells int) string { return strings.Repeat(" ", max(cells, 0)) }

func widest(texts []string) int {
	w := 0
	for _, t := range texts {
		w = max(w, columns(t))
	}
	return w
}
