package house_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// Old wiring or old fill in one place belies a house that is said to have no old
// part, and a pipe of the shape that passes nowhere is asked about.
func TestOldPartsAndPipesThatAreDenied(t *testing.T) {
	const head = "version = 1\nold = false\n[site]\nzone = \"5A\"\n"
	told := func(text string) string { return strings.Join(fixture.Read(t, head+text).Disagree(), "\n") }
	require.Empty(t, told("[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nknob_and_tube = false\n"))
	require.Contains(t, told("[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nknob_and_tube = true\n"), "no part of the house is old")
	require.Contains(t, told("[[place]]\nid = \"a\"\nkind = \"attic\"\nvermiculite = true\n"), "no part of the house is old")
	a := fixture.Read(t, head+"[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nknob_and_tube = true\n")
	require.False(t, a.Value(house.Top, nil, "old").Known)
	const roof = "[shape]\nchimney = \"metal\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\n"
	require.Contains(t, told(roof+"flue_through = false\n"), "no place beside it")
	require.Empty(t, told(roof+"flue_through = true\n"))
	require.Empty(t, told(roof))
}

// Measures that cannot be true beside each other, each within its own limits: plain
// geometry. The key is where one of them stands.
func TestMeasuresThatDoNotFit(t *testing.T) {
	const head = "version = 1\n[shape]\nlength_ft = 40\nwidth_ft = 28\nstories = 1\n[[place]]\nid = \"x\"\nkind = "
	for name, c := range map[string]struct{ place, key, told string }{
		"crawl wall higher out of the soil than it is": {"\"crawl-space\"\nvented = false\nwall_height_ft = 4\nabove_grade_ft = 6\n", "above_grade_ft", "6 ft of wall are typed to stick out of the soil, but the wall is 4 ft high."},
		"all of it above the soil":                     {"\"crawl-space\"\nvented = false\nwall_height_ft = 4\nabove_grade_ft = 4\n", "", ""},
		"vents: no wall is insulated":                  {"\"crawl-space\"\nvented = true\nwall_height_ft = 4\nabove_grade_ft = 6\n", "", ""},
		"a height that is assumed":                     {"\"crawl-space\"\nvented = false\nabove_grade_ft = 6\n", "above_grade_ft", "3 ft high as assumed."},
		"basement":                                     {"\"basement-wall\"\nheight_ft = 7\nabove_grade_ft = 9\n", "above_grade_ft", "9 ft of wall"},
		"a stud longer than its wall":                  {"\"exterior-wall\"\nheight_ft = 8\nstud_in = 120\n", "stud_in", "120 in are typed for a stud, but the wall is 8 ft high."},
		"a stud of its wall":                           {"\"exterior-wall\"\nheight_ft = 8\nstud_in = 96\n", "", ""},
		"a door in a low wall":                         {"\"exterior-wall\"\nheight_ft = 4\nlength_ft = 40\nopenings = [\"1 of 3 ft x 6 ft 8 in\"]\n", "openings", "36 in x 80 in is typed, but the wall is 4 ft high."},
		"a window wider than its wall":                 {"\"exterior-wall\"\nheight_ft = 8\nlength_ft = 5\nopenings = [\"1 of 9 ft x 2 ft\"]\n", "openings", "108 in x 24 in is typed, but the wall is 5 ft long."},
		"more window than wall":                        {"\"exterior-wall\"\nheight_ft = 8\nlength_ft = 10\nopenings_ft2 = 200\n", "openings_ft2", "200 ft2 are typed, but the wall has 80 ft2."},
		"an attic beyond the house":                    {"\"attic\"\nlength_ft = 100\nwidth_ft = 50\n", "length_ft", "comes to 5,000 ft2, but a house of 40 ft by 28 ft has about 1,120 ft2 there."},
		"an attic with bays":                           {"\"attic\"\narea_ft2 = 1300\n", "", ""},
		"a steep roof":                                 {"\"sloped-ceiling\"\narea_ft2 = 1900\n", "", ""},
		"walls beyond the house":                       {"\"exterior-wall\"\narea_ft2 = 2000\n", "area_ft2", "2,000 ft2, but a house"},
		"a chimney through stories that are not there": {"\"chimney\"\nfloors = 5\n", "floors", "5 stories, but the house has 1."},
		"basement and attic":                           {"\"chimney\"\nfloors = 3\n", "", ""},
	} {
		var told, keys string
		for _, x := range fixture.Read(t, head+c.place).Disagreements() {
			told, keys = told+x.Text, keys+x.Key
		}
		require.Equal(t, c.key, keys, "%s: %s", name, told)
		require.Contains(t, told, c.told, name)
	}
}
