package chart

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The bar of a month crosses the limit line if and only if its value is over
// the limit, whatever the scale: the drawing may not disagree with the check.
func TestBarsCrossTheLimitOnlyWhenOver(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 500 {
		o := MonthsOpts{Limit: 1 + r.Float64()*100, Runs: make([]MonthsRun, 1+r.IntN(2))}
		high := 1 + 9*r.Float64()
		for run := range o.Runs {
			v := &o.Runs[run].Values
			for i := range v {
				// Half of the values lie within a thousandth of the limit.
				v[i] = r.Float64() * o.Limit * high
				if i%2 == 0 {
					v[i] = o.Limit * (1 + (r.Float64()-0.5)/500)
				}
			}
			v[r.IntN(12)] = o.Limit // at the limit is not over it
		}
		for width := leastMonths; width < 100; width += 7 {
			d := Pen{}.Months(o, width)
			first := crossed(d, '#')
			for m, v := range o.Runs[0].Values {
				require.Equal(t, v > o.Limit, first[m], "%v limit %v\n%s", v, o.Limit, strings.Join(d.Lines, "\n"))
			}
			if len(o.Runs) < 2 {
				continue
			}
			second := crossed(d, ':')
			for m, v := range o.Runs[1].Values { // seen where the first is not in front
				require.Equal(t, v > o.Limit && !first[m], second[m], "%v limit %v\n%s", v, o.Limit, strings.Join(d.Lines, "\n"))
			}
		}
	}
}

// crossed are the months, from January, whose bar of a sign crosses the line.
func crossed(d Drawing, sign rune) (over [12]bool) {
	axis := -1
	for i, l := range d.Lines {
		if strings.Contains(l, strings.Repeat("-", 12)) {
			axis = i
		}
	}
	base := []rune(d.Lines[axis])
	left := strings.Index(d.Lines[axis], "-")
	month := (len(base) - left) / 12
	for _, l := range d.Lines[:axis] {
		r := []rune(l)
		if len(r) != len(base) || r[left] != '.' {
			continue
		}
		for place := range 12 {
			over[monthAt(place)] = r[left+place*month+1] == sign
		}
	}
	return over
}

// A higher value never gets fewer rows, and one above zero at least one; up to the
// limit a row is as much as any other, within half a row.
func TestMonthHeightsFollowValues(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		o := MonthsOpts{Limit: 50, Runs: []MonthsRun{{}}}
		a, b := r.Float64()*200, r.Float64()*200
		o.Runs[0].Values[3] = max(a, b)
		g := Pen{Glyphs: ASCII()}.monthGrid(o, 80)
		require.LessOrEqual(t, g.high(min(a, b)), g.high(max(a, b)))
		require.Positive(t, g.high(min(a, b)))
		require.LessOrEqual(t, g.rows, mostRows-1)
		if v := min(a, b); v > g.unit && v <= g.limit {
			require.InDelta(t, v/g.unit, g.high(v), 0.5+1e-9)
		}
	}
	require.Zero(t, monthGrid{unit: 1}.high(0))
	require.Zero(t, monthGrid{unit: 1}.high(math.NaN()))
}

// The sentence has each month once, in the order of the drawing.
func TestMonthsSentences(t *testing.T) {
	for words, want := range map[string]string{
		allDry: "Dry in all twelve months.",
		"dry dry dry dry damp damp MOLD MOLD dry dry dry dry": "Dry until January, damp in February and March, MOLD in April and May, dry from June on.",
		"dry dry damp WET WET WET damp dry dry dry dry dry":   "Dry until November, damp in December, WET from January to March, damp in April, dry from May on.",
		"WET dry dry dry dry dry dry dry dry dry dry WET":     "WET in October, dry from November to August, WET in September.",
		"WET WET dry dry dry dry dry dry dry dry WET WET":     "WET until November, dry from December to July, WET from August on.",
	} {
		got := Pen{}.Months(wood(year("built well", [12]float64{}, words)), 80).Sentence
		require.Equal(t, "Water in the OSB, October to September, against the line of wet at 20 %. Built well: "+strings.ToLower(want[:1])+want[1:], strings.Replace(got, ": WET", ": wET", 1))
	}
	o := sampleNoWood()
	require.Equal(t, "Humidity where most mold may grow, October to September; the full height is 100 %. Built well: damp until November, dry from December to June, damp in July, MOLD from August on. With holes: MOLD in October, damp from November to January, dry from February to June, damp in July, MOLD from August on.", Pen{}.Months(o, 80).Sentence)
}

// The words of the drawing are those of the sentence, and every figure is in it.
func TestDrawnFiguresAreSaid(t *testing.T) {
	for _, o := range []MonthsOpts{sampleSealed(), sampleWet(), sampleNoWood()} {
		for width := MinWidth; width < 100; width++ {
			d := Pen{}.Months(o, width)
			require.Equal(t, width < leastMonths, len(d.Lines) == 0)
			require.LessOrEqual(t, len(d.Lines), 18)
			for _, w := range strings.Fields(strings.Join(d.Lines, " ")) {
				if w == "WET" || w == "MOLD" || w == "damp" || strings.ContainsAny(w, "0123456789") {
					require.Contains(t, d.Sentence, w)
				}
			}
		}
	}
}
