// Package chart draws numbers as lines of text for a terminal: the
// layers of a wall, the months of a year, a table.
//
// Every drawing is pure: the same input gives the same lines. There is no
// colour anywhere, so that nothing can depend on it, and each drawing carries
// a sentence that says the same thing for someone who hears the screen
// instead of seeing it.
//
// Numbers arrive in the unit in which they are shown. Where a text can be
// passed beside a number (BarRow.Text, SectionLayer.TempText, MonthsOpts.Text)
// it is the caller who decides on units and rounding.
package chart

import (
	"strings"
	"unicode/utf8"
)

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

// Width measures the columns a text takes on the terminal. It must give one
// for each printable ASCII character.
type Width func(string) int

// Drawing is a picture made of text and the sentence that replaces it. No line
// is wider than the width asked for or ends in a space.
type Drawing struct {
	Lines    []string
	Sentence string
}

// Pen holds what every drawing needs besides its numbers. The zero Pen draws
// in ASCII and counts one column a rune.
type Pen struct {
	Glyphs  Glyphs
	Measure Width
}

// ready fills in what was left out. A terminal that gives two columns to some
// drawing sign, as East Asian set-ups do with box and block characters, gets
// the ASCII set: half a sign cannot be drawn, and columns would not line up.
func (p Pen) ready() Pen {
	if p.Measure == nil {
		p.Measure = utf8.RuneCountInString
	}
	if p.Glyphs == (Glyphs{}) {
		p.Glyphs = ASCII()
	}
	for _, g := range p.Glyphs.all() {
		if p.Measure(g) != 1 {
			p.Glyphs = ASCII()
			break
		}
	}
	return p
}

// finish turns lines into a drawing. The cut is a last defence against width
// functions in which the parts of a line add up to less than the whole.
func (p Pen) finish(width int, lines []string, sentence string) Drawing {
	d := Drawing{Lines: make([]string, 0, len(lines)), Sentence: sentence}
	for _, l := range lines {
		if p.Measure(l) > width {
			l, _ = p.take(l, width)
		}
		d.Lines = append(d.Lines, strings.TrimRight(l, " "))
	}
	return d
}

// empty is the drawing of no input at all.
func (p Pen) empty(width int) Drawing {
	return p.finish(width, p.wrap(nothing, width), nothing)
}

func clampWidth(width int) int {
	return min(max(width, MinWidth), MaxWidth)
}
