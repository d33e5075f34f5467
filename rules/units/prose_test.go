package units_test

import (
	"strconv"
	"strings"
	"testing"
	"testing/quick"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// The SI figures are worked by hand from exact definitions: 25.4 mm, 0.3048 m
// (international yard and pound agreement, 1959), 0.45359237 kg; F to C by
// (F - 32) / 1.8; 5.678263 h.ft2.F/Btu in 1 m2K/W (National Building Code of
// Canada, read); 57.2135 ng/(s.m2.Pa) in a perm (from memory).
func TestProseInBothSystems(t *testing.T) {
	for _, c := range []struct{ prose, us, si string }{
		{"nothing to turn", "nothing to turn", "nothing to turn"},
		{"keep {3 in} free", "keep 3 in free", "keep 76 mm free"},
		{"keep {3 inches min} free", "keep 3 inches free", "keep 77 mm free"}, // 76.2
		{"{1 in min}", "1 in", "26 mm"},                                       // 25.4
		{"{500 square feet max}", "500 square feet", "46.4 m2"},               // 46.45
		{"{1/2 inch} drywall", "1/2 inch drywall", "13 mm drywall"},
		{"{half an inch} over", "half an inch over", "13 mm over"},
		{"{A thousandth of an inch}", "A thousandth of an inch", "0.025 mm"},
		{"every {12 to 18 in}", "every 12 to 18 in", "every 305 to 457 mm"},
		{"{16 or 24 inches}", "16 or 24 inches", "406 or 610 mm"},
		{"{3 1/2, 5 1/2 or 7 1/4 inches}", "3 1/2, 5 1/2 or 7 1/4 inches", "89, 140 or 184 mm"},
		{"a 2x6 is {5 1/2 inches bare}.", "a 2x6 is 5 1/2.", "a 2x6 is 140."},
		{"{4 by 8 feet}", "4 by 8 feet", "1.22 by 2.44 m"},
		{"{10 ft min} below", "10 ft below", "3.05 m below"},
		{"{500 ft2}", "500 ft2", "46.5 m2"},
		{"{20 lb/ft2}", "20 lb/ft2", "97.6 kg/m2"},
		{"{1.15 per ft2}", "1.15 per ft2", "12.38 per m2"},
		{"{400 F}", "400 F", "204 C"},
		{"{1 F difference} colder", "1 F colder", "0.6 C colder"},
		{"{R-5} in zones up to 3", "R-5 in zones up to 3", "RSI 0.88 in zones up to 3"},
		{"{R-3.5 to 3.7 an inch}", "R-3.5 to 3.7 an inch", "RSI 2.43 to 2.57 for each 100 mm"},
		{"about {3 for each inch}", "about 3 for each inch", "about RSI 2.08 for each 100 mm"},
		{"about {R-4.2 an inch bare}", "about 4.2", "about 2.91"},
		{"{0.1 perm}", "0.1 perm", "5.7 ng/(s.m2.Pa)"},
		{"{6 mil} sheet", "6 mil sheet", "6 mil (0.15 mm) sheet"},
		{"How many {square feet|square meters}?", "How many square feet?", "How many square meters?"},
	} {
		p := units.Prose(c.prose)
		found, _ := p.Problem()
		require.Empty(t, found, c.prose)
		require.Equal(t, c.us, p.In(units.US), c.prose)
		require.Equal(t, c.us, p.String(), c.prose)
		require.Equal(t, c.si, p.In(units.SI), c.prose)
	}
}

// Each mistake is named with what would be right.
func TestProseThatIsNotUnderstood(t *testing.T) {
	for prose, want := range map[string]string{
		"{3 inn}": "a unit behind the figure", "{3}": "a unit behind", "{}": "a unit behind", "{in}": "a unit behind", "{3 m}": "a unit behind", "{inches}": "a unit behind",
		"{three in}": "a number", "{1/0 in}": "a number", "{12-18 in}": "a number", "{ 3 in}": "a number", "{-3 F}": "a number", "{12 to in}": "a number",
		"{R-5 in}": "an R without a unit", "{R-x}": "a number",
		"{3 in difference}": "a difference of temperatures",
		"{3 in":             "its }", "3 in}": "its }", "a } b {3 in}": "its }", "{{3 in}}": "its }",
		"{square feet|}": "words in US units", "{|square meters}": "words in US units", "{3 in|76 mm}": "without digits", "{a|b|c}": "words in US units",
	} {
		found, right := units.Prose("Keep " + prose + " free").Problem()
		require.Contains(t, right, want, prose)
		require.NotEmpty(t, found, prose)
	}
}

// What must stay free is never shown as less than it is, what is at most never
// as more, and neither is off by more than the last digit.
func TestProseBoundsHold(t *testing.T) {
	holds := func(sixteenths uint16) bool {
		in := float64(sixteenths) / 16
		shown := func(how string) float64 {
			s := units.Prose("{" + units.Fraction(in) + " in " + how + "}").In(units.SI)
			v, err := strconv.ParseFloat(strings.TrimSuffix(s, " mm"), 64)
			require.NoError(t, err, s)
			return v
		}
		mm := in * 25.4
		least, most := shown("min"), shown("max")
		return least >= mm-1e-6 && least < mm+1 && most <= mm+1e-6 && most > mm-1
	}
	require.NoError(t, quick.Check(holds, nil))
	require.Equal(t, "26 mm", units.SI.Clearance(1))
	require.Equal(t, "51 mm", units.SI.Clearance(2))
	require.Equal(t, "1 in", units.US.Clearance(1))
	require.Equal(t, "305 mm", units.SI.Clearance(12))
	require.Equal(t, "46.4 m2", units.SI.AreaMost(500), "46.45, and as {500 ft2 max} says it")
	require.Equal(t, "500 ft2", units.US.AreaMost(500))
}

// A figure in prose reads as the same figure that was worked out.
func TestProseReadsLikeWorkedFigures(t *testing.T) {
	same := func(n uint8) bool {
		v := float64(n) + 1
		text := strconv.Itoa(int(n) + 1)
		for prose, want := range map[string]func(units.System) string{
			text + " in":     func(s units.System) string { return s.Inches(v) },
			text + " ft":     func(s units.System) string { return s.Feet(v) },
			text + " ft2":    func(s units.System) string { return s.Area(v) },
			text + " lb/ft2": func(s units.System) string { return s.Load(v) },
			text + " F":      func(s units.System) string { return s.Temp(units.FToC(v)) },
			"R-" + text:      func(s units.System) string { return s.R(v) },
		} {
			for _, s := range []units.System{units.US, units.SI} {
				if got := units.Prose("{" + prose + "}").In(s); got != want(s) {
					t.Log(prose, got, want(s))
					return false
				}
			}
		}
		return true
	}
	require.NoError(t, quick.Check(same, nil))
}

// Whatever a file holds, prose that passes the check shows no brace, and in US
// units only what is written.
func FuzzProse(f *testing.F) {
	for _, s := range []string{"keep {3 in min} free", "{", "}{", "{R-3.5 to 3.7 an inch}", "{a|b}", "{half an inch}", "{1 F difference}"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p := units.Prose(s)
		us, si := p.In(units.US), p.In(units.SI)
		if found, _ := p.Problem(); found == "" && strings.ContainsAny(us+si, "{}") {
			t.Fatalf("%q shows %q and %q", s, us, si)
		}
	})
}

// Figures with an SI unit are read wherever lengths, areas and R are typed.
func TestParseOther(t *testing.T) {
	for _, c := range []struct {
		text, unit string
		want       float64
	}{
		{"140 mm", "in", 140 / 25.4},
		{"14cm", "in", 14 / 2.54},
		{"2.4 m", "in", 2400 / 25.4},
		{"3.6 m", "ft", 3.6 / 0.3048},
		{"2440 mm", "ft", 2.44 / 0.3048},
		{"30 m2", "ft2", 30 / (0.3048 * 0.3048)},
		{"RSI 3.7", "R", 3.7 * 5.678263},
		{"3.7 m2K/W", "R", 3.7 * 5.678263},
	} {
		got, ok := units.ParseOther(c.text, c.unit)
		require.True(t, ok, c.text)
		require.InDelta(t, c.want, got, 1e-9, c.text)
	}
	for _, c := range [][2]string{{"140", "in"}, {"12 in", "in"}, {"8 ft", "ft"}, {"30", "ft2"}, {"mm", "in"}, {"R-21", "R"}, {"3 m", "usd"}, {"1e3 mm", "in"}, {"-3 mm", "in"}} {
		_, ok := units.ParseOther(c[0], c[1])
		require.False(t, ok, c[0])
	}
	in, err := units.ParseInches("140 mm")
	require.NoError(t, err)
	require.Equal(t, "140 mm", units.SI.Inches(in))
	ft, err := units.ParseFeet("3.6 m")
	require.NoError(t, err)
	require.Equal(t, "3.6 m", units.SI.Feet(ft))
}
