package units

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every quantity in both systems. The factors are exact by the international
// yard and pound agreement of 1959 (0.3048 m, 0.45359237 kg; read); a Btu is
// 1055.056 J and a US perm 57.2135 ng/(s.m2.Pa) (handbook figures, from
// memory); the products are worked by hand.
func TestEveryQuantityInBothSystems(t *testing.T) {
	for _, c := range []struct {
		what   string
		show   func(System) string
		us, si string
	}{
		{"R of a bag", func(s System) string { return s.R(21) }, "R-21", "RSI 3.7"},
		{"R below ten", func(s System) string { return s.R(9.96) }, "R-10", "RSI 1.75"},
		{"R just below ten", func(s System) string { return s.R(9.94) }, "R-9.9", "RSI 1.75"},
		{"R of ten", func(s System) string { return s.R(10) }, "R-10", "RSI 1.76"},
		{"R of eleven and a half", func(s System) string { return s.R(11.4) }, "R-11", "RSI 2.01"},
		{"name of R", func(s System) string { return s.RName() }, "R-", "RSI "},
		{"R without its name", func(s System) string { return s.PlainR(20) }, "20", "3.52"},
		{"small R without its name", func(s System) string { return s.PlainR(4.25) }, "4.2", "0.75"},
		{"depth of a stud", func(s System) string { return s.Inches(5.5) }, "5 1/2 in", "140 mm"},
		{"a length off the ruler", func(s System) string { return s.Inches(6.3) }, "6.3 in", "160 mm"},
		{"a whole number of inches", func(s System) string { return s.Inches(16) }, "16 in", "406 mm"},
		{"half a wall", func(s System) string { return s.Feet(8.5) }, "8 ft 6 in", "2.59 m"},
		{"whole feet", func(s System) string { return s.Feet(24) }, "24 ft", "7.32 m"},
		{"feet and half an inch", func(s System) string { return s.Feet(8 + 1.5/12) }, "8 ft 1 1/2 in", "2.48 m"},
		{"feet between the marks", func(s System) string { return s.Feet(8.33) }, "8.3 ft", "2.54 m"},
		{"a million feet", func(s System) string { return s.Feet(1e6 + 0.5) }, "1000000.5 ft", "304800.15 m"},
		{"a floor", func(s System) string { return s.Area(1120) }, "1,120 ft2", "104.1 m2"},
		{"a large floor", func(s System) string { return s.Area(1234567.4) }, "1,234,567 ft2", "114695.1 m2"},
		{"less than nothing", func(s System) string { return s.Area(-1500) }, "-1,500 ft2", "-139.4 m2"},
		{"a truck", func(s System) string { return s.Volume(2755) }, "about 2,800 ft3", "about 78 m3"},
		{"on a ceiling", func(s System) string { return s.Load(1.6) }, "1.6 lb/ft2", "7.8 kg/m2"},
		{"frost", func(s System) string { return s.Temp(0) }, "32 F", "0 C"},
		{"where both meet", func(s System) string { return s.Temp(-40) }, "-40 F", "-40 C"},
		{"an ounce", func(s System) string { return s.Moisture(305.152) }, "1 oz/ft2", "305 g/m2"},
		{"a winter's loss", func(s System) string { return s.Energy(1) }, "1 MMBtu", "293 kWh"},
		{"a cold place", func(s System) string { return s.DegreeDays(7299) }, "about 7,300 F-days", "about 4,100 K-days"},
		{"a gap round the house", func(s System) string { return s.Feet(1265) }, "1,265 ft", "385.57 m"},
		// 1 Btu/ft2 is 11356.5 J/m2 (NIST SP 811, appendix B.8, from memory).
		{"what burns in a wall", func(s System) string { return s.HeatOfFire(11.3565) }, "about 1,000 Btu/ft2", "about 11 MJ/m2"},
		{"iron glows", func(s System) string { return s.Measured(1000, "C") }, "about 1,800 F", "about 1,000 C"},
		// A memory of 650 C turned into 1202 F would claim four figures.
		{"glass softens", func(s System) string { return s.Measured(650, "C") }, "about 1,200 F", "about 650 C"},
		{"price of an R", func(s System) string { return s.CentsForR(10.4) }, "about 10 cents/ft2/R", "about 640 cents/m2/RSI"},
		{"a criterion: heat", func(s System) string { return s.Measured(11.3565, "MJ/m2") }, "about 1,000 Btu/ft2", "about 11 MJ/m2"},
		{"a criterion: condensate", func(s System) string { return s.Measured(305.152, "g/m2") }, "1 oz/ft2", "305 g/m2"},
		{"a criterion: water taken up", func(s System) string { return s.Measured(7.8118, "kg/m2") }, "1.6 lb/ft2", "7.8 kg/m2"},
		{"a criterion in points", func(s System) string { return s.Measured(6, "points") }, "6 points", "6 points"},
		{"a share", func(s System) string { return s.Percent(0.8) }, "80 %", "80 %"},
		{"a leak", func(s System) string { return s.Leak(0.15) }, "0.5 ft3/ft2 an hour", "0.15 m3/m2 an hour"},
		{"rounded away", func(s System) string { return s.PlainR(-0.01) }, "0", "0"},
	} {
		require.Equal(t, c.us, c.show(US), c.what)
		require.Equal(t, c.si, c.show(SI), c.what)
	}
}

func TestFractionsOfAnInch(t *testing.T) {
	for in, want := range map[float64]string{
		0: "0", 0.0625: "1/16", 0.5: "1/2", 0.875: "7/8", 3.5: "3 1/2", 5.4375: "5 7/16", -1.25: "-1 1/4",
		1.0: "1", 0.99: "0.99", 1.004: "1", 1.0041: "1", 1.0045: "1", 1.02: "1.02", 2e12: "2000000000000",
	} {
		require.Equal(t, want, Fraction(in), in)
	}
	require.Equal(t, "?", Fraction(math.NaN()))
	require.Equal(t, "1.25", Fraction(1.25+0.0041), "off the mark by more than 0.004: decimals, not a fraction")
	require.Equal(t, "1 1/4", Fraction(1.25+0.0039))
}

func TestRangesAddAndMultiply(t *testing.T) {
	sum := Range[Cents]{100, 200, 300}.Plus(Range[Cents]{7, 8, 9})
	require.Equal(t, Range[Cents]{107, 208, 309}, sum)
	require.Equal(t, Range[Cents]{250, 500, 750}, CentsOver(Range[float64]{0.5, 1, 1.5}, 5))
	require.Equal(t, Cents(math.MinInt64), FromDollars(math.Inf(-1)))
	require.Equal(t, Cents(-13), FromDollars(-0.125))
	require.Equal(t, "-$0.49", US.Money(-49), "a small amount keeps its cents")
	require.Equal(t, "-$0.50", US.Money(-50))
	require.Equal(t, "-$1,234.05", US.MoneyExact(-123405))
	require.Equal(t, "$0.00", US.MoneyExact(0))
	require.Equal(t, "$999", US.Money(99900))
	require.Equal(t, "$1,000,000", US.Money(100000000))
}

// What is nearly a number is refused; each case differs from a good one in one
// place.
func TestNearlyNumbers(t *testing.T) {
	for text, ok := range map[string]bool{
		"7 1/4": true, "7.5 1/4": false, "7 4/4": false, "7 3/4": true, "4/4": true, "7 14": false, "x 1/4": false,
		"123456789012345": true, "1234567890123456": false, "1.2.3": false, "1,1,2": false, "8,5": false, "1,12": false, "1234,567": false, ",5": false, "1,120": true, "1,120.5": true, "1,120,000": true, "-7 1/4": false, "7-1/4": true, "7 x/4": false, "7 1/x": false,
	} {
		_, err := ParseNumber(text)
		require.Equal(t, ok, err == nil, "%q: %v", text, err)
	}
	for text, want := range map[string]float64{`0' 3"`: 3, "1.5 ft": 18, "2 ft.": 24, "3 in.": 3, `8'`: 96, "5\u2032 3\u2033": 63, "1 foot 1 inch": 13} {
		got, err := ParseInches(text)
		require.NoError(t, err, text)
		require.InDelta(t, want, got, 1e-9, text)
	}
	for _, text := range []string{`-1' 3"`, `1' -3"`, `1' 2' 3"`} {
		_, err := ParseInches(text)
		require.ErrorIs(t, err, ErrNotANumber, text)
	}
}
