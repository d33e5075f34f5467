package chart

import (
	"strings"
	"testing"
)

// FuzzWrap: lines keep to their width, and all runes come through in order,
// except one wider than the line, which a question mark stands for.
func FuzzWrap(f *testing.F) {
	f.Add("fits the bay, nothing pressed in", 12)
	f.Add("寝室の外壁 R-21", 3)
	f.Add("e\u0301\u0301\u0301 \xff\x1b[0m", 1)
	f.Fuzz(func(t *testing.T, s string, cells int) {
		cells = 1 + (cells%200+200)%200
		p := Pen{Measure: wide}.ready()
		lines := p.wrap(s, cells)
		for _, l := range lines {
			if wide(l) > cells {
				t.Fatalf("%q is wider than %d", l, cells)
			}
		}
		if cells >= 2 {
			got, want := strings.Join(lines, ""), clean(s)
			if strings.ReplaceAll(got, " ", "") != strings.ReplaceAll(want, " ", "") {
				t.Fatalf("wrap(%q, %d) = %q", s, cells, lines)
			}
		}
	})
}

// FuzzDrawings puts one text everywhere a text can go.
func FuzzDrawings(f *testing.F) {
	f.Add("attic", 3.5, 80)
	f.Add("壁\n\x1b]11;?\x07", -1.0, 20)
	f.Fuzz(func(t *testing.T, s string, v float64, width int) {
		width = MinWidth + (width%181+181)%181
		p := Pen{Glyphs: Unicode(), Measure: wide}
		o := MonthsOpts{What: s, Limit: v, LimitLabel: s, Text: func(float64) string { return s }}
		for _, d := range []Drawing{
			p.Section([]SectionLayer{{Name: s, Note: s, TempText: s, Kind: Fiber}, {Name: s, Kind: Retarder}}, s, s, width),
			p.Months([12]float64{v, 1, 2}, o, width),
		} {
			check(t, p, d, width, s, v, width)
		}
	})
}

func BenchmarkMonths(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Pen{Glyphs: Unicode()}.Months(sampleHeld(), heldOpts(), 80)
	}
}
