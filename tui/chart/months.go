package chart

import (
	"fmt"
	"math"
	"strings"
)

// MonthsOpts says what the bars are.
type MonthsOpts struct {
	What  string // what is drawn: "Water in the wood"
	Limit float64
	// LimitName and LimitText name the line and its value: "wet", "20 %". Without a
	// limit (0 or less, NaN or Inf) they say what a bar as high as Full is.
	LimitName, LimitText string
	Full                 float64
	Runs                 []MonthsRun // one or two; the first stands before the second
}

// MonthsRun is one series, from January.
type MonthsRun struct {
	Name   string // "built well"
	Values [12]float64
	Words  [12]MonthWord
}

// MonthWord is what a month is called, and a sign for it where no word has room.
type MonthWord struct{ Text, Sign string }

// Bounds of the drawing of months.
const (
	mostRows    = 12 // of bars, the line of the limit and the words of each run
	wordColumns = 4
	mostMonth   = wordColumns + 1 // columns a month
	leastMonths = 44              // columns below which the sentence stands alone
	firstMonth  = 9               // October: wetting and drying then read as one hill
)

// rowsToLimit is the ladder of scales: rows from zero to the limit.
var rowsToLimit = []int{8, 6, 4, 3, 2, 1}

// monthGrid is the division of the drawing. The limit has a row of its own above
// those below it, so that a bar crosses the line if and only if its value is over
// the limit, however coarse the rows are.
type monthGrid struct {
	limit       float64 // 0: none
	unit        float64 // a row
	below       int     // rows under the line, or all
	rows        int
	left, month int // columns of the labels and of a month
}

// Months draws the bars of each month from zero, from October to September, and
// under them what each run calls it.
func (p Pen) Months(o MonthsOpts, width int) Drawing {
	p, width = p.ready(), clampWidth(width)
	o = o.filled()
	if width < leastMonths {
		return finish(width, nil, monthsSentence(o))
	}
	g := p.monthGrid(o, width)
	var lines []string
	for row := g.rows; row >= 1; row-- {
		lines = append(lines, p.monthRow(g, o, row))
	}
	lines = append(lines, blank(g.left)+strings.Repeat(p.Glyphs.base, 12*g.month), p.monthFeet(g))
	lines = append(lines, p.monthWords(g, o)...)
	return finish(width, append(lines, p.monthLegend(g, o)...), monthsSentence(o))
}

// filled takes out what cannot be used.
func (o MonthsOpts) filled() MonthsOpts {
	o.What, o.LimitName, o.LimitText = unstop(clean(o.What)), clean(o.LimitName), clean(o.LimitText)
	if !known(o.Limit) || o.Limit < 0 {
		o.Limit = 0
	}
	if !known(o.Full) || o.Full <= 0 {
		o.Full = 1
	}
	runs := make([]MonthsRun, min(len(o.Runs), 2))
	for i := range runs {
		r := o.Runs[i]
		r.Name = clean(r.Name)
		for m := range r.Words {
			r.Words[m] = MonthWord{cut(r.Words[m].Text, wordColumns), cut(r.Words[m].Sign, 1)}
		}
		runs[i] = r
	}
	o.Runs = runs
	return o
}

// cut keeps the first columns of a text, and a dash of one that is empty.
func cut(s string, cells int) string {
	r := []rune(clean(s))
	if len(r) == 0 {
		return "-"
	}
	return strings.TrimSpace(string(r[:min(len(r), cells)]))
}

func (p Pen) monthGrid(o MonthsOpts, width int) monthGrid {
	g := monthGrid{limit: o.Limit, month: mostMonth}
	room := mostRows - len(o.Runs)
	for _, to := range rowsToLimit {
		g.below, g.unit = to, o.Limit/float64(to)
		if o.Limit == 0 {
			g.unit = o.Full / float64(to)
		}
		if g.rows = g.below; g.limit > 0 {
			g.rows++
		}
		for _, r := range o.Runs {
			for _, v := range r.Values {
				g.rows = max(g.rows, g.high(v))
			}
		}
		if g.rows <= room {
			break
		}
	}
	g.rows = min(g.rows, room)
	labels := []string{o.limitLabel()}
	for i, r := range o.Runs {
		labels = append(labels, p.bar(i)+" "+r.Name)
	}
	if g.left = widest(labels) + 1; width < g.left+12*g.month {
		g.left, g.month = 0, min(width/12, mostMonth)
	}
	return g
}

func (o MonthsOpts) limitLabel() string { return o.LimitName + ": " + o.LimitText }

// high is the highest row a value fills: one over the limit is above the row of
// the line's own, none else is.
func (g monthGrid) high(v float64) int {
	if !known(v) || v <= 0 {
		return 0
	}
	n := int(min(math.Floor(v/g.unit+0.5), 2*mostRows))
	switch {
	case g.limit > 0 && v > g.limit:
		return max(n, g.below+1)
	case g.limit > 0:
		n = min(n, g.below)
	}
	return max(n, 1)
}

func (p Pen) bar(run int) string {
	if run == 0 {
		return p.Glyphs.bar
	}
	return p.Glyphs.second
}

// monthRow is one row of bars; the line of the limit is the row above those below
// it.
func (p Pen) monthRow(g monthGrid, o MonthsOpts, row int) string {
	fill, label := " ", ""
	switch {
	case g.limit > 0 && row == g.below+1:
		fill, label = p.Glyphs.limit, o.limitLabel()
	case g.limit == 0 && row == g.rows:
		label = o.limitLabel()
	}
	if g.left == 0 {
		label = ""
	}
	line := padRight(label, g.left)
	for m := range 12 {
		sign := fill
		for i := len(o.Runs) - 1; i >= 0; i-- {
			if g.high(o.Runs[i].Values[monthAt(m)]) >= row {
				sign = p.bar(i)
			}
		}
		solid := min(g.month-1, 3)
		line += fill + strings.Repeat(sign, solid) + strings.Repeat(fill, g.month-1-solid)
	}
	return line
}

// monthAt is the month in the place drawn, 0 to 11.
func monthAt(place int) int { return (firstMonth + place) % 12 }

func (Pen) monthFeet(g monthGrid) string {
	line, letters := blank(g.left), 3
	if g.month <= letters {
		letters = 1
	}
	for m := range 12 {
		line += padRight(" "+monthNames[monthAt(m)][:letters], g.month)
	}
	return line
}

// monthWords is a row of words for each run, or of signs.
func (p Pen) monthWords(g monthGrid, o MonthsOpts) []string {
	var lines []string
	for i, r := range o.Runs {
		label := p.bar(i) + " " + r.Name
		if g.left == 0 {
			lines, label = append(lines, label), ""
		}
		line := padRight(label, g.left)
		for m := range 12 {
			w := r.Words[monthAt(m)]
			text := " " + w.Text
			if g.month < mostMonth {
				text = " " + w.Sign
			}
			line += padRight(text, g.month)
		}
		lines = append(lines, line)
	}
	return lines
}

// monthLegend is what found no room beside the drawing, and what a bar hides.
func (p Pen) monthLegend(g monthGrid, o MonthsOpts) []string {
	var lines []string
	switch {
	case g.left == 0 && g.limit > 0:
		lines = append(lines, strings.Repeat(p.Glyphs.limit, 3)+" "+o.limitLabel())
	case g.left == 0:
		lines = append(lines, o.limitLabel())
	}
	if g.month < mostMonth {
		lines = append(lines, strings.Join(signs(o.Runs), "  "))
	}
	if len(o.Runs) == 2 {
		for m := range 12 {
			if g.high(o.Runs[1].Values[m]) < g.high(o.Runs[0].Values[m]) {
				return append(lines, fmt.Sprintf("A lower bar of %s stands behind the one of %s.", p.bar(1), p.bar(0)))
			}
		}
	}
	return lines
}

// signs explains those that stand for words.
func signs(runs []MonthsRun) []string {
	var out []string
	seen := map[MonthWord]bool{}
	for _, r := range runs {
		for m := range 12 {
			if w := r.Words[monthAt(m)]; !seen[w] {
				seen[w] = true
				out = append(out, w.Sign+" "+w.Text)
			}
		}
	}
	return out
}
