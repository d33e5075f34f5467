package catalog

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/strict"
)

func number(t testing.TB, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// weatherOf is what the table of places knows for working out a zone.
func weatherOf(c Climate) Weather {
	return Weather{HDD65: c.HDD65, CDD50: c.CDD50, MeanC: c.MeanC[:], YearRainMM: c.PrecipMM, South: c.At.Lat < 0}
}

// The thresholds reproduce the county table for 33 named places and miss it
// for 16 known ones in a known way: PNNL-33270 county zones (read) against
// typical-year degree days worked out from hourly data (computed from read).
func TestZonesOfNamedPlaces(t *testing.T) {
	b, all, named := codes(t), climates(t), map[string]bool{}
	for _, p := range checks(t, "climate-check.csv", "place-zone") {
		c := climateByID(t, all, p.a)
		named[c.ID] = true
		require.Equal(t, p.b, c.Zone2021, "%s: the county's zone", c.ID)
		g, err := b.ZoneFromWeather(weatherOf(c))
		require.NoError(t, err)
		require.Equal(t, p.value, g.Zone, "%s worked out: %s", c.ID, p.source)
	}
	require.Len(t, named, 49)
	numberRight, bothRight, us := 0, 0, 0
	for _, c := range all {
		us++
		g, err := b.ZoneFromWeather(weatherOf(c))
		require.NoError(t, err)
		if g.Zone == c.Zone2021 {
			bothRight++
		} else {
			require.True(t, named[c.ID], "%s differs and is not on the list", c.ID)
		}
		if g.Zone[0] == c.Zone2021[0] {
			numberRight++
		}
	}
	require.Equal(t, []int{57, 49, 41}, []int{us, numberRight, bothRight}, "places, number right, number and letter right")
}

// Thresholds in SI, as public notes quote ASHRAE 169 (read): 1.8 F-days to a
// C-day. Just inside each band must be the band's zone.
func TestThresholdsAgainstSI(t *testing.T) {
	b := codes(t)
	for _, p := range checks(t, "codes.csv", "threshold-si") {
		low, high, _ := strings.Cut(p.value, "..")
		for _, edge := range []struct {
			text string
			step float64
		}{{low, 1}, {high, -1}} {
			if edge.text == "" {
				continue
			}
			f := number(t, edge.text)*1.8 + edge.step
			w := Weather{HDD65: f, CDD50: 1000}
			if p.b == "cdd10" {
				w = Weather{HDD65: 1000, CDD50: f}
			}
			g, err := b.ZoneFromWeather(w)
			require.NoError(t, err)
			require.Equal(t, p.c, g.Zone[:1], "%s %s", p.b, p.value)
		}
	}
	// IRC 2018 table N1101.7.2(2) as printed (read) agrees where both speak.
	for _, p := range checks(t, "codes.csv", "older-threshold") {
		low, high, both := strings.Cut(p.value, "..")
		if p.b != "hdd65" || !both || strings.HasSuffix(p.c, "C") {
			continue
		}
		for _, hdd := range []float64{number(t, low) + 1, number(t, high)} {
			g, err := b.ZoneFromWeather(Weather{HDD65: hdd, CDD50: 3000})
			require.NoError(t, err)
			require.Equal(t, p.c, g.Zone[:1])
		}
	}
}

// southern holds monthly means in C (read) and degree days worked out from them
// (computed) of two cities of the southern hemisphere.
var southern = map[string]Weather{
	"wellington-nz": {South: true, HDD65: 3154, CDD50: 2414, MeanC: []float64{17.9, 17.7, 16.7, 14.3, 12.0, 10.1, 9.2, 9.8, 11.3, 12.8, 14.6, 16.4}},
	"melbourne-au":  {South: true, HDD65: 2742, CDD50: 2971, MeanC: []float64{19.8, 19.7, 17.9, 14.8, 12.1, 10.0, 9.4, 9.9, 11.7, 13.9, 16.1, 17.9}},
}

// Wellington and Melbourne, full marine test (rain and temperature read,
// result computed): mild all year, yet the rain comes evenly, so neither is
// marine; both are wetter than the dry line.
func TestMarineNeedsASummerDrought(t *testing.T) {
	b := codes(t)
	facts := map[string]string{}
	for _, p := range checks(t, "climate-check.csv", "fact") {
		facts[p.a+" "+p.b] = p.value
	}
	for id, w := range southern {
		wet, dry := number(t, facts[id+" wettest month Apr-Sep, mm"]), number(t, facts[id+" driest month Oct-Mar, mm"])
		total := number(t, facts[id+" rain of a year, mm"])
		w.YearRainMM = total
		require.InDelta(t, number(t, facts[id+" marine rain ratio"]), wet/dry, 0.05)
		line, ok := b.zoning.dryLineMM(w)
		require.True(t, ok)
		require.InDelta(t, number(t, facts[id+" dry line, mm"]), line, 0.5)
		// The other ten months share the rest, between the two that are published.
		w.RainMM = make([]float64, 12)
		for i := range w.RainMM {
			w.RainMM[i] = (total - wet - dry) / 10
		}
		w.RainMM[5], w.RainMM[0] = wet, dry
		g, err := b.ZoneFromWeather(w)
		require.NoError(t, err)
		require.Equal(t, facts[id+" zone"], g.Zone)
		require.False(t, g.Rough)
		// The same place with a summer drought is marine, and only by months of
		// its own hemisphere.
		w.RainMM[0] = wet / 3.1
		g, err = b.ZoneFromWeather(w)
		require.NoError(t, err)
		require.Equal(t, "3C", g.Zone)
		w.South = false
		g, err = b.ZoneFromWeather(w)
		require.NoError(t, err)
		require.NotEqual(t, "3C", g.Zone)
		// Without months the rough test says marine, and says that it is rough.
		w.South, w.RainMM = true, nil
		g, err = b.ZoneFromWeather(w)
		require.NoError(t, err)
		require.Equal(t, "3C", g.Zone)
		require.True(t, g.Rough)
		require.Contains(t, strings.Join(g.Notes, " "), "rough")
	}
}

// Denver: 75 % of its rain falls April to September (computed from read
// monthly rain), so the line for summer rain applies and the county's B comes
// out where the simple line gave A.
func TestSummerRainCountsForLess(t *testing.T) {
	b := codes(t)
	c := climateByID(t, climates(t), "denver-co")
	w := weatherOf(c)
	share := 0.0
	for _, p := range checks(t, "climate-check.csv", "fact") {
		if p.a == c.ID {
			share = number(t, p.value)
		}
	}
	w.RainMM = make([]float64, 12)
	for i := range w.RainMM {
		w.RainMM[i] = c.PrecipMM * (1 - share) / 6
		if !w.coldHalf(i) {
			w.RainMM[i] = c.PrecipMM * share / 6
		}
	}
	g, err := b.ZoneFromWeather(w)
	require.NoError(t, err)
	require.Equal(t, c.Zone2021, g.Zone)
	w.South = true // the same months are then winter rain: the line falls
	g, err = b.ZoneFromWeather(w)
	require.NoError(t, err)
	require.Equal(t, "5A", g.Zone)
}

// Degree days of the table against longer records: NOAA 1991-2020 for two US
// places (one read to June, one memory). A typical year may be 3 % off.
func TestDegreeDaysAgainstNormals(t *testing.T) {
	all, n := climates(t), 0
	for _, p := range checks(t, "climate-check.csv", "fact") {
		if !strings.HasPrefix(p.b, "hdd65") {
			continue
		}
		n++
		require.InEpsilon(t, number(t, p.value), climateByID(t, all, p.a).HDD65, 0.03, "%s: %s", p.a, p.source)
	}
	require.Equal(t, 2, n)
}

// Rain of the table against an older, independent record of US cities (R data
// set precip, read). Honolulu's old station stood on a wetter site.
func TestRainAgainstOlderRecord(t *testing.T) {
	all := climates(t)
	rows := checks(t, "climate-check.csv", "old-rain")
	require.Greater(t, len(rows), 25)
	for _, p := range rows {
		if p.a != "honolulu-hi" {
			require.InEpsilon(t, number(t, p.value), climateByID(t, all, p.a).PrecipMM, 0.25, p.a)
		}
	}
}

// Heating degree days worked out from the twelve means by Erbs, Klein and
// Beckman 1983 (formula from memory) must agree with those from hourly data:
// a month that slipped to another row or column would show.
func TestMonthsAgreeWithDegreeDays(t *testing.T) {
	for _, c := range climates(t) {
		hdd, cdd := degreeDaysF(c.MeanC, 65, 1), degreeDaysF(c.MeanC, 50, -1)
		require.InDelta(t, c.HDD65, hdd, math.Max(300, 0.05*hdd), "%s hdd65", c.ID)
		require.InDelta(t, c.CDD50, cdd, math.Max(200, 0.12*cdd), "%s cdd50", c.ID)
	}
}

func degreeDaysF(meanC [12]float64, baseF, sign float64) float64 {
	baseC, mean, spread, sum := (baseF-32)/1.8, 0.0, 0.0, 0.0
	for _, t := range meanC {
		mean += t / 12
	}
	for _, t := range meanC {
		spread += (t - mean) * (t - mean) / 12
	}
	for m, days := range []float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31} {
		s := 1.45 - 0.0290*meanC[m] + 0.0664*math.Sqrt(spread)
		a, h := 1.698*math.Sqrt(days), sign*(baseC-meanC[m])/(s*math.Sqrt(days))
		sum += s * math.Pow(days, 1.5) * (h/2 + math.Log(math.Exp(-a*h)+math.Exp(a*h))/(2*a))
	}
	return sum * 1.8
}

// The margin is honest: moving degree days by less than it never changes the
// number, moving them just past it does.
func TestMarginProperty(t *testing.T) {
	b, r := codes(t), rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		w := Weather{HDD65: r.Float64() * 15000, CDD50: r.Float64() * 12000}
		g, err := b.ZoneFromWeather(w)
		require.NoError(t, err)
		for _, d := range []float64{-0.999, 0.999} {
			for _, moved := range []Weather{{HDD65: w.HDD65 + d*g.Margin*3600, CDD50: w.CDD50}, {HDD65: w.HDD65, CDD50: w.CDD50 + d*g.Margin*6300}} {
				if moved.HDD65 < 0 || moved.CDD50 < 0 {
					continue
				}
				m, err := b.ZoneFromWeather(moved)
				require.NoError(t, err)
				require.Equal(t, g.Zone[:1], m.Zone[:1], "%+v moved to %+v", w, moved)
			}
		}
		require.NotEqual(t, g.Nearest, g.Zone[:1])
		require.Equal(t, g.Margin < 0.10, strings.Contains(strings.Join(g.Notes, " "), "within"), "%+v", g)
	}
	near, err := b.ZoneFromWeather(Weather{HDD65: 7299, CDD50: 2312}) // Burlington's figures
	require.NoError(t, err)
	require.Equal(t, "5", near.Nearest)
	require.InDelta(t, 99.0/7200, near.Margin, 1e-9)
}

func TestZoneFromWeatherRefuses(t *testing.T) {
	b := codes(t)
	months := func(v float64) []float64 {
		out := make([]float64, 12)
		out[3] = v
		return out
	}
	for _, w := range []Weather{
		{HDD65: math.NaN()},
		{CDD50: math.Inf(1)},
		{HDD65: -1},
		{HDD65: 1e9},
		{YearRainMM: -1},
		{MeanC: []float64{1, 2}},
		{RainMM: []float64{1}},
		{MeanC: months(math.NaN())},
		{MeanC: months(1e3)},
		{RainMM: months(-1)},
	} {
		_, err := b.ZoneFromWeather(w)
		require.ErrorIs(t, err, ErrWeather, fmt.Sprint(w))
	}
	g, err := b.ZoneFromWeather(Weather{HDD65: 6000, CDD50: 3000})
	require.NoError(t, err)
	require.Equal(t, "5", g.Zone)
	require.Contains(t, strings.Join(g.Notes, " "), "dry or moist not known")
	g, err = b.ZoneFromWeather(Weather{HDD65: 14000, MeanC: months(0), YearRainMM: 100})
	require.NoError(t, err)
	require.Equal(t, "8", g.Zone, "no letter in zones 7 and 8")
}

// Every US climate carries the zones of its county in both zonings.
func TestClimatesAgreeWithCounties(t *testing.T) {
	table, n := counties(t), 0
	for _, c := range climates(t) {
		require.Equal(t, "US", c.Country, "%s: codes, counties and prices are of the US only", c.ID)
		n++
		county, _, err := table.Lookup(c.State, c.County)
		require.NoError(t, err, c.ID)
		require.Equal(t, county.Zones, c.Zones, c.ID)
	}
	require.Equal(t, 57, n)
}

func TestNearClimates(t *testing.T) {
	table, all := counties(t), climates(t)
	first := func(state, county, zone string) NearClimate {
		near, err := table.NearClimates(all, state, county, zone, 4)
		require.NoError(t, err)
		require.Len(t, near, 4)
		return near[0]
	}
	got := first("VT", "Chittenden", "6A")
	require.Equal(t, "burlington-vt", got.ID)
	require.Contains(t, got.Why, "county")
	got = first("Vermont", "Windsor", "6A")
	require.Equal(t, "burlington-vt", got.ID)
	require.Contains(t, got.Why, "same state")
	got = first("NH", "Coos", "6A") // no listed place in New Hampshire
	require.Contains(t, []string{"burlington-vt", "portland-me"}, got.ID)
	require.Contains(t, got.Why, "next to NH")
	got = first("DE", "Sussex", "4A")
	require.Equal(t, "baltimore-md", got.ID)
	got = first("ND", "Pembina", "7") // Fargo is 6A: the zone outranks the state
	require.Equal(t, "7", got.Zone2021)
	got = first("MN", "St. Louis", "7")
	require.Equal(t, "duluth-mn", got.ID)
	got = first("TX", "", "4b")
	require.Equal(t, "amarillo-tx", got.ID)
	got = first("OR", "", "4M")
	require.Equal(t, "4C", got.Zone2021)
	require.Equal(t, "portland-or", got.ID)
	_, err := table.NearClimates(all, "XX", "", "6A", 3)
	require.ErrorIs(t, err, ErrState)
	_, err = table.NearClimates(all, "VT", "", "", 3)
	require.ErrorIs(t, err, ErrZone)
	none, err := table.NearClimates(all, "VT", "", "6A", -5)
	require.NoError(t, err)
	require.Empty(t, none)
	odd, err := table.NearClimates([]Climate{{Country: "US"}}, "VT", "", "6A", 3)
	require.NoError(t, err)
	require.Empty(t, odd)
}

// Every county of the table gets weather of its own zone number, and the list
// never puts another zone before the same one, its own county apart.
func TestEveryCountyHasWeather(t *testing.T) {
	table, all := counties(t), climates(t)
	for _, s := range table.States() {
		zones := map[string]bool{}
		for _, c := range countiesOf(t, table, s.Code) {
			zones[c.Zone2021] = true
		}
		for zone := range zones {
			near, err := table.NearClimates(all, s.Code, "", zone, 100)
			require.NoError(t, err)
			require.Len(t, near, 57)
			require.Equal(t, zone, near[0].Zone2021, s.Code)
			for i := 1; i < len(near); i++ {
				require.False(t, near[i].Zone2021 == zone && near[i-1].Zone2021 != zone)
			}
		}
	}
}

// Great-circle distances checked by hand against one degree of latitude,
// 111.2 km on the mean sphere (computed), and half way round the earth.
func TestSpotKM(t *testing.T) {
	require.InDelta(t, 111.195, Spot{Lat: 10, Lon: 5}.KM(Spot{Lat: 11, Lon: 5}), 0.01)
	require.InDelta(t, 111.195*math.Cos(60*math.Pi/180), Spot{Lat: 60, Lon: 0}.KM(Spot{Lat: 60, Lon: 1}), 0.01)
	require.InDelta(t, 20015, Spot{Lat: 0, Lon: 0}.KM(Spot{Lat: 0, Lon: 180}), 1)
	require.Zero(t, Spot{Lat: 44, Lon: -72}.KM(Spot{Lat: 44, Lon: -72}))
}

func TestParseClimatesRefuses(t *testing.T) {
	text := read(t, "data", "climates.toml")
	for name, edit := range map[string][2]string{
		"id twice":   {`id = "key-west-fl"`, `id = "miami-fl"`},
		"basis":      {`basis = "typical-year"`, `basis = "hearsay"`},
		"mark":       {`temp = "standard"`, `temp = "sure"`},
		"zone":       {`zone_2021 = "1A"`, `zone_2021 = "11"`},
		"no zone":    {`zone_2021 = "1A"`, `zone_2021 = ""`},
		"month":      {`t_c = [19.4,`, `t_c = [194,`},
		"latitude":   {`lat = 25.817`, `lat = 95.817`},
		"degreedays": {`hdd65 = 140`, `hdd65 = -140`},
	} {
		require.Contains(t, text, edit[0], name)
		_, err := ParseClimates(strings.Replace(text, edit[0], edit[1], 1))
		require.ErrorIs(t, err, ErrData, name)
	}
	_, err := strict.Decode(climatesFile, strings.Replace(text, `t_c = [19.4,`, `t_c = [`, 1), &climateFile{})
	require.ErrorContains(t, err, "climate[1].t_c", "eleven months")
	_, err = ParseClimates("")
	require.ErrorIs(t, err, ErrData)
}
