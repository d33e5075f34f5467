package order

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/bill"
	"battwright/rules/house"
	"battwright/rules/takeoff"
	"battwright/rules/units"
	"battwright/testdata/demo"
)

const plainWall = "lengths_ft = [40]\nheight_ft = 8\nopenings = []\nframing.size = \"2x4\"\nframing.spacing_in = 16\nci_r = 10"

// quotesFor gives every line of an order a price per package.
func quotesFor(o Order, usd float64, lines int) string {
	text := ""
	for i, l := range o.Lines {
		if i >= lines {
			break
		}
		text += fmt.Sprintf("[[quote]]\nproduct = %q\nfacing = %q\nusd = %g\nper = \"package\"\npieces = %d\nwidth_in = %g\nlength_in = %g\n", l.Product.ID, l.Facing, usd, l.PerPackage, l.WidthIn, l.LengthIn)
	}
	return text
}

func TestOwnPriceReplacesOurs(t *testing.T) {
	o, p, _ := made(t, wall(plainWall))
	require.Len(t, o.Lines, 1)
	require.False(t, o.Lines[0].Quoted)
	require.Positive(t, o.Lines[0].Year)
	require.Zero(t, o.Money.Quoted)

	quoted, pq, _ := made(t, wall(plainWall)+quotesFor(o, 42, 1))
	l := quoted.Lines[0]
	require.True(t, l.Quoted && l.Label)
	require.Equal(t, units.Same(units.Cents(4200*int64(l.Buy))), l.Cost)
	require.Equal(t, 1, quoted.Money.Quoted)
	require.Equal(t, 1, quoted.Money.Priced)
	require.True(t, pq.Places[0].Choice.Money.AllQuoted(1))
	require.NotEqual(t, p.Places[0].Choice.Money.PerFt2, pq.Places[0].Choice.Money.PerFt2)
	// Price per package over its coverage is the price per square foot.
	per := 42 / (11 * 15 * 93 / 144.0)
	require.InDelta(t, per, pq.Places[0].Choice.Money.PerFt2.Typical, 0.08, "the blanket, and staples and gear of a few cents")
}

// A price per square foot and the same price per package cost the same.
func TestPriceByAreaOrPackage(t *testing.T) {
	size := "pieces = 11\nwidth_in = 15\nlength_in = 93\n"
	ft2 := 11.0 * 15 * 93 / 144
	a, _, _ := made(t, wall(plainWall)+"[[quote]]\nproduct = \"fg-13\"\nusd = 85.25\nper = \"package\"\n"+size)
	b, _, _ := made(t, wall(plainWall)+fmt.Sprintf("[[quote]]\nproduct = \"fg-13\"\nusd = %v\nper = \"ft2\"\n", 85.25/ft2)+size)
	require.Equal(t, a.Lines[0].Cost, b.Lines[0].Cost)
	require.Equal(t, a.Money.Total, b.Money.Total)
}

func TestAlreadyHaveIsTakenOff(t *testing.T) {
	o, _, _ := made(t, wall(plainWall))
	need := o.Lines[0].Packages
	for _, have := range []int{0, 1, need, need + 5} {
		text := wall(plainWall) + fmt.Sprintf("[[quote]]\nproduct = \"fg-13\"\nhave = %d\n", have)
		got, _, _ := made(t, text)
		require.Equal(t, need, got.Lines[0].Packages)
		require.Equal(t, min(have, need), got.Lines[0].Have)
		require.Equal(t, max(0, need-have), got.Lines[0].Buy)
		require.Equal(t, got.Lines[0].Buy == 0, got.Lines[0].Cost.High == 0)
	}
}

// One label for any face is for two lines here; what is there already is taken
// off once, not from both.
func TestHaveIsTakenOffOnce(t *testing.T) {
	o, _, _ := made(t, demo.Text(demo.Default)+"[[quote]]\nproduct = \"fg-13\"\nhave = 8\n")
	have, need := 0, 0
	for _, l := range o.Lines {
		if l.Product.ID == "fg-13" {
			have, need = have+l.Have, need+l.Packages
		}
	}
	require.Equal(t, 8, have)
	require.Greater(t, need, 8)
}

// Odds only when the builder's own prices carry the bigger half of the money.
func TestOddsOnlyFromOwnPrices(t *testing.T) {
	o, _, _ := demoOrder(t, demo.Default)
	require.Nil(t, o.Money.Odds)
	require.Nil(t, o.Money.Enough)
	all, _, _ := made(t, demo.Text(demo.Default)+quotesFor(o, 70, len(o.Lines)))
	require.Greater(t, all.Money.QuotedShare, 0.5)
	require.NotNil(t, all.Money.Odds)
	require.Greater(t, 2*all.Money.Quoted, all.Money.Priced, "a price may turn a place to another blanket")
	require.GreaterOrEqual(t, all.Money.Odds.Independent, 0.0)
	require.LessOrEqual(t, all.Money.Odds.Independent, 1.0)
	require.True(t, all.Money.Enough.Independent >= all.Money.Total.Low && all.Money.Enough.Together <= all.Money.Total.High)
	few, _, _ := made(t, demo.Text(demo.Default)+quotesFor(o, 70, 1))
	require.Less(t, few.Money.QuotedShare, 0.5)
	require.Nil(t, few.Money.Odds)
}

// The label of the package counts: another length is cut from another stock,
// another width is refused where it does not fill the space.
func TestLabelRules(t *testing.T) {
	short, _, _ := made(t, wall(plainWall)+"[[quote]]\nproduct = \"fg-13\"\npieces = 16\nwidth_in = 15\nlength_in = 48\n")
	require.Equal(t, 48.0, short.Lines[0].LengthIn)
	require.Equal(t, 16, short.Lines[0].PerPackage)
	require.NotEmpty(t, short.Places[0].Layers[0].Joints)
	narrow, _, _ := made(t, wall(plainWall)+"[[quote]]\nproduct = \"fg-13\"\npieces = 16\nwidth_in = 11\nlength_in = 93\n")
	require.Equal(t, 15.0, narrow.Lines[0].WidthIn)
	require.False(t, narrow.Lines[0].Label)
	require.Contains(t, fmt.Sprint(narrow.Places[0].Notes), "does not fill")
	// Coverage alone gives the pieces of the usual size.
	cover, _, _ := made(t, wall(plainWall)+"[[quote]]\nproduct = \"fg-13\"\nwidth_in = 15\nlength_in = 93\ncoverage_ft2 = 77.5\n")
	require.Equal(t, 8, cover.Lines[0].PerPackage)
}

func TestNineFootWall(t *testing.T) {
	o, _, _ := made(t, wall("lengths_ft = [40]\nheight_ft = 9\nopenings = []\nframing.size = \"2x4\"\nci_r = 10"))
	l := o.Places[0].Layers[0]
	require.Len(t, l.Joints, 1)
	require.Equal(t, 104.625, l.Joints[0].BayIn)
	require.Contains(t, o.Places[0].Notes[len(o.Places[0].Notes)-1], "each space of 104 5/8 in takes 1 whole 93 in and a piece of 12 in")
	long, _, _ := made(t, wall("lengths_ft = [40]\nheight_ft = 9\nopenings = []\nframing.size = \"2x4\"\nci_r = 10")+"[[quote]]\nproduct = \"fg-13\"\npieces = 10\nwidth_in = 15\nlength_in = 105\n")
	require.Empty(t, long.Places[0].Layers[0].Joints)
}

// What cannot be counted says so in words, and the rest is counted.
func TestBadSizesInWords(t *testing.T) {
	for name, c := range map[string]struct{ keys, want string }{
		"openings larger than the wall": {"lengths_ft = [10]\nheight_ft = 8\nopenings = [\"3 of 8 ft x 7 ft\"]", "windows and doors do not fit"},
		"opening area larger":           {"length_ft = 10\nheight_ft = 8\nopenings_ft2 = 200", "windows and doors do not fit"},
		"opening taller":                {"lengths_ft = [40]\nheight_ft = 8\nopenings = [\"1 of 3 ft x 12 ft\"]", "windows and doors do not fit"},
		"half a foot high":              {"lengths_ft = [40]\nheight_ft = 0.5\nopenings = []", ""},
		"no space left":                 {"lengths_ft = [0.5]\nheight_ft = 8\nopenings = []\nframing.spacing_in = 8", ""},
		"too long":                      {"lengths_ft = [2000]\nheight_ft = 40\nopenings = []", ""},
	} {
		o, _, _ := made(t, wall(c.keys)+place("good", "basement-wall", "length_ft = 20\nheight_ft = 8\nopenings = []\nfoam_r = 15\ndampness = \"dry\""))
		if c.want != "" {
			require.Contains(t, o.Places[0].Problem, c.want, name)
			require.Empty(t, o.Places[0].Layers, name)
		}
		require.True(t, o.Places[0].Problem != "" || len(o.Places[0].Layers) > 0, name)
		require.Empty(t, o.Places[1].Problem+o.Places[1].Skipped, name)
		require.NotEmpty(t, o.Lines, name)
	}
}

// What a place needs besides blankets.
func TestExtras(t *testing.T) {
	o, _, _ := demoOrder(t, demo.Default)
	find := func(id string) bill.Goods {
		for _, g := range o.Goods {
			if g.ID == id {
				return g
			}
		}
		return bill.Goods{}
	}
	require.True(t, find("board-5-outside").Quote, "the board that the target needs is not priced")
	require.Equal(t, 1, find("hatch-cover").Count)
	require.True(t, find("firestop").Quote, "the mason brings it")
	require.Zero(t, find("ground-sheet").Count, "the earth is covered already")
	// 28 ft of joists at 16 in are 21 spaces of 237 in; a wire 6 in from both
	// ends and at most 16 in apart: 1 + ceil(225 / 16) = 16 in each.
	require.Equal(t, 21*16, find("support-wire").Count)
	// Two eaves, 30 spaces of the attic; the sloped ceiling by its area.
	require.GreaterOrEqual(t, find("baffle").Count, 60)

	hot, _, _ := demoOrder(t, "house-on-stilts.toml")
	sheet := 0
	for _, g := range hot.Goods {
		if g.ID == "ground-sheet" {
			sheet = g.Count
		}
	}
	require.Equal(t, 1430, sheet, "44 x 26 ft and a quarter for laps")
	require.Empty(t, hot.Gear, "an installer brings his own")
	require.Positive(t, hot.Money.Labour.Typical)
}

func TestUnmeasuredIsSaid(t *testing.T) {
	o, _, _ := made(t, wall("framing.size = \"2x4\""))
	require.True(t, o.Places[0].NotMeasured())
	require.Contains(t, o.Places[0].Assumed, "area")
	require.Equal(t, takeoff.ByModule, o.Places[0].How)
	full, _, _ := made(t, wall(plainWall+"\nmeasured = [\"lengths_ft\", \"height_ft\"]"))
	require.False(t, full.Places[0].NotMeasured())
	require.Equal(t, 2, full.Places[0].Measured)
	require.Equal(t, []string{"lengths_ft", "height_ft", "openings", "framing.size", "framing.spacing_in"}, full.Places[0].SizeKeys)
}

// The spare is ordered: 23 batts in packages of 6 are 4 packages, with 5 % to
// spare 5. Places that need much cutting bring more of it.
func TestSpareIsOrdered(t *testing.T) {
	_, p, a := demoOrder(t, demo.Default)
	packages := func(share float64) int {
		with := house.Answered{List: house.NewList(withSpare(t, share)), House: a.House}
		for _, l := range Make(p, with).Lines {
			if l.Product.ID == "fg-20" {
				require.Equal(t, 23, l.Stock)
				return l.Packages
			}
		}
		return 0
	}
	require.Equal(t, 4, packages(0.01))
	require.Equal(t, 5, packages(0.05))
}

// What is sold whole is rounded up once, over the house.
func TestGoodsAreRoundedUpOnce(t *testing.T) {
	o, _, _ := demoOrder(t, demo.Default)
	for _, g := range o.Goods {
		per := map[string]float64{"tube": 30, "board": 32, "paint": 350}[g.Unit]
		if per == 0 {
			per = 1
		}
		require.GreaterOrEqual(t, float64(g.Count)*per, g.Qty-1e-6, g.ID)
		require.Less(t, float64(g.Count-1)*per, g.Qty, g.ID)
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
