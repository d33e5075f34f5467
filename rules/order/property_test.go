package order

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/bill"
	"battwright/rules/catalog"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// randomWalls is a few walls with openings that leave room, as house text.
func randomWalls(r *rand.Rand) []string {
	var out []string
	for i := range 1 + r.IntN(4) {
		size := []string{"2x4", "2x6"}[r.IntN(2)]
		var lengths, openings []string
		for range 1 + r.IntN(3) {
			lengths = append(lengths, fmt.Sprint(10+r.IntN(30)))
		}
		for range r.IntN(3) {
			openings = append(openings, fmt.Sprintf("%q", fmt.Sprintf("1 of %d in x %d in", 20+r.IntN(30), 30+r.IntN(40))))
		}
		out = append(out, place(fmt.Sprintf("w%d", i), "exterior-wall",
			"lengths_ft = ["+strings.Join(lengths, ", ")+"]", fmt.Sprintf("height_ft = %d", 7+r.IntN(4)),
			"openings = ["+strings.Join(openings, ", ")+"]", fmt.Sprintf("framing.size = %q", size), fmt.Sprintf("framing.spacing_in = %d", []int{16, 24}[r.IntN(2)])))
	}
	return out
}

func TestOrderOfPlacesIsIrrelevant(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	for range 25 {
		walls := randomWalls(r)
		o, _, _ := made(t, houseOf(walls...))
		r.Shuffle(len(walls), func(i, j int) { walls[i], walls[j] = walls[j], walls[i] })
		again, _, _ := made(t, houseOf(walls...))
		require.Equal(t, bought(o), bought(again))
		require.Equal(t, o.Money.Total, again.Money.Total)
	}
}

// bought is what a store would see of an order.
func bought(o Order) []string {
	var out []string
	for _, l := range o.Lines {
		out = append(out, fmt.Sprint(l.Product.ID, l.Facing, l.WidthIn, l.LengthIn, l.Stock, l.Packages, l.Buy, l.Cost))
	}
	for _, g := range o.Goods {
		out = append(out, fmt.Sprint(g.ID, g.Count, g.Cost))
	}
	return out
}

// A wall typed as two walls orders what it would as one.
func TestWallSplitInTwo(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	for range 25 {
		a, b, height := 8+r.IntN(30), 8+r.IntN(30), 7+r.IntN(4)
		keys := fmt.Sprintf("height_ft = %d\nopenings = []\nframing.size = \"2x6\"\nframing.spacing_in = 16", height)
		one, _, _ := made(t, wall(fmt.Sprintf("lengths_ft = [%d, %d]", a, b), keys))
		two, _, _ := made(t, houseOf(place("a", "exterior-wall", fmt.Sprintf("lengths_ft = [%d]", a), keys), place("b", "exterior-wall", fmt.Sprintf("lengths_ft = [%d]", b), keys)))
		require.Equal(t, len(one.Lines), len(two.Lines))
		for i := range one.Lines {
			require.Equal(t, one.Lines[i].Stock, two.Lines[i].Stock, "%d + %d ft", a, b)
			require.Equal(t, one.Lines[i].Packages, two.Lines[i].Packages)
			require.Equal(t, one.Lines[i].Patterns, two.Lines[i].Patterns)
		}
	}
	// By area too, where the sizes of the windows are not known.
	keys := "height_ft = 8\nframing.size = \"2x4\"\nframing.spacing_in = 16"
	one, _, _ := made(t, wall("length_ft = 60\nopenings_ft2 = 90", keys))
	two, _, _ := made(t, houseOf(place("a", "exterior-wall", "length_ft = 25\nopenings_ft2 = 30", keys), place("b", "exterior-wall", "length_ft = 35\nopenings_ft2 = 60", keys)))
	require.Equal(t, one.Lines[0].Stock, two.Lines[0].Stock)
	require.Equal(t, one.Lines[0].Packages, two.Lines[0].Packages)
}

// Every space is covered, no piece is longer or wider than its stock, and the
// cutting plan of the house yields every piece of every place.
func TestPiecesCoverAndFit(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 3))
	texts := []string{demo.Text(demo.Names()[0]), demo.Text(demo.Names()[1]), demo.Text(demo.Names()[2])}
	for range 15 {
		texts = append(texts, houseOf(randomWalls(r)...))
	}
	for _, text := range texts {
		o, _, _ := made(t, text)
		need, yields := map[string]int{}, map[string]int{}
		for _, p := range o.Places {
			for _, l := range p.Layers {
				k := sold{l.Product.ID, l.Facing, l.WidthIn, l.LengthIn}
				clear, face := 0.0, 0.0
				for _, b := range l.Bays {
					clear += b.Ft2()
				}
				for _, c := range l.Cut {
					require.LessOrEqual(t, c.WidthIn, l.WidthIn)
					require.LessOrEqual(t, c.LengthIn, l.LengthIn)
					face += c.WidthIn * c.LengthIn / 144 * float64(c.Count)
					need[pieceID(k, c.WidthIn, c.LengthIn)] += c.Count
				}
				require.GreaterOrEqual(t, face, clear-1e-6, "%s: pieces %v cover %v", p.Label, face, clear)
			}
		}
		for _, l := range o.Lines {
			k := sold{l.Product.ID, l.Facing, l.WidthIn, l.LengthIn}
			for _, pattern := range l.Patterns {
				used := 0.0
				for _, slot := range pattern.Slots {
					side := 0.0
					for _, q := range slot.Pieces {
						side += q.WidthIn * float64(q.Count)
						yields[pieceID(k, q.WidthIn, q.LengthIn)] += q.Count * slot.Count * pattern.Count
					}
					require.LessOrEqual(t, side, l.WidthIn+1e-6)
					used += slot.LengthIn * float64(slot.Count)
				}
				require.LessOrEqual(t, used, l.LengthIn+1e-6)
			}
			require.GreaterOrEqual(t, l.Packages*l.PerPackage, l.Stock)
			require.Equal(t, l.Packages*l.PerPackage-l.Stock, l.Spare)
			require.Equal(t, l.Packages, l.Have+l.Buy)
		}
		for id, n := range need {
			require.GreaterOrEqual(t, yields[id], n, id)
		}
	}
}

// sold is what is bought together.
type sold struct {
	product, facing   string
	widthIn, lengthIn float64
}

func pieceID(k sold, widthIn, lengthIn float64) string {
	return fmt.Sprintf("%s/%s/%v: %v x %v", k.product, k.facing, k.widthIn, widthIn, lengthIn)
}

// withSpare is the catalog with another spare, as a builder's own data file
// would have it.
func withSpare(t testing.TB, share float64) *catalog.Catalog {
	t.Helper()
	record := `[[figure]]
id = "%s"
what = "spare"
unit = "share"
value = %v
source = "common-practice"
known = "practice"
`
	own := fstest.MapFS{"own.toml": {Data: []byte(fmt.Sprintf(record, "spare-plain", share) + fmt.Sprintf(record, "spare-cut-up", share))}}
	c, err := catalog.Load(data.Files, own)
	require.NoError(t, err)
	return c
}

// The places add up to the whole, and the whole to what is bought.
func TestMoneyAddsUp(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 4))
	texts := []string{demo.Text(demo.Names()[0]), demo.Text(demo.Names()[1]), demo.Text(demo.Names()[2])}
	for range 15 {
		texts = append(texts, houseOf(randomWalls(r)...))
	}
	for _, text := range texts {
		o, _, _ := made(t, text)
		var sum, parts units.Range[units.Cents]
		for _, l := range o.Lines {
			sum = sum.Plus(l.Cost)
		}
		for _, list := range [][]bill.Goods{o.Goods, o.Gear} {
			for _, g := range list {
				sum = sum.Plus(g.Cost)
				require.False(t, g.Quote && g.Priced)
			}
		}
		for _, p := range o.Places {
			parts = parts.Plus(p.Money.Total)
			sum = sum.Plus(p.Money.Labour)
			require.GreaterOrEqual(t, p.Money.Total.Low, units.Cents(0))
		}
		require.Equal(t, sum, o.Money.Total)
		require.Equal(t, parts, o.Money.Total)
		require.True(t, sum.Low <= sum.Typical && sum.Typical <= sum.High)
	}
}

// No text of a house makes the order fail.
func TestOrderNeverFails(t *testing.T) {
	kinds := fixture.List(t).PlaceKinds()
	r := rand.New(rand.NewPCG(6, 6))
	for range 60 {
		a := fixture.RandomHouse(t, r, kinds...)
		o := Make(plan.Make(a), a)
		require.Len(t, o.Places, len(kinds))
		for _, p := range o.Places {
			require.True(t, p.Skipped != "" || p.Problem != "" || len(p.Layers) > 0)
		}
		require.GreaterOrEqual(t, o.Money.Total.Low, units.Cents(0))
	}
}
