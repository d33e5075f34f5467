package chart

import (
	"testing"
)

// FuzzDrawings puts one text everywhere a text can go.
func FuzzDrawings(f *testing.F) {
	f.Add("attic", 3.5, 80)
	f.Add("壁\n\x1b]11;?\x07", -1.0, 20)
	f.Fuzz(func(t *testing.T, s string, v float64, width int) {
		width = MinWidth + (width%181+181)%181
		p := Pen{Glyphs: Unicode()}
		o := MonthsOpts{What: s, Limit: v, LimitLabel: s, Text: func(float64) string { return s }}
		for _, d := range []Drawing{
			p.Section([]SectionLayer{{Name: s, Note: s, TempText: s, Kind: Fiber}, {Name: s, Kind: Retarder}}, s, s, width),
			p.Months([12]float64{v, 1, 2}, o, width),
		} {
			check(t, d, width, s, v, width)
		}
	})
}

func BenchmarkMonths(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Pen{Glyphs: Unicode()}.Months(sampleHeld(), heldOpts(), 80)
	}
}
