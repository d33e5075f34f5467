package chart

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// bare is a value without a unit.
func bare(v float64) string { return fmt.Sprintf("%.3g", v) }

// The bar of a month crosses the limit line if and only if its value is over
// the limit, whatever the scale: the drawing may not disagree with the check.
func TestBarsCrossTheLimitOnlyWhenOver(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 500 {
		o := MonthsOpts{Text: bare, Limit: 1 + r.Float64()*100, Rows: 2 + r.IntN(12)}
		var v [12]float64
		for i := range v {
			// Half of the values lie within a thousandth of the limit.
			v[i] = r.Float64() * 200
			if i%2 == 0 {
				v[i] = o.Limit * (1 + (r.Float64()-0.5)/500)
			}
		}
		v[r.IntN(12)] = o.Limit // at the limit is not over it
		d := Pen{}.Months(v, o, 60)
		line := limitLine(d.Lines)
		bars := line[len(line)-12*4:] // four columns a month at this width
		for i := range v {
			require.Equal(t, v[i] > o.Limit, bars[i*4] == '!', "%v limit %v\n%s", v[i], o.Limit, strings.Join(d.Lines, "\n"))
		}
	}
}

// limitLine is the only line with the limit's sign between the months; the
// legend below comes later.
func limitLine(lines []string) string {
	for _, l := range lines {
		if strings.Contains(l, "=") {
			return l
		}
	}
	return ""
}

// A taller month never gets fewer marks, and one above zero at least one.
func TestMonthHeightsFollowValues(t *testing.T) {
	r := source{rand.New(rand.NewPCG(1, 2))}
	for range 500 {
		g := monthGrid{below: 1 + r.IntN(9), above: 1 + r.IntN(9), limit: 50, top: 50 + r.Float64()*100}
		a, b := r.Float64()*g.top, r.Float64()*g.top
		if a > b {
			a, b = b, a
		}
		ua, oa := g.marks(a)
		ub, ob := g.marks(b)
		require.LessOrEqual(t, ua+oa, ub+ob)
		require.Positive(t, ua+ub)
	}
}

func TestMonthSentences(t *testing.T) {
	nan := math.NaN()
	all := func(v float64) (m [12]float64) {
		for i := range m {
			m[i] = v
		}
		return m
	}
	cases := []struct {
		name   string
		values [12]float64
		opts   MonthsOpts
		want   string
	}{
		{"no figures", all(nan), MonthsOpts{}, "The value: no figures."},
		{"flat", all(84), MonthsOpts{Limit: 80}, "The value is the same in every month, 84; it is over the limit of 80 in every month."},
		{"never clears", [12]float64{9, 8, 7, 6, 5, 4, 3, 2, 1, 2, 4, 7}, MonthsOpts{Held: true}, "The value is highest in January, 9; it does not clear in any month of the year."},
		{"across new year", [12]float64{90, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 90}, MonthsOpts{Limit: 80}, "The value is highest in December and January, 90; it is over the limit of 80 in December and January and back within it in February."},
		{"missing", [12]float64{3, nan, 0, 0, 0, 0, 0, 0, 0, 0, nan, nan}, MonthsOpts{Held: true}, "The value is highest in January, 3; it is gone by March; there is no figure for February, November and December."},
		{"rounding left over", [12]float64{500, 1e-9, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}, MonthsOpts{Held: true}, "The value is highest in January, 500; it is gone by February."},
		{"held and limited", [12]float64{600, 400, 0, 0, 0, 0, 0, 0, 0, 0, 0, 300}, MonthsOpts{Held: true, Limit: 500, What: "Water held."}, "Water held is highest in January, 600; it is gone by March; it is over the limit of 500 in January and back within it in February."},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			c.opts.Text, c.opts.What = bare, cmp.Or(c.opts.What, "The value")
			require.Equal(t, c.want, Pen{}.Months(c.values, c.opts, 80).Sentence)
		})
	}
}

func TestMissingMonthHasAQuestionMark(t *testing.T) {
	v := sampleHumidity()
	for width := MinWidth; width <= MaxWidth; width++ {
		d := Pen{}.Months(v, MonthsOpts{Text: bare}, width)
		marks := 0
		for _, l := range d.Lines {
			if strings.Contains(l, "?") {
				marks++
			}
		}
		require.Equal(t, 1, marks, "width %d", width)
	}
}

// A value on the edge of a row does not gain a row from rounding: 7 x 0.1 is a
// little more than 0.7 in binary.
func TestRowsForgiveRounding(t *testing.T) {
	tenth := 0.1
	require.Greater(t, tenth*7*10, 7.0)
	require.Equal(t, 7, share(tenth*7, 1, 10))
	require.Equal(t, 8, share(0.71, 1, 10))
}
