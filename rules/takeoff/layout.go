package takeoff

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"battwright/rules/units"
)

// Kind says where a bay is.
type Kind string

const (
	KindFull   Kind = "full"   // between studs or joists at their usual spacing
	KindOdd    Kind = "odd"    // narrower than usual: beside corners and openings
	KindAbove  Kind = "above"  // short space over an opening's header
	KindBelow  Kind = "below"  // short space under an opening's sill
	KindAcross Kind = "across" // strip of a second layer laid over the framing
	KindRim    Kind = "rim"    // at the rim joist
)

// Bay is one size of clear space and how many there are. Blanket runs along
// HeightIn (the bay's length in floors), across WidthIn.
type Bay struct {
	Kind     Kind
	WidthIn  float64
	HeightIn float64
	Count    int
}

// Ft2 is the clear area of all bays of this size.
func (b Bay) Ft2() float64 {
	return ft2(b.WidthIn*b.HeightIn) * float64(b.Count)
}

// Layout is a surface counted bay by bay.
type Layout struct {
	DepthIn     float64 // depth of the framing, 0 where it has none
	SpacingIn   float64 // framing module
	Bays        []Bay   // by kind, then largest first
	GrossFt2    float64 // length x height
	OpeningsFt2 float64
	NetFt2      float64 // gross - openings
	ClearFt2    float64 // what the bays add up to; the rest of net is wood
}

// BayCount is the number of bays of the kinds named, or of all.
func (l Layout) BayCount(kinds ...Kind) int {
	n := 0
	for _, b := range l.Bays {
		if len(kinds) == 0 || slices.Contains(kinds, b.Kind) {
			n += b.Count
		}
	}
	return n
}

// WidestIn is the width of the widest bay.
func (l Layout) WidestIn() float64 {
	w := 0.0
	for _, b := range l.Bays {
		w = max(w, b.WidthIn)
	}
	return w
}

// PickWidth returns the narrowest product width that fills every bay of the
// layout in one piece; ErrTooWide when none does. A blanket is never joined
// along its length inside a bay.
func PickWidth(l Layout, widthsIn []float64) (float64, error) {
	need, best := l.WidestIn(), math.Inf(1)
	for _, w := range widthsIn {
		if err := positive("product width", w, maxHighIn); err != nil {
			return 0, err
		}
		if w >= need {
			best = min(best, w)
		}
	}
	if math.IsInf(best, 1) {
		return 0, fmt.Errorf("%w: bay %v in, widths offered %v", ErrTooWide, need, widthsIn)
	}
	return best, nil
}

// Merge adds layouts into one order: two walls, or a floor and its rim. Depth
// and spacing are kept when all agree and are 0 otherwise.
func Merge(layouts ...Layout) Layout {
	sum := Layout{}
	var bays []Bay
	for i, l := range layouts {
		if i == 0 {
			sum.DepthIn, sum.SpacingIn = l.DepthIn, l.SpacingIn
		}
		if l.DepthIn != sum.DepthIn {
			sum.DepthIn = 0
		}
		if l.SpacingIn != sum.SpacingIn {
			sum.SpacingIn = 0
		}
		bays = append(bays, l.Bays...)
		sum.GrossFt2 += l.GrossFt2
		sum.OpeningsFt2 += l.OpeningsFt2
	}
	sum.setBays(bays)
	return sum
}

// setBays groups equal bays in a fixed order and sums areas, so that the order
// in which walls were typed leaves no trace.
func (l *Layout) setBays(bays []Bay) {
	type size struct {
		kind Kind
		w, h float64
	}
	counts := map[size]int{}
	for _, b := range bays {
		counts[size{b.Kind, tidy(b.WidthIn), tidy(b.HeightIn)}] += b.Count
	}
	l.Bays = make([]Bay, 0, len(counts))
	for s, n := range counts {
		l.Bays = append(l.Bays, Bay{s.kind, s.w, s.h, n})
	}
	slices.SortFunc(l.Bays, func(a, b Bay) int {
		return cmp.Or(cmp.Compare(kindOrder(a.Kind), kindOrder(b.Kind)),
			cmp.Compare(b.HeightIn, a.HeightIn), cmp.Compare(b.WidthIn, a.WidthIn))
	})
	l.ClearFt2 = 0
	for _, b := range l.Bays {
		l.ClearFt2 += b.Ft2()
	}
	l.NetFt2 = l.GrossFt2 - l.OpeningsFt2
}

func kindOrder(k Kind) int {
	return slices.Index([]Kind{KindFull, KindOdd, KindAbove, KindBelow, KindRim, KindAcross}, k)
}

// tidy rounds to 1/64 in: finer differences come from division, not from wood,
// and would split equal bays into many sizes.
func tidy(in float64) float64 { return math.Round(in*64) / 64 }

func ft2(in2 float64) float64 { return in2 / (units.InchPerFoot * units.InchPerFoot) }

// FeetIn converts lengths in feet to inches.
func FeetIn(feet ...float64) []float64 {
	in := make([]float64, len(feet))
	for i, f := range feet {
		in[i] = f * units.InchPerFoot
	}
	return in
}
