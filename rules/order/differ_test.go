package order

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/bill"
	"battwright/rules/units"
)

// An area with gables in it and lengths without: the larger of the two is
// ordered, so the gables are not left out of the shopping list. By hand: 144
// ft2 beyond the walls at 16 in are 108 ft of blanket, 14 batts of 93 in.
func TestGablesInTheAreaAreOrdered(t *testing.T) {
	two := func(area string) Order {
		o, _, _ := made(t, wall("lengths_ft = [24, 24]\nheight_ft = 8\nopenings = []\nframing.size = \"2x6\"\nframing.spacing_in = 16\n"+area))
		require.Len(t, o.Lines, 1)
		return o
	}
	plain, gables, less := two(""), two("area_ft2 = 528"), two("area_ft2 = 300")
	require.Empty(t, plain.Places[0].Differ)
	require.Equal(t, plain.Lines[0].Stock+14, gables.Lines[0].Stock)
	require.Equal(t, gables.Lines[0].Stock, gables.Places[0].Layers[0].Stock)
	require.Contains(t, gables.Places[0].Differ, "144 square feet")
	require.Equal(t, plain.Lines[0].Stock, less.Lines[0].Stock, "the lengths are more")
	require.Contains(t, less.Places[0].Differ, "the lengths, which are more")
	// Layers over the joists of an attic too.
	attic := func(area string) Order {
		o, _, _ := made(t, houseOf(place("attic", "attic", "length_ft = 40\nwidth_ft = 28\nframing.size = \"2x8\"\n"+area)))
		return o
	}
	small, large := attic(""), attic("area_ft2 = 1300")
	require.Len(t, large.Lines, len(small.Lines))
	for i, l := range large.Lines {
		face := float64(l.Stock) * l.WidthIn * l.LengthIn / (units.InchPerFoot * units.InchPerFoot)
		require.Greater(t, l.Stock, small.Lines[i].Stock)
		require.Greater(t, face, 1300*0.9, "wood may take its share")
	}
}

// Sawn joists are what is counted; a house with I-joists is told so.
func TestIJoistsAreSaidToBeUncounted(t *testing.T) {
	o, _, _ := made(t, houseOf(place("floor", "crawl-space", "length_ft = 32\nwidth_ft = 26\nvented = true\nframing.size = \"2x12\"\nframing.spacing_in = 19.2")))
	require.Contains(t, o.Places[0].Notes[1], "I-joists")
}

// A price for one of two blankets of a place replaces ours there in part.
func TestAPriceForOneOfTwoBlanketsCounts(t *testing.T) {
	text := houseOf(place("attic", "attic", "length_ft = 40\nwidth_ft = 28\nframing.size = \"2x8\""))
	o, _, _ := made(t, text)
	require.Len(t, o.Lines, 2)
	one, _, _ := made(t, text+quotesFor(o, 60, 1))
	require.Equal(t, 0, one.Money.Quoted)
	require.Equal(t, 1, one.Money.PartQuoted)
	both, _, _ := made(t, text+quotesFor(o, 60, 2))
	require.Equal(t, 1, both.Money.Quoted)
	require.Equal(t, 0, both.Money.PartQuoted)
}

// A blanket typed as 32 ft long is a roll, whatever ours is sold as.
func TestALongBlanketIsARoll(t *testing.T) {
	o, _, _ := made(t, wall(plainWall)+"[[quote]]\nproduct = \"fg-13\"\npieces = 1\nwidth_in = 15\nlength_in = 384\n")
	require.Equal(t, "roll", o.Lines[0].Form)
	require.Equal(t, "roll", o.Places[0].Layers[0].Form)
	batts, _, _ := made(t, wall(plainWall))
	require.Equal(t, "batt", batts.Lines[0].Form)
}

// A price typed for one width is not called the builder's price of another.
func TestAPriceOfAnotherWidthIsSaid(t *testing.T) {
	attic := houseOf(place("attic", "attic", "length_ft = 40\nwidth_ft = 28\nframing.size = \"2x8\"\nframing.spacing_in = 24"))
	quote := "[[quote]]\nproduct = \"fg-25\"\nusd = 60\nper = \"package\"\npieces = 10\nwidth_in = %g\nlength_in = 48\n"
	other, _, _ := made(t, attic+fmt.Sprintf(quote, 16.0))
	l := lineOf(t, other, "fg-25")
	require.True(t, l.Scaled)
	same, _, _ := made(t, attic+fmt.Sprintf(quote, l.WidthIn))
	own := lineOf(t, same, "fg-25")
	require.False(t, own.Scaled)
	require.Equal(t, 60.0, own.PerPack.Typical)
}

func lineOf(t *testing.T, o Order, product string) bill.Line {
	t.Helper()
	for _, l := range append(o.Lines, o.Unused...) {
		if l.Product.ID == product {
			return l
		}
	}
	require.Fail(t, "not ordered", product)
	return bill.Line{}
}
