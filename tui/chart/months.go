package chart

import (
	"math"
	"strings"
)

// MonthsOpts says what twelve values are and how to write them.
type MonthsOpts struct {
	What       string               // what is drawn: "Water held in the wall"
	Text       func(float64) string // a value with its unit
	Held       bool                 // an amount that builds up and should be gone again within the year
	Limit      float64              // drawn as a line; 0 or less, NaN or Inf: none
	LimitLabel string               // what the limit means: "mold risk above"
	Rows       int                  // rows of marks, 2 to 20
}

// Bounds of the drawing of months.
const (
	mostRows  = 20
	mostMonth = 6 // columns a month
)

// monthGrid is the division of the drawing. The limit has a line of its own
// between the rows below it and those above, so that a bar crosses the line
// if and only if its value is over the limit, however coarse the rows are.
type monthGrid struct {
	values       [12]float64 // in the order drawn
	limit        float64     // 0: none
	top          float64
	below, above int // rows under and over the limit line
	axis, month  int // columns of the axis texts and of a month
}

// Months draws one bar a month from zero. A month without a figure has a
// question mark; one above zero always has a mark.
func (p Pen) Months(values [12]float64, opts MonthsOpts, width int) Drawing {
	p, width = p.ready(), clampWidth(width)
	opts = opts.filled()
	g := p.monthGrid(values, opts, width)
	lines := p.monthRows(g, opts)
	lines = append(lines, p.monthFeet(g))
	lines = append(lines, p.monthLegend(g, opts, width)...)
	return finish(width, lines, monthSentence(values, opts))
}

// filled takes out what cannot be used.
func (o MonthsOpts) filled() MonthsOpts {
	o.What = unstop(clean(o.What))
	text := o.Text
	o.Text = func(v float64) string {
		if !known(v) {
			return noFigure
		}
		return clean(text(v))
	}
	if !known(o.Limit) || o.Limit < 0 {
		o.Limit = 0
	}
	o.Rows = min(max(o.Rows, 2), mostRows)
	return o
}

func (p Pen) monthGrid(values [12]float64, o MonthsOpts, width int) monthGrid {
	g := monthGrid{limit: o.Limit, top: o.Limit, below: o.Rows}
	g.values = values
	for _, v := range values {
		if known(v) {
			g.top = max(g.top, v)
		}
	}
	if g.limit > 0 && g.top > g.limit {
		g.below = int(math.Round(g.limit / g.top * float64(o.Rows)))
		g.below = min(max(g.below, 1), o.Rows-1)
		g.above = o.Rows - g.below
	}
	texts := []string{o.Text(0), o.Text(g.top)}
	if g.limit > 0 {
		texts = append(texts, o.Text(g.limit))
	}
	g.axis = widest(texts)
	if width-g.axis-1 < 12 {
		g.axis = 0 // the legend takes over
	}
	g.month = min((width-g.axis-1)/12, mostMonth)
	return g
}

// marks is the number of rows a value fills under and over the limit.
func (g monthGrid) marks(v float64) (under, over int) {
	span := g.limit
	if g.limit == 0 {
		span = g.top
	}
	if !known(v) || v <= 0 || span <= 0 {
		return 0, 0
	}
	under = share(min(v, span), span, g.below)
	if g.limit > 0 && v > g.limit && g.above > 0 {
		over = share(v-g.limit, g.top-g.limit, g.above)
	}
	return under, over
}

// share rounds up, so that little is still something.
func share(v, whole float64, rows int) int {
	return min(max(int(math.Ceil(v/whole*float64(rows)-1e-9)), 1), rows)
}

// monthRows is everything above the base line, from the top down.
func (p Pen) monthRows(g monthGrid, o MonthsOpts) []string {
	var lines []string
	for row := g.above; row >= 1; row-- {
		lines = append(lines, p.monthLine(g, axisText(row == g.above, o.Text(g.top)), " ", func(v float64) string {
			_, over := g.marks(v)
			return p.mark(over >= row, p.Glyphs.over, " ")
		}))
	}
	if g.limit > 0 {
		lines = append(lines, p.monthLine(g, o.Text(g.limit), p.Glyphs.limit, func(v float64) string {
			return p.mark(known(v) && v > g.limit, p.Glyphs.over, p.Glyphs.limit)
		}))
	}
	for row := g.below; row >= 1; row-- {
		first := row == g.below && g.limit == 0 && g.top > 0
		lines = append(lines, p.monthLine(g, axisText(first, o.Text(g.top)), " ", func(v float64) string {
			if !known(v) && row == 1 {
				return "?"
			}
			under, _ := g.marks(v)
			return p.mark(under >= row, p.Glyphs.bar, " ")
		}))
	}
	return append(lines, p.monthLine(g, o.Text(0), p.Glyphs.base, func(float64) string { return p.Glyphs.base }))
}

func axisText(show bool, text string) string {
	if show {
		return text
	}
	return ""
}

func (Pen) mark(yes bool, on, off string) string {
	if yes {
		return on
	}
	return off
}

// monthLine repeats a sign over the columns of each month. From two columns up
// one of them is a gap, or the bars of neighbors would run together.
func (p Pen) monthLine(g monthGrid, axis, gap string, sign func(float64) string) string {
	var b strings.Builder
	for _, v := range g.values {
		solid := max(g.month-1, 1)
		b.WriteString(strings.Repeat(sign(v), solid) + strings.Repeat(gap, g.month-solid))
	}
	return p.axisPad(g, axis) + b.String()
}

func (p Pen) axisPad(g monthGrid, axis string) string {
	if g.axis == 0 {
		return " "
	}
	return padLeft(axis, g.axis) + " "
}

// monthFeet is the names of the months.
func (p Pen) monthFeet(g monthGrid) string {
	letters := 1
	if g.month >= 4 {
		letters = 3
	}
	room := max(g.month-1, 1)
	names := ""
	for _, name := range monthNames {
		names += center(name[:letters], room) + blank(g.month-room)
	}
	return p.axisPad(g, "") + names
}

// monthLegend explains the lines, and the scale when no axis had room.
func (p Pen) monthLegend(g monthGrid, o MonthsOpts, width int) []string {
	var texts []string
	if g.limit > 0 {
		texts = append(texts, strings.Repeat(p.Glyphs.limit, 3)+" limit "+aside(o.Text(g.limit), o.LimitLabel))
	}
	if g.above > 0 {
		texts = append(texts, strings.Repeat(p.Glyphs.over, 3)+" over the limit")
	}
	if g.axis == 0 && g.top > 0 {
		texts = append(texts, "top of the drawing: "+o.Text(g.top))
	}
	var lines []string
	for _, t := range texts {
		lines = append(lines, hang(t, width)...)
	}
	return lines
}
