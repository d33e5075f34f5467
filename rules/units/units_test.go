package units

import (
	"math"
	"testing"
	"testing/quick"

	"github.com/stretchr/testify/require"
)

func TestParseInches(t *testing.T) {
	for text, want := range map[string]float64{
		"7 1/4": 7.25, "7-1/4": 7.25, "7.25": 7.25, "1/2": 0.5, "5 1/2 in": 5.5, `5.5"`: 5.5,
		"8' 2 1/2\"": 98.5, "8 ft 2 in": 98, "8ft": 96, "8'": 96, "0": 0, "  16 ": 16,
	} {
		got, err := ParseInches(text)
		require.NoError(t, err, text)
		require.InDelta(t, want, got, 1e-9, text)
	}
	for _, text := range []string{"", "x", "-3", "1/0", "7 9/4", "1 2 3", "inf", "NaN", "1e5", "0x10", "7 .5", "8' x"} {
		_, err := ParseInches(text)
		require.ErrorIs(t, err, ErrNotANumber, text)
	}
}

func TestParseFeet(t *testing.T) {
	for text, want := range map[string]float64{"8": 8, "8 1/2": 8.5, "8' 6\"": 8.5, "96 in": 8, "1,120": 1120} {
		got, err := ParseFeet(text)
		require.NoError(t, err, text)
		require.InDelta(t, want, got, 1e-9, text)
	}
}

func TestFractionRoundTrip(t *testing.T) {
	same := func(n uint16) bool {
		in := float64(n) / 16
		got, err := ParseInches(Fraction(in))
		return err == nil && got == in
	}
	require.NoError(t, quick.Check(same, nil))
	require.Equal(t, "5 1/2", Fraction(5.5))
	require.Equal(t, "15/16", Fraction(0.9375))
	require.Equal(t, "6.3", Fraction(6.3))
}

// One US perm is 57.2135 ng/(s.m2.Pa), computed. Beside still air of 2.0e-10
// kg/(m.s.Pa) (ISO 13788) sheets then come to the meters that a public table of
// vapor resistances has for them (from memory).
func TestPermsAgreeWithATableOfResistances(t *testing.T) {
	for perms, meters := range map[float64]float64{1: 3.496, 0.06: 58, 50: 0.07} {
		require.InEpsilon(t, meters, 2.0e-10/(perms*NgPerPerm*1e-12), 0.01, "%v perm", perms)
	}
}

// The factor is the one printed in a note of the National Building Code of
// Canada, division B, part 9 (read): 5.678263 h.ft2.F/Btu per m2K/W. It must
// agree with the definitions of the foot, the pound and the Btu.
func TestFactorsAgreeWithDefinitions(t *testing.T) {
	const joulePerBtu = 1055.05585262
	fromDefinitions := joulePerBtu / 3600 / M2PerFt2 * 1.8 // W/m2K per Btu/h.ft2.F
	require.InDelta(t, RIPPerRSI, fromDefinitions, 1e-5)
}

func TestTemperatureRoundTrip(t *testing.T) {
	require.InDelta(t, 32, CToF(0), 1e-12)
	require.InDelta(t, 100, FToC(212), 1e-12)
	require.NoError(t, quick.Check(func(c float64) bool {
		if math.Abs(c) > 1e6 {
			return true
		}
		return math.Abs(FToC(CToF(c))-c) < 1e-6
	}, nil))
}

func TestMoney(t *testing.T) {
	require.Equal(t, "$1,240", US.Money(123950))
	require.Equal(t, "-$5", US.Money(-500))
	require.Equal(t, "$0.75", US.MoneyExact(75))
	require.Equal(t, "$340 to $470", US.MoneyRange(Range[Cents]{34000, 40000, 47000}))
	require.Equal(t, "$340", US.MoneyRange(Same(Cents(34000))))
	require.Equal(t, Cents(0), FromDollars(math.NaN()))
	require.Equal(t, Cents(math.MaxInt64), FromDollars(math.Inf(1)))
	require.Equal(t, Cents(13), FromDollars(0.125))
}

func FuzzParseInches(f *testing.F) {
	for _, s := range []string{"7 1/4", `8' 2"`, "1,120", "-1", "''", `"`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, err := ParseInches(s)
		if err == nil && (v < 0 || math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Fatalf("%q gave %v", s, v)
		}
	})
}

// A rough price carries two figures: a price that can be off by a third is not
// known to the dollar. What somebody was told keeps its dollars.
func TestRoughMoney(t *testing.T) {
	for _, x := range []struct {
		low, typical, high Cents
		want               string
	}{
		{149100, 190000, 245100, "$1,500 to $2,500"},
		{428400, 553400, 728600, "$4,300 to $7,300"},
		{24100, 33000, 43700, "$240 to $440"},
		{9200, 12000, 16100, "$92 to $160"},
		{6300, 8000, 10400, "$63 to $100"},
		{123456, 123456, 123456, "$1,235"}, // a price that was typed
		{123600, 123800, 123900, "$1,236 to $1,239"},
		{100, 120, 130, "$1"},
	} {
		require.Equal(t, x.want, US.MoneyRange(Range[Cents]{x.low, x.typical, x.high}))
	}
	house := Range[Cents]{428400, 553400, 728600}
	require.Equal(t, "$5,500", US.MoneyOf(house.Typical, house))
	require.Equal(t, Cents(10000), MoneyGap(14200, house))
	require.Equal(t, Cents(0), MoneyGap(4900, house), "less than the figures tell")
	require.Equal(t, Cents(14200), MoneyGap(14200, Same(Cents(500000))))
	for c, want := range map[Cents]string{107500: "$1,100", 22500: "$230", 8393: "$84", 1200: "$12", 40: "less than $1", 0: "$0", -8393: "-$84"} {
		require.Equal(t, want, US.MoneyAbout(c))
	}
}

// What is shown of a rough price is never further off than a twentieth.
func TestRoughMoneyStaysNear(t *testing.T) {
	for low := int64(1); low < 1e12; low = low*7/5 + 1 {
		for _, spread := range []int64{0, 99, low / 9, low, low * 3} {
			for _, c := range []int64{low, low + spread} {
				near := int64(roundTo(Cents(c), roughStep(Cents(c), Cents(spread))))
				require.LessOrEqual(t, max(near-c, c-near), max(50, c/20), "%d shown as %d", c, near)
			}
		}
	}
}
