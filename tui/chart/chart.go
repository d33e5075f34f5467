// Package chart draws numbers as lines of text for a terminal: the
// layers of a wall, the months of a year, a table.
//
// Every drawing is pure: the same input gives the same lines. There is no
// colour anywhere, so that nothing can depend on it, and each drawing carries
// a sentence that says the same thing for someone who hears the screen
// instead of seeing it.
//
// Numbers arrive in the unit in which they are shown. Where a text can be
// passed beside a number (SectionLayer.TempText, MonthsOpts.LimitText)
// it is the caller who decides on units and rounding.
package chart

import "strings"

// MinWidth and MaxWidth bound the width of a drawing in terminal columns.
// Outside the bounds the nearer one is used: below 20 there is no room for a
// word beside a figure, and lines above 200 cannot be followed by eye.
const (
	MinWidth = 20
	MaxWidth = 200
)

// nothing is what a drawing without input says; silence would look like a
// fault to someone who cannot see that the space is empty.
const nothing = "Nothing to show."

// Drawing is a picture made of text and the sentence that replaces it. No line
// is wider than the width asked for or ends in a space.
type Drawing struct {
	Lines    []string
	Sentence string
}

// Pen holds the signs of a drawing. The zero Pen draws in ASCII.
type Pen struct {
	Glyphs Glyphs
}

// ready fills in what was left out.
func (p Pen) ready() Pen {
	if p.Glyphs == (Glyphs{}) {
		p.Glyphs = ASCII()
	}
	return p
}

// finish turns lines into a drawing. The cut is a last defense where the least
// that a part needs is more than there is room for.
func finish(cells int, lines []string, sentence string) Drawing {
	d := Drawing{Lines: make([]string, 0, len(lines)), Sentence: sentence}
	for _, l := range lines {
		if r := []rune(l); len(r) > cells {
			l = string(r[:cells])
		}
		d.Lines = append(d.Lines, strings.TrimRight(l, " "))
	}
	return d
}

// empty is the drawing of no input at all.
func empty(cells int) Drawing { return finish(cells, wrap(nothing, cells), nothing) }

func clampWidth(width int) int {
	return min(max(width, MinWidth), MaxWidth)
}
