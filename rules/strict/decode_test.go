package strict

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The types of these tests are shaped like the files of the program.
type (
	mark string

	origin struct {
		Source string `toml:"source"`
		Known  mark   `toml:"known"`
	}

	framing struct {
		Size      string  `toml:"size"`
		SpacingIn float64 `toml:"spacing_in,required"`
	}

	place struct {
		ID        string    `toml:"id,required"`
		AreaFt2   float64   `toml:"area_ft2"`
		Floors    int       `toml:"floors"`
		Vented    bool      `toml:"vented"`
		TargetR   *float64  `toml:"target_r"`
		Framing   framing   `toml:"framing"`
		WidthsIn  []float64 `toml:"widths_in"`
		RuleOut   []string  `toml:"rule_out"`
		Dampness  wetness   `toml:"dampness"`
		unwritten int
		origin
	}

	houseFile struct {
		Version    int                `toml:"version,required"`
		Name       string             `toml:"name"`
		Months     [12]float64        `toml:"months"`
		Places     []place            `toml:"place"`
		Priorities map[string]int     `toml:"priorities"`
		Prices     map[mark][]float64 `toml:"prices"`
		Extra      any                `toml:"extra"`
		Skipped    string             `toml:"-"`
		Untagged   string
	}

	// wetness looks at itself.
	wetness string
)

func (w wetness) Problem() (found, want string) {
	if w != "dry" && w != "damp" && w != "wet" {
		return `"` + string(w) + `"`, "one of dry, damp, wet"
	}
	return "", ""
}

// Ten mistakes of ten kinds, counted by hand. The library alone reports one.
const tenMistakes = `version = 1.5
name = 12
nmae = "x"

[[place]]
id = "attic"
area_ft2 = "big"
framing = { size = "2x8", spacing_in = "16", sise = 1 }

[[place]]
ID = "wall"
widths_in = [
  15,
  "23", # no
]
dampness = "soggy"
`

func TestTenMistakesAtOnce(t *testing.T) {
	var h houseFile
	tree, err := Decode("house.toml", tenMistakes, &h)
	require.Equal(t, strings.Join([]string{
		`house.toml:1: version: found 1.5; want a whole number`,
		`house.toml:2: name: found 12; want text between quote marks`,
		`house.toml:3: nmae: found a key that is not used here; did you mean name?`,
		`house.toml:7: place[1].area_ft2: found "big"; want a number of square feet`,
		`house.toml:8: place[1].framing.sise: found a key that is not used here; did you mean size?`,
		`house.toml:8: place[1].framing.spacing_in: found "16"; want a number of inches, without quote marks`,
		`house.toml:10: place[2].id: found nothing; want text between quote marks`,
		`house.toml:11: place[2].ID: found a key that is not used here; did you mean id?`,
		`house.toml:14: place[2].widths_in[2]: found "23"; want a number of inches, without quote marks`,
		`house.toml:16: place[2].dampness: found "soggy"; want one of dry, damp, wet`,
	}, "\n"), err.Error())
	require.Equal(t, 16, tree.Line("place", 1, "dampness"), "lines are known in a file with mistakes")
	var ps Problems
	require.True(t, errors.As(err, &ps))
}

func TestDecodeFillsEverything(t *testing.T) {
	const text = `version = 1
name = "Alder Street"
months = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12.5]
extra = { a = [1, "x"] }
Untagged = "u"
prices = { low = [0.5, 1], high = [] }
priorities.cost = 3
priorities.fire = 0
[[place]]
id = "attic"
area_ft2 = 1120
floors = 2
vented = true
target_r = 60
framing = { size = "2x8", spacing_in = 24.0 }
widths_in = [15, 22.5]
rule_out = []
source = "s"
known = "memory"
dampness = "wet"
[[place]]
id = "wall"
`
	var h houseFile
	_, err := Decode("h", strings.ReplaceAll(text, "Untagged", `"Untagged"`), &h)
	require.NoError(t, err)
	r := 60.0
	require.Equal(t, houseFile{
		Version: 1, Name: "Alder Street", Months: [12]float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12.5},
		Extra: map[string]any{"a": []any{int64(1), "x"}}, Untagged: "u",
		Prices:     map[mark][]float64{"low": {0.5, 1}, "high": {}},
		Priorities: map[string]int{"cost": 3, "fire": 0},
		Places: []place{
			{ID: "attic", AreaFt2: 1120, Floors: 2, Vented: true, TargetR: &r, Framing: framing{"2x8", 24}, WidthsIn: []float64{15, 22.5}, RuleOut: []string{}, Dampness: "wet", origin: origin{"s", "memory"}},
			{ID: "wall"},
		},
	}, h)
	require.Zero(t, h.Places[0].unwritten)

	// Inline tables in a list are as good as [[place]].
	var inline houseFile
	_, err = Decode("h", "version = 1\nplace = [ { id = \"attic\" },\n { id = \"wall\" } ]\n", &inline)
	require.NoError(t, err)
	require.Equal(t, "wall", inline.Places[1].ID)

	// An absent key leaves a default alone.
	defaults := houseFile{Name: "before", Places: []place{{ID: "kept"}}}
	_, err = Decode("h", "version = 2", &defaults)
	require.NoError(t, err)
	require.Equal(t, houseFile{Version: 2, Name: "before", Places: []place{{ID: "kept"}}}, defaults)
}

func TestWrongValues(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{`version = 1e0`, `version: found 1; want a whole number`},
		{`version = "1"`, `version: found "1"; want a whole number, without quote marks`},
		{`months = [1, 2]`, `months: found a list of 2 values; want 12 values`},
		{`months = 1`, `months: found 1; want a list [ ... ] of 12 values, each a number`},
		{`name = 2025-01-02`, `name: found a date or time; want text between quote marks`},
		{`name = []`, `name: found a list of 0 values; want text between quote marks`},
		{`name = { a = 1 }`, `name: found a table; want text between quote marks`},
		{`place = "x"`, `place: found "x"; want tables: a line [[place]] for each`},
		{`place = ["x"]`, `place[1]: found "x"; want a table: place = { ... } or a line [place]`},
		{`[place]`, `place: found a table; want tables: a line [[place]] for each`},
		{`[[priorities]]`, `priorities: found tables [[ ]]; want a table: priorities = { ... } or a line [priorities]`},
		{"[[place]]\nid = 'a'\narea_ft2 = 9007199254740992", `place[1].area_ft2: found 9007199254740992; want a number of square feet from -9007199254740991 to 9007199254740991`},
		{"[[place]]\nid = 'a'\nvented = 'yes'", `place[1].vented: found "yes"; want true or false`},
		{"[[place]]\nid = 'a'\nvented = 'true'", `place[1].vented: found "true"; want true or false, without quote marks`},
		{"[[place]]\nid = 'a'\nrule_out = 'wool'", `place[1].rule_out: found "wool"; want a list of texts: [ "...", "..." ]`},
		{"[[place]]\nid = 'a'\nwidths_in = 15", `place[1].widths_in: found 15; want a list [ ... ], each value a number of inches`},
		{"[[place]]\nid = 'a'\ntarget_r = '60'", `place[1].target_r: found "60"; want a number (an R-value), without quote marks`},
		{"[[place]]\nid = 'a'\nframing.size = '2x6'", `place[1].framing.spacing_in: found nothing; want a number of inches`},
		{"[[place]]\nid = 'a'\norigin = 1", `place[1].origin: found a key that is not used here; want one of id, area_ft2, floors, vented, target_r, framing, widths_in, rule_out, dampness, source, known`},
		{`untagged = "x"`, `untagged: found a key that is not used here; did you mean Untagged?`},
		{`Skipped = "x"`, `Skipped: found a key that is not used here; want one of version, name, months, place, priorities, prices, extra, Untagged`},
		{`name = "` + strings.Repeat("x", 100) + "\"\nname2.y = 1", `name2: found a key that is not used here; did you mean name?`},
		{`priorities.fire = nan`, `priorities.fire: found nan; want a number written in digits`},
		{`priorities.fire = true`, `priorities.fire: found true; want a whole number`},
		{`extra = [nan]`, `extra[1]: found nan; want a number written in digits`},
		{"[[place]]\nid = 'a'\narea_ft2 = +inf", `place[1].area_ft2: found +inf; want a number written in digits`},
		{"[[place]]\nid = 'a'\ndampness = nan", `place[1].dampness: found nan; want a number written in digits`},
	} {
		var h houseFile
		text := c.text
		if !strings.HasPrefix(text, "version") {
			text = "version = 1\n" + text
		}
		_, err := Decode("h", text, &h)
		require.Error(t, err, c.text)
		last := strings.Split(err.Error(), "\n")
		require.Contains(t, last[len(last)-1], ": "+c.want, c.text)
	}
}

func TestParseAndTypeProblemsTogether(t *testing.T) {
	var h houseFile
	_, err := Decode("h", "version = 1\nname = \"a\u202eb\"\nextra.x = 1\nmonths = \"x\"\n\"\" = 1\n", &h)
	var ps Problems
	require.ErrorAs(t, err, &ps)
	require.Len(t, ps, 3)
	require.Equal(t, []int{2, 4, 5}, []int{ps[0].Line, ps[1].Line, ps[2].Line})
}

// Whole numbers reach to the limits of their kinds and no further.
func TestLimitsOfKinds(t *testing.T) {
	var both struct {
		I int     `toml:"i"`
		F float64 `toml:"f"`
	}
	_, err := Decode("f", fmt.Sprintf("i = %d\nf = -9007199254740991\n", math.MaxInt), &both)
	require.NoError(t, err)
	require.Equal(t, math.MaxInt, both.I)
	require.EqualValues(t, -(1<<53 - 1), both.F)
	_, err = Decode("f", "f = -9007199254740992", &both)
	require.ErrorContains(t, err, "from -9007199254740991 to 9007199254740991")
}
