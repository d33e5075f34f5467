package house_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

func TestBadQuotesInWords(t *testing.T) {
	l := fixture.List(t)
	for text, want := range map[string]string{
		"product = \"fg-99\"": `found "fg-99"; want one of fg-11`,
		"":                    "product: found nothing",
		"product = \"fg-13\"\nusd = 60\nper = \"package\"":                                    "want coverage_ft2, or pieces, width_in and length_in, from the label",
		"product = \"fg-13\"\nusd = 60":                                                       "a price per package says little without its size",
		"product = \"fg-13\"\nusd = -1\nper = \"ft2\"":                                        "found -1; want a number of dollars from 0.01",
		"product = \"fg-13\"\nusd = \"60\"\nper = \"ft2\"":                                    "without quote marks",
		"product = \"fg-13\"\nper = \"bag\"":                                                  `found "bag"; want one of package, ft2`,
		"product = \"ct-13\"\nfacing = \"kraft\"":                                             `found "kraft"; want one of none`,
		"product = \"fg-13\"\nprice = 3":                                                      "price: found a key that is not used here",
		"product = \"fg-13\"\npieces = 2.5":                                                   "a whole number",
		"product = \"fg-13\"\nwidth_in = nan":                                                 "width_in",
		"product = \"fg-13\"\npieces = 11\nwidth_in = 15\nlength_in = 93\ncoverage_ft2 = 300": "look at the label again",
		"product = \"fg-13\"\nhave = 1\n[[quote]]\nproduct = \"fg-13\"\nhave = 2":             "one label for each product and face",
	} {
		_, err := house.Read(l, "q.toml", "version = 1\n[[quote]]\n"+text+"\n")
		require.Error(t, err, text)
		require.Contains(t, err.Error(), want, text)
	}
	_, err := house.Read(l, "q.toml", "version = 1\n"+strings.Repeat("[[quote]]\nproduct = \"fg-13\"\n", house.MaxQuotes+1))
	require.ErrorContains(t, err, "101 labels and prices; want at most 100")
}

func TestSetQuote(t *testing.T) {
	h := house.New()
	h.SetQuote(house.Quote{Product: "fg-13"})
	require.Empty(t, h.Quotes, "says nothing")
	h.SetQuote(house.Quote{Product: "fg-13", Have: 2})
	h.SetQuote(house.Quote{Product: "fg-13", Facing: "kraft", USD: 1, Per: house.PerFt2})
	q, ok := house.FindQuote(h.Quotes, "fg-13", "kraft")
	require.True(t, ok)
	require.Equal(t, 1.0, q.USD)
	q, ok = house.FindQuote(h.Quotes, "fg-13", "none")
	require.True(t, ok, "the label for any face")
	require.Equal(t, 2, q.Have)
	_, ok = house.FindQuote(h.Quotes, "fg-21", "none")
	require.False(t, ok)
	h.SetQuote(house.Quote{Product: "fg-13"})
	require.Len(t, h.Quotes, 1)
}

func TestParsePrice(t *testing.T) {
	for typed, want := range map[string]struct {
		usd float64
		per string
	}{
		"62.50": {62.5, "package"}, "$62.50 a package": {62.5, "package"}, "62.50/bag": {62.5, "package"}, "1.15 per ft2": {1.15, "ft2"},
		"$1.15 / sq ft": {1.15, "ft2"}, "1.15 a square foot": {1.15, "ft2"}, "$1,240.00 per roll": {1240, "package"},
	} {
		usd, per, err := house.ParsePrice(typed, units.US)
		require.NoError(t, err, typed)
		require.InDelta(t, want.usd, usd, 1e-9, typed)
		require.Equal(t, want.per, per, typed)
	}
	for _, typed := range []string{"", "cheap", "-3", "nan", "1e99", "0", "62 62", "1.15 per meter", "?"} {
		_, _, err := house.ParsePrice(typed, units.US)
		require.ErrorIs(t, err, house.ErrAnswer, typed)
	}
}

func TestParseOpening(t *testing.T) {
	for typed, want := range map[string]house.Opening{
		"2 of 36 in x 48 in": {Count: 2, WidthIn: 36, HeightIn: 48}, "36 x 48": {Count: 1, WidthIn: 36, HeightIn: 48}, "1 of 3 ft x 6 ft 8 in": {Count: 1, WidthIn: 36, HeightIn: 80},
		"3 of 2' 6\" x 4'": {Count: 3, WidthIn: 30, HeightIn: 48}, "38 1/2 x 82 1/2": {Count: 1, WidthIn: 38.5, HeightIn: 82.5}, "2 OF 36 X 48": {Count: 2, WidthIn: 36, HeightIn: 48},
	} {
		got, err := house.ParseOpening(typed)
		require.NoError(t, err, typed)
		require.Equal(t, want, got, typed)
		again, err := house.ParseOpening(got.String())
		require.NoError(t, err)
		require.Equal(t, got, again)
	}
	for _, typed := range []string{"", "x", "3 x 4", "0 of 36 x 48", "201 of 36 x 48", "10000 of 36 x 48", "-1 of 36 x 48", "36 by 48", "36 x 48 x 2", "2 of big", "36 in x 999 in", "nan x 48", "two of 36 x 48"} {
		_, err := house.ParseOpening(typed)
		require.ErrorIs(t, err, house.ErrAnswer, typed)
	}
}

// What is read as an opening is written and read again as the same.
func FuzzParseOpening(f *testing.F) {
	for _, s := range []string{"2 of 36 in x 48 in", "3' x 6'8\"", "1 of 38 1/2 x 82.3", "x", "9 of 9 of 9 x 9", "7X20/003"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		o, err := house.ParseOpening(s)
		if err != nil {
			require.ErrorIs(t, err, house.ErrAnswer)
			return
		}
		again, err := house.ParseOpening(o.String())
		require.NoError(t, err, "%q", o.String())
		require.Equal(t, o, again)
	})
}

// The sizes of a wall: the list of pieces wins over the one length, the list
// of openings over their square feet.
func TestSizesOfAWall(t *testing.T) {
	l := fixture.List(t)
	h, err := house.Read(l, "w.toml", "version = 1\n[[place]]\nkind = \"exterior-wall\"\nlength_ft = 5\nlengths_ft = [10, 20.5]\nheight_ft = 8\nopenings_ft2 = 99\nopenings = [\"2 of 36 in x 48 in\"]\n")
	require.NoError(t, err)
	a := house.Answered{List: l, House: h}
	p := &h.Places[0]
	long, ok := a.LongFt(p)
	require.True(t, ok)
	require.InDelta(t, 30.5, long, 1e-9)
	require.InDelta(t, 30.5*8-24, a.NetAreaFt2(p), 1e-9)
	require.Equal(t, []house.Opening{{Count: 2, WidthIn: 36, HeightIn: 48}}, house.OpeningsOf(p))
	q, _ := l.Find("place.lengths_ft")
	got, err := q.Parse("40, 12 ft 6 in; 8' 3\"")
	require.NoError(t, err)
	require.Equal(t, []string{"40", "12.5", "8.25"}, got.List)
	for _, bad := range []string{"40 28", "long", "40, -1", "0.1"} {
		_, err := q.Parse(bad)
		require.ErrorIs(t, err, house.ErrAnswer, bad)
	}
	require.Equal(t, 2, p.MarkMeasured([]string{"lengths_ft", "openings", "stud_in"}), "what was not answered was not measured")
	require.Zero(t, p.MarkMeasured([]string{"lengths_ft"}))
}
