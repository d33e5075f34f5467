package takeoff

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// raster counts bays the slow way: the wall is painted square by square on a
// grid of 1/4 in and clear rectangles are read off it. Walls have at most one
// opening, centred. It shares no code with the package.
type raster struct {
	wide, high int
	wood       [][]bool // [x][y]
}

const perIn = 4

func (r *raster) paint(x0, y0, x1, y1 float64) {
	for x := max(0, int(math.Round(x0*perIn))); x < min(r.wide, int(math.Round(x1*perIn))); x++ {
		for y := max(0, int(math.Round(y0*perIn))); y < min(r.high, int(math.Round(y1*perIn))); y++ {
			r.wood[x][y] = true
		}
	}
}

func slowBays(lengthIn, studHeightIn, spacingIn float64, o *Opening) []Bay {
	top := studHeightIn + 4.5
	r := &raster{wide: int(lengthIn * perIn), high: int(top * perIn)}
	for range r.wide {
		r.wood = append(r.wood, make([]bool, r.high))
	}
	r.paint(0, 0, lengthIn, 1.5)
	r.paint(0, top-3, lengthIn, top)
	r.paint(0, 0, 1.5, top)
	r.paint(lengthIn-1.5, 0, lengthIn, top)
	left, right := math.Inf(1), math.Inf(-1)
	if o != nil {
		left, right = (lengthIn-o.WidthIn)/2, (lengthIn+o.WidthIn)/2
		r.paint(left-3, 0, left, top)
		r.paint(right, 0, right+3, top)
	}
	for c := spacingIn; c+0.75 <= lengthIn+0.75; c += spacingIn {
		if c-0.75 >= left-3 && c+0.75 <= right+3 {
			continue
		}
		r.paint(c-0.75, 0, c+0.75, top)
	}
	if o != nil {
		r.opening(*o, left, right, top, spacingIn)
	}
	return r.read(spacingIn)
}

func (r *raster) opening(o Opening, left, right, top, spacingIn float64) {
	head := math.Max(82.5, o.HeightIn)
	header := 11.25
	for _, h := range [][2]float64{{96, 9.25}, {72, 7.25}, {48, 5.5}} {
		if o.WidthIn <= h[0] {
			header = h[1]
		}
	}
	for c := 0.0; c < right; c += spacingIn {
		if c > left {
			r.paint(math.Max(left, c-0.75), 0, math.Min(right, c+0.75), top)
		}
	}
	r.paint(left, 0, left+1.5, top)
	r.paint(right-1.5, 0, right, top)
	// The hole, its sill and its header are all "not to be filled". Spaces
	// under an inch go with them.
	bottom := head - o.HeightIn - 1.5
	if bottom-1.5 < 1 {
		bottom = 0
	}
	upper := head + header
	if top-3-upper < 1 {
		upper = top
	}
	r.paint(left, bottom, right, upper)
}

// read takes clear rectangles off the grid, lower left corner first.
func (r *raster) read(spacingIn float64) []Bay {
	found := map[Bay]int{}
	for x := range r.wide {
		for y := range r.high {
			if r.wood[x][y] {
				continue
			}
			x1, y1 := x, y
			for x1 < r.wide && !r.wood[x1][y] {
				x1++
			}
			for y1 < r.high && !r.wood[x][y1] {
				y1++
			}
			b := Bay{WidthIn: float64(x1-x) / perIn, HeightIn: float64(y1-y) / perIn}
			switch {
			case y > int(1.5*perIn):
				b.Kind = KindAbove
			case y1 < r.high-3*perIn:
				b.Kind = KindBelow
			case b.WidthIn < spacingIn-2.25:
				b.Kind = KindOdd
			default:
				b.Kind = KindFull
			}
			found[b]++
			r.paint(float64(x)/perIn, float64(y)/perIn, float64(x1)/perIn, float64(y1)/perIn)
		}
	}
	var bays []Bay
	for b, n := range found {
		b.Count = n
		bays = append(bays, b)
	}
	return bays
}

func sortBays(b []Bay) []Bay {
	slices.SortFunc(b, func(a, b Bay) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.WidthIn, b.WidthIn), cmp.Compare(a.HeightIn, b.HeightIn))
	})
	return b
}

func TestBaysAgainstGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	seen := map[Kind]int{}
	for range 150 {
		length := float64(60+rng.IntN(700)) / 2
		spacing := []float64{12, 16, 24}[rng.IntN(3)]
		studs := float64(320+rng.IntN(120)) / 4
		w := Wall{LengthsIn: []float64{length}, HeightIn: studs + 4.5, DepthIn: 3.5, SpacingIn: spacing}
		var o *Opening
		if most := int(length) - 12; most > 12 && rng.IntN(3) > 0 {
			// Half the free length must fall on the grid.
			width := math.Floor(float64(8+rng.IntN(min(most, 110)-7))/2)*2 + math.Mod(length*2, 4)/2
			o = &Opening{WidthIn: width, HeightIn: float64(16 + rng.IntN(70)), Count: 1}
			w.Openings = []Opening{*o}
		}
		l, err := w.Layout()
		require.NoError(t, err)
		require.Equal(t, sortBays(slowBays(length, studs, spacing, o)), sortBays(slices.Clone(l.Bays)),
			"length %v studs %v spacing %v opening %+v", length, studs, spacing, o)
		for _, b := range l.Bays {
			seen[b.Kind] += b.Count
		}
	}
	for _, k := range []Kind{KindFull, KindOdd, KindAbove, KindBelow} {
		require.Positive(t, seen[k], string(k))
	}
}
