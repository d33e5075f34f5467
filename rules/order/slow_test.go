package order

import (
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/takeoff"
	"battwright/testdata/demo"
)

// The demo houses are counted a second time, the slow way: every run of wall or
// row of joists is painted cell by cell, a 64th of an inch wide, and the clear
// stretches are read off. It shares no code with the take-off.

const cells = 64

type strip []bool

func newStrip(lengthIn float64) strip { return make(strip, int(math.Round(lengthIn*cells))) }

func (s strip) paint(from, to float64) {
	for i := max(0, int(math.Round(from*cells))); i < min(len(s), int(math.Round(to*cells))); i++ {
		s[i] = true
	}
}

func (s strip) clear() []float64 {
	var out []float64
	run := 0
	for i := 0; i <= len(s); i++ {
		if i < len(s) && !s[i] {
			run++
			continue
		}
		if run > 0 {
			out = append(out, float64(run)/cells)
		}
		run = 0
	}
	return out
}

type hole struct{ width, height float64 }

// slowRun reads one run of wall: clear widths of full height, and of the short
// spaces over and under its openings with their heights.
func slowRun(lengthIn, studIn, spacingIn float64, holes []hole) (full []float64, short [][2]float64) {
	s := newStrip(lengthIn)
	s.paint(0, 1.5)
	s.paint(lengthIn-1.5, lengthIn)
	free := lengthIn - 3
	for _, h := range holes {
		free -= h.width + 6
	}
	gap := free / float64(len(holes)+1)
	type frame struct{ from, to float64 }
	var frames []frame
	at := 1.5
	for _, h := range holes {
		at += gap
		frames = append(frames, frame{at, at + h.width + 6})
		at += h.width + 6
	}
	for c := spacingIn; c < lengthIn-0.75; c += spacingIn {
		inside := false
		for _, f := range frames {
			inside = inside || c-0.75 >= f.from && c+0.75 <= f.to
		}
		if !inside {
			s.paint(c-0.75, c+0.75)
		}
	}
	for i, f := range frames {
		s.paint(f.from, f.to)
		short = append(short, slowShort(f.from+3, f.to-3, studIn, spacingIn, holes[i])...)
	}
	return s.clear(), short
}

func slowShort(from, to, studIn, spacingIn float64, h hole) [][2]float64 {
	s := newStrip(to - from)
	s.paint(0, 1.5)
	s.paint(to-from-1.5, to-from)
	for c := 0.0; c < to; c += spacingIn {
		if c > from {
			s.paint(c-0.75-from, c+0.75-from)
		}
	}
	header := 5.5
	for _, limit := range [][2]float64{{48, 7.25}, {72, 9.25}, {96, 11.25}} {
		if h.width > limit[0] {
			header = limit[1]
		}
	}
	head := math.Max(82.5, h.height)
	over, under := studIn+1.5-head-header, head-h.height-3
	var out [][2]float64
	for _, w := range s.clear() {
		for _, tall := range []float64{over, under} {
			if tall >= 1 {
				out = append(out, [2]float64{w, tall})
			}
		}
	}
	return out
}

// slowDeal gives each opening, widest first, to the run with most room left.
func slowDeal(lengths []float64, list []house.Opening) [][]hole {
	var all []hole
	for _, o := range list {
		for range o.Count {
			all = append(all, hole{o.WidthIn, o.HeightIn})
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].width > all[j].width })
	room := make([]float64, len(lengths))
	for i, l := range lengths {
		room[i] = l - 3
	}
	out := make([][]hole, len(lengths))
	for _, h := range all {
		best := 0
		for i := range room {
			if room[i] > room[best] {
				best = i
			}
		}
		room[best] -= h.width + 6
		out[best] = append(out[best], h)
	}
	return out
}

type space struct{ width, height float64 }

func slowWall(lengthsFt []float64, studIn, spacingIn float64, openings []house.Opening) []space {
	var lengths []float64
	for _, l := range lengthsFt {
		lengths = append(lengths, 12*l)
	}
	sort.Sort(sort.Reverse(sort.Float64Slice(lengths)))
	var out []space
	for i, holes := range slowDeal(lengths, openings) {
		full, short := slowRun(lengths[i], studIn, spacingIn, holes)
		for _, w := range full {
			out = append(out, space{w, studIn})
		}
		for _, s := range short {
			out = append(out, space{s[0], s[1]})
		}
	}
	return out
}

// slowStock bounds the batts that the spaces need from both sides: no fewer
// than their area, and no more than when every space takes its own width.
func slowStock(spaces []space, widthIn, lengthIn float64) (atLeast, atMost int) {
	area := 0.0
	var lengths []float64
	for _, s := range spaces {
		area += s.width * s.height
		for left := s.height; left > 0; left -= lengthIn {
			lengths = append(lengths, math.Min(left, lengthIn))
		}
	}
	sort.Sort(sort.Reverse(sort.Float64Slice(lengths)))
	var open []float64
	for _, l := range lengths {
		l = math.Min(l+0.375, lengthIn)
		placed := false
		for i := range open {
			if open[i] >= l {
				open[i] -= l
				placed = true
				break
			}
		}
		if !placed {
			open = append(open, lengthIn-l)
		}
	}
	return int(math.Ceil(area/(widthIn*lengthIn) - 1e-6)), len(open)
}

func TestDemoHousesCountedTheSlowWay(t *testing.T) {
	counted := 0
	for _, name := range demo.Names() {
		o, p, a := demoOrder(t, name)
		for i, place := range o.Places {
			hp := a.House.Place(place.ID)
			frame := p.Places[i].Surface.Frame
			if place.How != takeoff.ByBay || place.Skipped != "" || place.Problem != "" {
				continue
			}
			num := func(key string) float64 { return a.Num(house.PlaceScope, hp, key) }
			var want []space
			switch hp.Kind {
			case "exterior-wall", "basement-wall":
				want = slowWall(a.LengthsFt(hp), 92.625, frame.SpacingIn, house.OpeningsOf(hp))
			case "attic", "crawl-space":
				long, wide := 12*math.Max(num("length_ft"), num("width_ft")), 12*math.Min(num("length_ft"), num("width_ft"))
				if hp.Kind == "crawl-space" {
					wide -= 3 // rim joists at both ends
				}
				full, _ := slowRun(long, wide, frame.SpacingIn, nil)
				for _, w := range full {
					want = append(want, space{w, wide})
				}
			default:
				continue
			}
			counted++
			sameSpaces(t, place.Label, want, place.Layers[0].Bays)
			low, high := slowStock(want, place.Layers[0].WidthIn, place.Layers[0].LengthIn)
			require.True(t, low <= place.Layers[0].Stock && place.Layers[0].Stock <= high, "%s: %d to %d batts, counted %d", place.Label, low, high, place.Layers[0].Stock)
		}
	}
	require.Equal(t, 6, counted, "walls, floors and the attic of the demo houses that have lengths")
}

func sameSpaces(t *testing.T, where string, want []space, got []takeoff.Bay) {
	t.Helper()
	var have []space
	for _, b := range got {
		for range b.Count {
			have = append(have, space{b.WidthIn, b.HeightIn})
		}
	}
	order := func(list []space) {
		sort.Slice(list, func(i, j int) bool {
			if math.Abs(list[i].height-list[j].height) > 0.05 {
				return list[i].height > list[j].height
			}
			return list[i].width > list[j].width
		})
	}
	order(want)
	order(have)
	require.Len(t, have, len(want), where)
	for i := range want {
		// Cells round each edge by half a cell.
		require.InDelta(t, want[i].width, have[i].width, 3.0/cells, "%s space %d", where, i)
		require.InDelta(t, want[i].height, have[i].height, 0.05, "%s space %d", where, i)
	}
}

// The second layer of the attic is rows as wide as the blanket over the whole
// length: 16 ft in rows of 24 in are 8, of 40 ft each, 10 batts of 48 in.
func TestDemoAtticAcross(t *testing.T) {
	o, _, _ := demoOrder(t, demo.Default)
	top := o.Places[0].Layers[1]
	require.True(t, top.Across)
	require.Equal(t, 80, top.Stock)
}
