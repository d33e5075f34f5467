package chart

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// pens are the two sets of signs and what stands where none is chosen.
var pens = map[string]Pen{"zero": {}, "ascii": {Glyphs: ASCII()}, "unicode": {Glyphs: Unicode()}}

func ascii(s string) int {
	n := 0
	for i := range len(s) {
		if s[i] < utf8.RuneSelf {
			n++
		}
	}
	return n
}

// source makes input of every kind that could come in, from a fixed seed.
type source struct{ *rand.Rand }

func (r source) number() float64 {
	odd := []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, 0, -1, 1e-12, 1e9}
	if r.IntN(4) == 0 {
		return odd[r.IntN(len(odd))]
	}
	return r.Float64() * math.Pow(10, float64(r.IntN(6)))
}

func (r source) text() string {
	parts := []string{"attic", "R-21", "a", "|", "", " ", "壁", "e\u0301", "\t", "\n", "\x1b[31m", "\u202e", "\xff", "\u00a0", "👩‍🔧", "extraordinarilylongword", "5 1/2 in", "."}
	var b strings.Builder
	for range r.IntN(9) {
		b.WriteString(parts[r.IntN(len(parts))])
		if r.IntN(2) == 0 {
			b.WriteByte(' ')
		}
	}
	return b.String()
}

func (r source) draw(p Pen, width int) map[string]Drawing {
	layers := make([]SectionLayer, r.IntN(8))
	for i := range layers {
		layers[i] = SectionLayer{Name: r.text(), Note: r.text(), TempText: r.text(), Kind: Kind(r.IntN(12) - 1)}
	}
	o := MonthsOpts{What: r.text(), Limit: r.number(), Full: r.number(), LimitName: r.text(), LimitText: r.text(), Runs: make([]MonthsRun, r.IntN(4))}
	for i := range o.Runs {
		o.Runs[i].Name = r.text()
		for m := range 12 {
			o.Runs[i].Values[m], o.Runs[i].Words[m] = r.number(), MonthWord{r.text(), r.text()}
		}
	}
	return map[string]Drawing{
		"section": p.Section(layers, r.text(), r.text(), width),
		"months":  p.Months(o, width),
	}
}

func check(t *testing.T, d Drawing, width int, context ...any) {
	t.Helper()
	require.True(t, strings.HasSuffix(d.Sentence, "."), context...)
	for _, l := range append([]string{d.Sentence}, d.Lines...) {
		require.True(t, utf8.ValidString(l), context...)
		require.NotContains(t, l, "\x1b", context...)
		require.NotContains(t, l, "\n", context...)
		require.NotContains(t, l, "\u202e", context...)
	}
	for _, l := range d.Lines {
		require.LessOrEqual(t, columns(l), width, context...)
		require.Equal(t, strings.TrimRight(l, " "), l, context...)
	}
}

func TestEveryDrawingKeepsToItsWidth(t *testing.T) {
	for name, p := range pens {
		t.Run(name, func(t *testing.T) {
			r := source{rand.New(rand.NewPCG(7, 11))}
			for range 3 {
				for width := MinWidth; width <= MaxWidth; width++ {
					for kind, d := range r.draw(p, width) {
						check(t, d, width, kind, width)
					}
				}
			}
		})
	}
}

func TestWidthOutOfBoundsIsBrought(t *testing.T) {
	for kind, draw := range drawings {
		for _, w := range []struct{ asked, used int }{{-5, 20}, {0, 20}, {19, 20}, {201, 200}, {math.MaxInt, 200}} {
			require.Equal(t, draw(Pen{}, w.used), draw(Pen{}, w.asked), kind)
		}
	}
}

func TestASCIIStaysASCII(t *testing.T) {
	for kind, draw := range drawings {
		for width := MinWidth; width <= MaxWidth; width++ {
			d := draw(Pen{Glyphs: ASCII()}, width)
			for _, l := range append([]string{d.Sentence}, d.Lines...) {
				require.Equal(t, len(l), ascii(l), "%s at %d: %q", kind, width, l)
			}
		}
	}
}

// Words are wrapped, never dropped: what the caller gave is on the screen.
func TestNothingIsLeftOut(t *testing.T) {
	cases := map[string][]string{
		"section": strings.Fields("INSIDE: room, gypsum, paper inside fiber staple second sheet fills bay, watch: siding OUTSIDE: 67 24 January,"),
	}
	for kind, all := range cases {
		for width := MinWidth; width <= MaxWidth; width++ {
			got := strings.Fields(strings.NewReplacer(":", " : ").Replace(strings.Join(drawings[kind](Pen{}, width).Lines, " ")))
			for _, w := range all {
				require.Contains(t, got, strings.TrimSuffix(w, ":"), "%s at %d", kind, width)
			}
		}
	}
}
