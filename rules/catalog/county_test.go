package catalog

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/strict"
)

// Counts of counties by zone and state in both zonings, and a digest of every
// name and zone, from the PNNL-33270 county guide (read; digests computed).
// Bristol city stands in the guide without state or letter, so it is left out
// here and checked by itself.
func TestCountiesAgainstGuide(t *testing.T) {
	table := counties(t)
	rows := map[string][]County{}
	for _, s := range table.States() {
		rows[s.Code] = slices.DeleteFunc(countiesOf(t, table, s.Code), func(c County) bool { return c.Name == "Bristol city" })
	}
	for _, p := range checks(t, "climate-check.csv", "zone-count") {
		count := map[string]int{}
		for _, c := range rows[p.a] {
			zone := c.Zone2021
			if p.b == "pre-2021" {
				zone = c.ZonePre2021
			}
			count[zone]++
		}
		var got []string
		for zone, n := range count {
			got = append(got, fmt.Sprintf("%s:%d", zone, n))
		}
		slices.Sort(got)
		require.Equal(t, p.value, strings.Join(got, " "), "%s %s", p.a, p.b)
	}
	for _, p := range checks(t, "climate-check.csv", "digest") {
		require.Equal(t, p.b, fmt.Sprint(len(rows[p.a])), p.a)
		require.Equal(t, p.value, digest(rows[p.a]), p.a)
	}
}

func digest(rows []County) string {
	lines := make([]string, len(rows))
	for i, c := range rows {
		humid := ""
		if c.HotHumid {
			humid = "hot-humid"
		}
		name := c.Name
		if c.City {
			name = strings.TrimSuffix(name, " city")
		}
		lines[i] = name + "|" + c.Zone2021 + "|" + c.ZonePre2021 + "|" + humid
	}
	slices.Sort(lines)
	sum := sha256.Sum256([]byte(strings.Join(lines, "\n")))
	return hex.EncodeToString(sum[:])[:16]
}

// 3,141 counties, 373 of which changed zone in 2021 (guide, read and computed).
func TestCountyTotals(t *testing.T) {
	table, total, changed := counties(t), 0, 0
	require.Len(t, table.States(), 51)
	for _, s := range table.States() {
		all := countiesOf(t, table, s.Code)
		total += len(all)
		for _, c := range all {
			if c.Zone2021 != c.ZonePre2021 {
				changed++
			}
		}
	}
	for _, p := range checks(t, "climate-check.csv", "total") {
		require.Equal(t, p.value, fmt.Sprint(map[string]int{"all": total, "changed": changed}[p.b]), p.b)
	}
}

// The small and surprising sets by name (guide, read).
func TestCountyMembers(t *testing.T) {
	table := counties(t)
	for _, p := range checks(t, "climate-check.csv", "members") {
		var got []string
		for _, c := range countiesOf(t, table, p.a) {
			if c.Zone2021 == p.b {
				got = append(got, c.Name)
			}
		}
		require.ElementsMatch(t, strings.Split(p.value, ";"), got, "%s %s", p.a, p.b)
	}
}

// Every row is found again under its own name, however
// it is written, with the zones it was listed with.
func TestEveryCountyIsFoundAgain(t *testing.T) {
	table := counties(t)
	for _, s := range table.States() {
		for i, c := range countiesOf(t, table, s.Code) {
			forms := []string{c.Name, strings.ToUpper(c.Name), "  " + c.Name + " ", strings.ReplaceAll(c.Name, "-", " "), strings.ReplaceAll(c.Name, "St.", "Saint")}
			if !c.City {
				forms = append(forms, c.Name+" County", c.Name+" Parish", c.Name+", "+s.Code)
			}
			if i%7 == 0 {
				forms = append(forms, strings.ReplaceAll(c.Name, " ", ""))
			}
			for _, form := range forms[:min(len(forms), 2+i%7)] {
				got, others, err := table.Lookup(s.Name, form)
				require.NoError(t, err, "%s, %s", form, s.Code)
				if c.City && got.Name != c.Name {
					require.Contains(t, others, c, "%s, %s", form, s.Code)
					continue
				}
				require.Equal(t, c, got, "%s, %s", form, s.Code)
			}
		}
	}
}

func TestLookup(t *testing.T) {
	table := counties(t)
	for _, c := range []struct{ state, typed, name, zone string }{
		{"VT", "chittenden", "Chittenden", "6A"},
		{"vermont", "CHITTENDEN COUNTY", "Chittenden", "6A"},
		{"VT", "Chittenden, Vermont", "Chittenden", "6A"},
		{"New Mexico", "dona ana", "Doña Ana", "3B"},
		{"NM", "DOÑA ANA COUNTY", "Doña Ana", "3B"},
		{"NM", "Don\u0303a Ana", "Doña Ana", "3B"},
		{"LA", "Saint Tammany Parish", "St. Tammany", "2A"},
		{"MD", "prince georges", "Prince George's", "4A"},
		{"AL", "De Kalb", "DeKalb", "3A"},
		{"AK", "Juneau City and Borough", "Juneau", "6A"},
		{"AK", "Nome Census Area", "Nome", "8"},
		{"AK", "Copper River", "Valdez-Cordova", "7"},
		{"NV", "Carson City", "Carson City", "4B"},
		{"VA", "James City", "James City", "4A"},
		{"VA", "Charles City County", "Charles City", "4A"},
		{"VA", "Richmond", "Richmond", "4A"},
		{"VA", "Richmond city", "Richmond city", "4A"},
		{"VA", "City of Richmond", "Richmond city", "4A"},
		{"VA", "Virginia Beach", "Virginia Beach city", "3A"},
		{"MO", "St. Louis City", "St. Louis city", "4A"},
		{"MN", "County of St. Louis", "St. Louis", "7"},
		{"DC", "District of Columbia", "District of Columbia", "4A"},
		{"Washington, D.C.", "district of columbia", "District of Columbia", "4A"},
		{"SD", "Shannon", "Oglala Lakota", "6A"},
		{"FL", "Dade", "Miami-Dade", "1A"},
	} {
		got, _, err := table.Lookup(c.state, c.typed)
		require.NoError(t, err, c.typed)
		require.Equal(t, c.name, got.Name, c.typed)
		require.Equal(t, c.zone, got.Zone2021, c.typed)
	}
	got, others, err := table.Lookup("MD", "Baltimore")
	require.NoError(t, err)
	require.False(t, got.City)
	require.Len(t, others, 1)
	require.True(t, others[0].City)
	got, _, err = table.Lookup("AK", "Chugach")
	require.NoError(t, err)
	require.NotEmpty(t, got.Note)
}

// Gaps of the guide: Kusilvak has no zone, Bristol city no letter, the new
// planning regions of Connecticut are not in it.
func TestKnownGaps(t *testing.T) {
	table := counties(t)
	for _, name := range []string{"Kusilvak", "Kusilvak Census Area", "Wade Hampton"} {
		_, _, err := table.Lookup("AK", name)
		require.ErrorIs(t, err, ErrNoZone, name)
	}
	for _, name := range []string{"Capitol", "Naugatuck Valley Planning Region", "western connecticut"} {
		_, _, err := table.Lookup("CT", name)
		require.ErrorIs(t, err, ErrNoZone, name)
		require.ErrorContains(t, err, "old county")
	}
	bristol, _, err := table.Lookup("VA", "Bristol")
	require.NoError(t, err)
	require.Equal(t, "4A", bristol.Zone2021)
	require.Equal(t, Secondary, bristol.Known)
	require.Contains(t, bristol.Note, "without a letter")
	plain, _, err := table.Lookup("VT", "Orange")
	require.NoError(t, err)
	require.Equal(t, Ref{"county-zones", Standard}, plain.Ref)
	require.Empty(t, plain.Note)
}

func TestNearMisses(t *testing.T) {
	table := counties(t)
	for _, c := range []struct{ state, typed, want string }{
		{"VT", "Chitenden", "Chittenden"},
		{"VT", "chit", "Chittenden"},
		{"OH", "Cuyhoga", "Cuyahoga"},
		{"WA", "Snohomsh County", "Snohomish"},
		{"ME", "Arostook", "Aroostook"},
	} {
		_, near, err := table.Lookup(c.state, c.typed)
		require.ErrorIs(t, err, ErrCounty)
		require.NotEmpty(t, near, c.typed)
		require.Equal(t, c.want, near[0].Name, c.typed)
		require.LessOrEqual(t, len(near), 5)
	}
	for _, typed := range []string{"", "   ", "!!", "County", "Qqqqqqqq", strings.Repeat("x", 5000)} {
		_, near, err := table.Lookup("VT", typed)
		require.ErrorIs(t, err, ErrCounty)
		require.Empty(t, near, typed)
		require.Less(t, len(err.Error()), 200)
	}
	_, _, err := table.Lookup("Vermnt", "Orange")
	require.ErrorIs(t, err, ErrState)
	require.ErrorContains(t, err, "Vermont")
	for _, state := range []string{"", "ZZ", "Ontario", "\x00"} {
		_, _, err := table.Lookup(state, "Orange")
		require.ErrorIs(t, err, ErrState, state)
	}
}

func TestSearch(t *testing.T) {
	table := counties(t)
	names := func(state, text string, n int) []string {
		got, err := table.Search(state, text, n)
		require.NoError(t, err)
		var out []string
		for _, c := range got {
			out = append(out, c.Name+" "+c.State)
		}
		return out
	}
	require.Equal(t, []string{"Chittenden VT"}, names("", "chitt", 8))
	require.Equal(t, []string{"Washington VT"}, names("VT", "wash", 8))
	require.Equal(t, []string{"Orange VT", "Orleans VT"}, names("VT", "or", 8))
	require.Equal(t, []string{"Doña Ana NM"}, names("NM", "ana", 8), "a later word counts too")
	require.Len(t, names("", "w", 5), 5)
	require.Len(t, names("VT", "", 100), 14)
	require.Empty(t, names("VT", "zz", 8))
	require.Empty(t, names("VT", "or", -1))
	_, err := table.Search("XX", "or", 8)
	require.ErrorIs(t, err, ErrState)
	for _, typed := range []string{"vt", "VT", " Vermont ", "VERMONT"} {
		s, err := table.State(typed)
		require.NoError(t, err)
		require.Equal(t, State{"VT", "Vermont"}, s)
	}
	_, err = table.State("Vermillion")
	require.ErrorIs(t, err, ErrState)
}

// If a state is next to another, the other is next to it, and their middles
// are not farther apart than two large states can be: geography, checked on
// the figures from memory. Alaska stands beside Washington across the sea.
func TestNeighborsAreMutual(t *testing.T) {
	table := counties(t)
	for _, b := range table.states {
		for _, code := range b.neighbors {
			other, err := table.state(code)
			require.NoError(t, err)
			require.Contains(t, other.neighbors, b.Code, "%s and %s", b.Code, code)
			if b.Code != "AK" && code != "AK" {
				require.Less(t, b.middle.KM(other.middle), 1250.0, "%s and %s", b.Code, code)
			}
		}
		require.True(t, len(b.neighbors) > 0 || b.Code == "HI", b.Code)
	}
}

// A listed place lies within its state: no farther from the middle than the
// longest half of a state of the mainland, Alaska apart.
func TestStationsLieNearTheirStates(t *testing.T) {
	table := counties(t)
	for _, c := range climates(t) {
		limit := 750.0
		if c.State == "AK" {
			limit = 1500
		}
		home, err := table.state(c.State)
		require.NoError(t, err)
		require.Less(t, home.middle.KM(c.At), limit, c.ID)
	}
}

const (
	someStates   = "state,name,latitude,longitude,neighbors,source,known\nVT,Vermont,44.1,-72.7,,own,memory\n"
	someCounties = "state,county,zone_2021,zone_before_2021,hot_humid,also_called,remark,source,known\nVT,Orange,6A,6A,,,,own,standard\nVT,Windsor,6A,6A,,Old;Older,,own,standard\n"
)

func readSome(states, counties string) (*Counties, error) {
	c, err := readCounties(states, counties, map[string]Source{"own": {ID: "own"}})
	if err == nil {
		_, err = c.all()
	}
	return c, err
}

// Every mistake in a table of states or counties is told with its line and
// its column; line ends and the mark in front that spreadsheets write are none.
func TestCountyTablesRefuse(t *testing.T) {
	table, err := readSome(someStates, "\ufeff"+strings.ReplaceAll(someCounties, "\n", "\r\n"))
	require.NoError(t, err)
	windsor, _, err := table.Lookup("VT", "older")
	require.NoError(t, err)
	require.Equal(t, "Windsor", windsor.Name)
	for _, c := range [][3]string{
		{"state,county", "county,state", "counties.csv:1: want the headings state,county,zone_2021,"},
		{"VT,Orange", "NH,Orange", `counties.csv:2: state: found "NH"; want the two letters of a state: VT`},
		{"VT,Orange", "VT,", `counties.csv:2: county: found ""; want a name`},
		{"VT,Orange", "VT,Or\u202eange", "counties.csv:2: county: found"},
		{"Orange,6A", "Orange,66", `counties.csv:2: zone_2021: found "66"; want a climate zone like 6A`},
		{"Windsor,6A,6A", "Windsor,6A,", `counties.csv:3: zone_before_2021: found ""; want a climate zone`},
		{"Windsor,6A,6A", "Windsor,,", `counties.csv:3: remark: found ""; want why the county has no zone`},
		{"6A,,,,own", "6A,no,,,own", `counties.csv:2: hot_humid: found "no"; want yes or nothing`},
		{"own,standard\nVT", "nobody,standard\nVT", `counties.csv:2: source: found "nobody"; want the id of a [[source]]`},
		{"own,standard\nVT", "own,sure\nVT", `counties.csv:2: known: found "sure"; want standard,`},
		{"Orange,6A,6A", "Orange,6A", "counties.csv:2: found wrong number of fields; want 9 cells: state,county,"},
		{"Orange", "\"Orange", "counties.csv:3: found extraneous or missing \" in quoted-field; want 9 cells"},
		{"VT,Vermont", "Vt.,Vermont", `states.csv:2: state: found "Vt."; want two letters`},
		{"VT,Vermont", "VT,", `states.csv:2: name: found ""; want the name of the state`},
		{"44.1", "north", `states.csv:2: latitude: found "north"; want degrees north`},
		{"-72.7", "west", `states.csv:2: longitude: found "west"; want degrees east`},
		{"-72.7,,own", "-72.7,,nobody", `states.csv:2: source: found "nobody"`},
		{"-72.7,", "-72.7,NH", `VT has the unknown neighbor "NH"`},
	} {
		require.Contains(t, someStates+someCounties, c[0])
		_, err := readSome(strings.Replace(someStates, c[0], c[1], 1), strings.Replace(someCounties, c[0], c[1], 1))
		require.ErrorContains(t, err, c[2])
	}
}

// Two places of one name in different zones must not be guessed between.
func TestTwoOfOneName(t *testing.T) {
	table, err := readSome(someStates, someCounties+"VT,Orange city,5A,5A,,,,own,standard\n")
	require.NoError(t, err)
	_, both, err := table.Lookup("VT", "Orange")
	require.ErrorIs(t, err, ErrTwo)
	require.Len(t, both, 2)
	city, _, err := table.Lookup("VT", "Orange city")
	require.NoError(t, err)
	require.Equal(t, "5A", city.Zone2021)
}

func FuzzLookup(f *testing.F) {
	for _, s := range []struct{ state, county string }{
		{"VT", "Chittenden"}, {"va", "city of richmond"}, {"New Mexico", "Doña Ana"}, {"AK", "Kusilvak"}, {"CT", "Capitol"}, {"", ""}, {"TX", "\xff\xfe"}, {"MD", "baltimore, city"},
	} {
		f.Add(s.state, s.county)
	}
	table := counties(f)
	f.Fuzz(func(t *testing.T, state, county string) {
		found, others, err := table.Lookup(state, county)
		if err != nil {
			require.Empty(t, found)
			require.LessOrEqual(t, len(others), 5)
			require.Less(t, len(err.Error()), 700)
			return
		}
		_, err = CodeZone(found.Zone2021)
		require.NoError(t, err)
		// What is found is found again by its own name.
		again, _, err := table.Lookup(found.State, found.Name)
		require.NoError(t, err)
		require.Equal(t, found.Zones, again.Zones)
		require.Equal(t, found.Name, again.Name)
		_, err = table.Search(state, county, 5)
		require.NoError(t, err)
	})
}

func FuzzReadCounties(f *testing.F) {
	f.Add(someCounties)
	f.Add(someCounties + "VT,Orange,,,yes,Older,why,own,memory\n")
	f.Add("state,county\n\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		table, err := readSome(someStates, text)
		if err != nil {
			for line := range strings.SplitSeq(err.Error(), "\n") {
				_, hidden := strict.CleanText(line)
				require.False(t, hidden, line)
			}
			return
		}
		for _, c := range countiesOf(t, table, "VT") {
			_, err := CodeZone(c.Zone2021)
			require.NoError(t, err)
			found, others, err := table.Lookup("VT", c.Name)
			require.True(t, err == nil && found.Zones == c.Zones || len(others) > 0, c.Name)
		}
	})
}
