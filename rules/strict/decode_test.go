package strict

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

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
		Built      time.Time          `toml:"built"`
		Places     []place            `toml:"place"`
		Priorities map[string]int     `toml:"priorities"`
		Prices     map[mark][]float32 `toml:"prices"`
		Extra      any                `toml:"extra"`
		Small      int8               `toml:"small"`
		Count      uint16             `toml:"count"`
		Skipped    string             `toml:"-"`
		Untagged   string
	}

	// wetness reads its own value.
	wetness int
)

func (w *wetness) FromTOML(v any) error {
	for i, word := range []string{"dry", "damp", "wet"} {
		if v == word {
			*w = wetness(i)
			return nil
		}
	}
	return errors.New("one of dry, damp, wet")
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
	lines, err := Decode("house.toml", tenMistakes, &h)
	require.Equal(t, strings.Join([]string{
		`house.toml:1: version: found 1.5; want a whole number`,
		`house.toml:2: name: found 12; want text between quote marks`,
		`house.toml:3: nmae: found a key that is not used here; did you mean name?`,
		`house.toml:7: place[0].area_ft2: found "big"; want a number of square feet`,
		`house.toml:8: place[0].framing.sise: found a key that is not used here; did you mean size?`,
		`house.toml:8: place[0].framing.spacing_in: found "16"; want a number of inches, without quote marks`,
		`house.toml:10: place[1].id: found nothing; want text between quote marks`,
		`house.toml:11: place[1].ID: found a key that is not used here; did you mean id?`,
		`house.toml:14: place[1].widths_in[1]: found "23"; want a number of inches, without quote marks`,
		`house.toml:16: place[1].dampness: found "soggy"; want one of dry, damp, wet`,
	}, "\n"), err.Error())
	require.Equal(t, 16, lines.Of("place", 1, "dampness"), "lines are known in a file with mistakes")
	var ps Problems
	require.True(t, errors.As(err, &ps))
}

func TestDecodeFillsEverything(t *testing.T) {
	const text = `version = 1
name = "Alder Street"
months = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12.5]
built = 1987-04-05T10:00:00Z
extra = { a = [1, "x"] }
small = -128
count = 65535
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
[[place]]
id = "wall"
`
	var h houseFile
	_, err := Decode("h", strings.ReplaceAll(text, "Untagged", `"Untagged"`), &h)
	require.NoError(t, err)
	r := 60.0
	require.Equal(t, houseFile{
		Version: 1, Name: "Alder Street", Months: [12]float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12.5},
		Built: time.Date(1987, 4, 5, 10, 0, 0, 0, time.UTC), Extra: map[string]any{"a": []any{int64(1), "x"}},
		Small: -128, Count: 65535, Untagged: "u",
		Prices:     map[mark][]float32{"low": {0.5, 1}, "high": {}},
		Priorities: map[string]int{"cost": 3, "fire": 0},
		Places: []place{
			{ID: "attic", AreaFt2: 1120, Floors: 2, Vented: true, TargetR: &r, Framing: framing{"2x8", 24}, WidthsIn: []float64{15, 22.5}, RuleOut: []string{}, origin: origin{"s", "memory"}},
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
		{`small = 128`, `small: found 128; want a whole number from -128 to 127`},
		{`small = -129`, `small: found -129; want a whole number from -128 to 127`},
		{`count = -1`, `count: found -1; want a whole number from 0 to 65535`},
		{`count = 65536`, `count: found 65536; want a whole number from 0 to 65535`},
		{`months = [1, 2]`, `months: found a list of 2 values; want 12 values`},
		{`months = 1`, `months: found 1; want a list [ ... ] of 12 values, each a number`},
		{`built = "1987"`, `built: found "1987"; want a date like 2025-03-31, without quote marks`},
		{`name = 2025-01-02`, `name: found a date or time; want text between quote marks`},
		{`name = []`, `name: found a list of 0 values; want text between quote marks`},
		{`name = { a = 1 }`, `name: found a table; want text between quote marks`},
		{`place = "x"`, `place: found "x"; want tables: a line [[place]] for each`},
		{`place = ["x"]`, `place[0]: found "x"; want a table: place = { ... } or a line [place]`},
		{`[place]`, `place: found a table; want tables: a line [[place]] for each`},
		{`[[priorities]]`, `priorities: found tables [[ ]]; want a table: priorities = { ... } or a line [priorities]`},
		{`prices.low = [1e39]`, `prices.low[0]: found 1e+39; want a number`},
		{`prices.low = [16777216]`, `prices.low[0]: found 16777216; want a number from -16777215 to 16777215`},
		{"[[place]]\nid = 'a'\narea_ft2 = 9007199254740992", `place[0].area_ft2: found 9007199254740992; want a number of square feet from -9007199254740991 to 9007199254740991`},
		{"[[place]]\nid = 'a'\nvented = 'yes'", `place[0].vented: found "yes"; want true or false`},
		{"[[place]]\nid = 'a'\nvented = 'true'", `place[0].vented: found "true"; want true or false, without quote marks`},
		{"[[place]]\nid = 'a'\nrule_out = 'wool'", `place[0].rule_out: found "wool"; want a list of texts: [ "...", "..." ]`},
		{"[[place]]\nid = 'a'\nwidths_in = 15", `place[0].widths_in: found 15; want a list [ ... ], each value a number of inches`},
		{"[[place]]\nid = 'a'\ntarget_r = '60'", `place[0].target_r: found "60"; want a number (an R-value), without quote marks`},
		{"[[place]]\nid = 'a'\nframing.size = '2x6'", `place[0].framing.spacing_in: found nothing; want a number of inches`},
		{"[[place]]\nid = 'a'\norigin = 1", `place[0].origin: found a key that is not used here; want one of id, area_ft2, floors, vented, target_r, framing, widths_in, rule_out, dampness, source, known`},
		{`untagged = "x"`, `untagged: found a key that is not used here; did you mean Untagged?`},
		{`Skipped = "x"`, `Skipped: found a key that is not used here; want one of version, name, months, built, place, priorities, prices, extra, small, count, Untagged`},
		{`name = "` + strings.Repeat("x", 100) + "\"\nname2.y = 1", `name2: found a key that is not used here; did you mean name?`},
		{`priorities.fire = nan`, `priorities.fire: found nan; want a number written in digits`},
		{`priorities.fire = true`, `priorities.fire: found true; want a whole number`},
		{`extra = [nan]`, `extra[0]: found nan; want a number written in digits`},
		{"[[place]]\nid = 'a'\narea_ft2 = +inf", `place[0].area_ft2: found +inf; want a number written in digits`},
		{"[[place]]\nid = 'a'\ndampness = nan", `place[0].dampness: found nan; want a number written in digits`},
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

func TestFoundIsCut(t *testing.T) {
	var h houseFile
	_, err := Decode("h", "version = \""+strings.Repeat("é", 5000)+"\"\n'"+strings.Repeat("k.", 5000)+"' = 1", &h)
	var ps Problems
	require.ErrorAs(t, err, &ps)
	require.Len(t, ps, 2)
	for _, p := range ps {
		require.Less(t, len([]rune(p.Error())), 300)
	}
	require.Equal(t, `"`+strings.Repeat("é", shown-1)+`…"`, ps[0].Found)
}

func TestParseAndTypeProblemsTogether(t *testing.T) {
	var h houseFile
	_, err := Decode("h", "version = 1\nname = \"a\u202eb\"\nsmall = \"x\"\n\"\" = 1\n", &h)
	var ps Problems
	require.ErrorAs(t, err, &ps)
	require.Len(t, ps, 3)
	require.Equal(t, []int{2, 3, 4}, []int{ps[0].Line, ps[1].Line, ps[2].Line})
}

func TestManyMistakesStayReadable(t *testing.T) {
	var b strings.Builder
	b.WriteString("version = 1\n")
	for i := range 50_000 {
		fmt.Fprintf(&b, "k%d = 1\n", i)
	}
	var h houseFile
	_, err := Decode("h", b.String(), &h)
	var ps Problems
	require.ErrorAs(t, err, &ps)
	require.Len(t, ps, MaxProblems+1)
	require.Equal(t, 2, ps[0].Line)
	require.Equal(t, MaxProblems+1, ps[MaxProblems-1].Line)
	require.Contains(t, ps[MaxProblems].Found, "49900 more mistakes")
}
