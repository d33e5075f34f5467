package chart

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// Least columns for a bar beside its label, and below it, since shorter bars
// cannot be told apart; and the most.
const (
	barBeside = 8
	barBelow  = 4
	barMost   = 40 // longer ones only take the place of the note
)

// BarRow is one bar.
type BarRow struct {
	Label string
	Value float64 // length of the bar; below zero draws none, NaN and Inf are "no figure"
	Max   float64 // the most this row could reach, drawn as room left; 0 or less: none
	Text  string  // the number as shown, with its unit; empty: the plain Value
	Note  string  // a few words beside or below
}

// barLayout is the division of a line: label, bar, number.
type barLayout struct {
	label, bar, number int
	top                float64 // value of a full bar
}

// Bars draws rows as horizontal bars from zero on one common scale, with the
// number at the end of each. A value above zero always shows at least one
// mark.
func (p Pen) Bars(rows []BarRow, width int) Drawing {
	p, width = p.ready(), clampWidth(width)
	if len(rows) == 0 {
		return p.empty(width)
	}
	l := p.barLayout(rows, width)
	var lines []string
	for _, r := range rows {
		if l.label > 0 {
			lines = append(lines, p.barBeside(r, l, width)...)
		} else {
			lines = append(lines, p.barBelow(r, l, width)...)
		}
	}
	return p.finish(width, lines, barSentence(rows))
}

func (p Pen) barLayout(rows []BarRow, width int) barLayout {
	l := barLayout{}
	for _, r := range rows {
		l.label = max(l.label, p.Measure(clean(r.Label)))
		l.number = max(l.number, p.Measure(r.number()))
		l.top = max(l.top, r.drawable(r.Value), r.drawable(r.Max))
	}
	l.label = min(max(l.label, 1), width*2/5)
	l.bar = min(width-l.label-l.number-2, barMost)
	if l.bar >= barBeside {
		return l
	}
	l.label = 0 // labels get lines of their own
	l.bar = min(width-l.number-3, barMost)
	if l.bar < barBelow {
		l.number, l.bar = 0, min(width-2, barMost) // and so do numbers
	}
	return l
}

// barBeside draws label, bar and number on one line, and the note behind them
// if it fits there or else below.
func (p Pen) barBeside(r BarRow, l barLayout, width int) []string {
	labels := p.wrap(r.Label, l.label)
	line := p.padRight(labels[0], l.label) + " " + p.barMarks(r, l) + " " + p.padLeft(r.number(), l.number)
	note := clean(r.Note)
	if whole := line + "  " + note; note != "" && p.Measure(whole) <= width {
		line, note = whole, ""
	}
	lines := append([]string{line}, labels[1:]...)
	if note != "" {
		indent := blank(l.label + 1)
		lines = append(lines, p.hang(note, width, indent, indent)...)
	}
	return lines
}

func (p Pen) barBelow(r BarRow, l barLayout, width int) []string {
	var lines []string
	if clean(r.Label) != "" {
		lines = p.wrap(r.Label, width)
	}
	bar := "  " + p.barMarks(r, l)
	if l.number > 0 {
		lines = append(lines, bar+" "+p.padLeft(r.number(), l.number))
	} else {
		lines = append(append(lines, bar), p.hang(r.number(), width, "  ", "  ")...)
	}
	if clean(r.Note) != "" {
		lines = append(lines, p.hang(r.Note, width, "  ", "  ")...)
	}
	return lines
}

// barMarks is the bar itself, padded to its column.
func (p Pen) barMarks(r BarRow, l barLayout) string {
	full := cells(r.drawable(r.Value), l.top, l.bar)
	room := max(cells(r.drawable(r.Max), l.top, l.bar)-full, 0)
	return strings.Repeat(p.Glyphs.bar, full) +
		strings.Repeat(p.Glyphs.track, room) + blank(l.bar-full-room)
}

// cells is the share of n columns that v takes of top.
func cells(v, top float64, n int) int {
	if v <= 0 || top <= 0 {
		return 0
	}
	return min(max(int(math.Round(v/top*float64(n))), 1), n)
}

// drawable leaves out what has no length.
func (BarRow) drawable(v float64) float64 {
	if !known(v) || v < 0 {
		return 0
	}
	return v
}

// number is the text at the end of a bar.
func (r BarRow) number() string {
	if t := clean(r.Text); t != "" {
		return t
	}
	if known(r.Value) && r.drawable(r.Max) > 0 {
		return plain(r.Value) + " of " + plain(r.Max)
	}
	return plain(r.Value)
}

// barSentence names the rows by size, since the eye takes that from the bars,
// and those without a figure at the end.
func barSentence(rows []BarRow) string {
	var have, missing []BarRow
	for _, r := range rows {
		if known(r.Value) {
			have = append(have, r)
		} else {
			missing = append(missing, r)
		}
	}
	slices.SortStableFunc(have, func(a, b BarRow) int { return cmp.Compare(b.Value, a.Value) })
	var parts []string
	if len(have) > 0 {
		parts = append(parts, "Highest first: "+list(barNames(have, true)))
	}
	if len(missing) > 0 {
		parts = append(parts, "no figure for "+list(barNames(missing, false)))
	}
	s := strings.Join(parts, "; ")
	return strings.ToUpper(s[:1]) + unstop(s[1:]) + "."
}

func barNames(rows []BarRow, number bool) []string {
	names := make([]string, len(rows))
	for i, r := range rows {
		name := clean(r.Label)
		if number {
			name = strings.TrimSpace(name + " " + r.number())
		} else if t := clean(r.Text); t != "" {
			name = aside(name, t)
		}
		names[i] = aside(name, r.Note)
	}
	return names
}
