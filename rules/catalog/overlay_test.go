package catalog_test

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/strict"
)

func over(files map[string]string) fs.FS {
	out := fstest.MapFS{}
	for name, text := range files {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

const ownKind = `[[place]]
id = "bay"
name = "bay"
share_element = "wall"
boundary = "air"
heat_flow = "horizontal"
default_size = "2x6"
default_spacing_in = 16
default_practice = "standard"
layer = [ { role = "blanket" } ]
exposed = "asked"
retarder = "unfaced"
ft2_hour = { low = 40, typical = 70, high = 110 }
source = "own"
known = "invented"
`

const ownSource = `
[[source]]
id = "own"
title = "My own figures"
`

// An overlay replaces a whole record by its id, adds new ones and removes
// others, and the catalog says what it did.
func TestOverlayReplacesAddsRemoves(t *testing.T) {
	c, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": ownSource + `
[[price]]
product = "fg-21"
low = 1.0
typical = 1.1
high = 1.2
unit = "usd_ft2"
year = 2026
source = "own"
known = "invented"

[[product]]
id = "fg-22"
material = "fiberglass"
form = "batt"
nominal_r = 22
thickness_in = 6.75
facings = ["none"]
widths_in = [15]
lengths_in = [93]
pieces_per_package = 5
source = "own"
known = "invented"

[[price]]
product = "fg-22"
low = 0.9
typical = 1.0
high = 1.4
unit = "usd_ft2"
year = 2026
source = "own"
known = "invented"

[[product]]
id = "fg-49"
material = "fiberglass"
form = "batt"
nominal_r = 49
thickness_in = 14
facings = ["none"]
widths_in = [16]
lengths_in = [48]
source = "own"
known = "invented"
remove = true
`}))
	require.NoError(t, err)
	p, ok := c.Price("fg-21")
	require.True(t, ok)
	require.InDelta(t, 1.1, p.Typical, 0)
	require.Equal(t, "own", p.Source)
	_, ok = c.Product("fg-22")
	require.True(t, ok)
	_, ok = c.Product("fg-49")
	require.False(t, ok)
	said := strings.Join(c.Overlaid, "\n")
	for _, want := range []string{"price fg-21 changed or added (mine.toml)", "product fg-22 changed or added", "product fg-49 removed"} {
		require.Contains(t, said, want)
	}
	plain, err := catalog.Load(data.Files, nil)
	require.NoError(t, err)
	require.Empty(t, plain.Overlaid)
}

// Rules that exclude or warn of danger can be neither replaced nor removed;
// others can.
func TestOverlayKeepsPeopleSafe(t *testing.T) {
	rule := func(id, effect, remove string) string {
		return `
[[rule]]
id = "` + id + `"
title = "Changed"
where = { place = "attic" }
effect = ` + effect + `
reason = "changed"
source = "common-practice"
known = "practice"
fires_on = [ { place = "attic" } ]
silent_on = [ { place = "chimney" } ]
` + remove
	}
	for _, id := range []string{"chimney-gap-empty", "chimney-combustible", "knob-and-tube", "water-first", "chimney-hold-back", "rim-foam"} {
		for _, remove := range []string{"", "remove = true"} {
			_, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": rule(id, `{ kind = "install" }`, remove)}))
			require.ErrorContains(t, err, "mine.toml:2: rule."+id, "%s %s", id, remove)
			require.ErrorContains(t, err, "you may add rules, not drop these")
		}
	}
	_, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": rule("basement-no-plastic", `{ kind = "install" }`, "remove = true")}))
	require.ErrorContains(t, err, "you may add rules, not drop these", "how it goes in is not dropped")
	c, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": rule("attic-hatch", `{ kind = "install", order = 3 }`, "")}))
	require.NoError(t, err)
	r, ok := c.Book().Rule("attic-hatch")
	require.True(t, ok)
	require.Equal(t, "changed", r.Reason)
}

// The air beside a chimney may grow in an overlay, never shrink or go.
func TestOverlayNeverShrinksAClearance(t *testing.T) {
	load := func(chimney, inches, more string) (*catalog.Catalog, error) {
		return catalog.Load(data.Files, over(map[string]string{"mine.toml": "[[clearance]]\nid = \"masonry-inside\"\nchimney = \"" + chimney + "\"\ntext = \"masonry\"\ninches = " + inches + "\nsource = \"irc-r1003\"\nknown = \"standard\"\n" + more}))
	}
	for _, bad := range [][3]string{{"masonry-inside", "1", ""}, {"masonry-outside", "2", ""}, {"masonry-inside", "2", "remove = true\n"}} {
		_, err := load(bad[0], bad[1], bad[2])
		require.ErrorContains(t, err, "mine.toml:", bad)
	}
	c, err := load("masonry-inside", "3", "")
	require.NoError(t, err)
	require.Equal(t, 3.0, c.ClearancesOf("masonry-inside")[0].Inches)
	require.NotEmpty(t, c.Overlaid)
}

// A county table of one's own replaces ours whole. The packed one of old is
// refused with what to write instead.
func TestOverlayOfCounties(t *testing.T) {
	const own = "state,county,zone_2021,zone_before_2021,hot_humid,also_called,remark,source,known\nVT,Orange,5A,6A,,,,county-zones,secondary\n"
	c, err := catalog.Load(data.Files, over(map[string]string{"counties.csv": own}))
	require.NoError(t, err)
	require.Contains(t, c.Overlaid, "all of counties.csv")
	found, _, err := c.Counties.Lookup("VT", "Orange")
	require.NoError(t, err)
	require.Equal(t, "5A", found.Zone2021)
	_, _, err = c.Counties.Lookup("VT", "Windsor")
	require.ErrorIs(t, err, catalog.ErrCounty)
	_, err = catalog.Load(data.Files, over(map[string]string{"counties.csv": strings.Replace(own, "5A", "55", 1)}))
	require.EqualError(t, err, `counties.csv:2: zone_2021: found "55"; want a climate zone like 6A`)
	_, err = catalog.Load(data.Files, over(map[string]string{"counties.txt": "VT|Vermont|44.1 -72.7||1\n"}))
	require.ErrorContains(t, err, "counties.txt: found a county table of the older form; want counties.csv with the headings state,county,")
}

// Each mistake of an overlay is refused with what is wrong and, where the file
// can be blamed, its line.
// Files that an overlay replaces whole are read as strictly.
func TestOverlayMistakesOfWholeFiles(t *testing.T) {
	for name, text := range map[string]string{"codes.toml": "a = yes\n", "climates.toml": "[[climate]]\nid = 3\nzoen = '4A'\n"} {
		_, err := catalog.Load(data.Files, over(map[string]string{name: text}))
		var problems strict.Problems
		require.ErrorAs(t, err, &problems, "%v", err)
		require.Equal(t, name, problems[0].File)
	}
	deep := "a = " + strings.Repeat("[", 1_000_000)
	_, err := catalog.Load(data.Files, over(map[string]string{"codes.toml": deep}))
	require.ErrorContains(t, err, "codes.toml:1: found more than 64 levels")
}

func TestOverlayMistakes(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"unknown key":                {"[[source]]\nid = \"x\"\ntitle = \"x\"\ncolour = 1\n", "mine.toml:4"},
		"wrong type":                 {"[[source]]\nid = 3\ntitle = \"x\"\n", "mine.toml:2"},
		"hidden character":           {"[[source]]\nid = \"x\"\ntitle = \"a\\u202eb\"\n", "U+202E"},
		"syntax":                     {"[[source]\n", "mine.toml:1"},
		"kind without a size":        {ownSource + ownKind, `mine.toml:5: place[1].size: found nothing; want one of run, rectangle`},
		"kind without any area":      {ownSource + ownKind + "size = \"rectangle\"\n", `place[1].area_of: found nothing; want one of footprint`},
		"kind with an odd layer":     {ownSource + strings.Replace(ownKind, `"blanket"`, `"blankt"`, 1) + "size = \"rim\"\n", `mine.toml:14: place[1].layer[1].role: found "blankt"; want one of finish, lining, blanket`},
		"kind with a nameless layer": {ownSource + strings.Replace(ownKind, `"blanket" }`, `"blanket" }, { role = "wrap" }`, 1) + "size = \"rim\"\n", `place[1].layer[2].name: found nothing; want a name`},
		"kind that names a blanket":  {ownSource + strings.Replace(ownKind, `"blanket" }`, `"blanket", name = "wool" }`, 1) + "size = \"rim\"\n", `place[1].layer[1].name: found "wool"; want a name, and none for blanket`},
		"kind with two blankets":     {ownSource + strings.Replace(ownKind, `"blanket" }`, `"blanket" }, { role = "blanket" }`, 1) + "size = \"rim\"\n", `place[1].layer: found 2 layers with the role blanket; want one`},
		"kind with an odd question":  {ownSource + ownKind + "size = \"rim\"\nasks = [\"lenght_ft\"]\n", `mine.toml:21: place[1].asks: found "place.lenght_ft"; want a question of a place`},
		"kind without its usual":     {ownSource + ownKind + "size = \"rim\"\nasks = [\"heel_in\"]\n", "place[1].usual.heel_in: found nothing"},
		"kind that spares a phantom": {ownSource + ownKind + "size = \"rim\"\n[place.not_here]\nghosts = \"none\"\n", "mine.toml:22: place[1].not_here.ghosts: found no danger of that name"},
		"kind that spares unsaid":    {ownSource + ownKind + "size = \"rim\"\n[place.not_here]\nleaks = \" \"\n", "place[1].not_here.leaks: found nothing; want why"},
		"kind with a trait of none":  {ownSource + ownKind + "size = \"rim\"\nattic = true\n", "mine.toml:21: place[1].attic"},
		"a danger of ours away":      {ownSource + strings.Replace(ownKind, `"bay"`, `"attic"`, 1) + "[place.not_here]\nold-wiring = \"not mine\"\n", "place[1].not_here: found a change to a trait of a kind of ours"},
		"a danger of ours changed":   {ownSource + "[[danger]]\nid = \"leaks\"\nname = \"x\"\nwhere = { old = false }\n", "danger[1].id: found a change to a danger"},
		"a danger nobody can ask":    {ownSource + "[[danger]]\nid = \"radon\"\nname = \"radon\"\nquestion = \"radon\"\nwhere = { old = true }\n", `mine.toml:8: danger[1].question: found "radon"`},
		"a rule of no danger":        {ownSource + "[[rule]]\nid = \"own\"\ntitle = \"x\"\ndanger = \"radon\"\nwhere = { old = true }\neffect = { kind = \"safety\", severity = 1 }\nreason = \"x\"\nsource = \"own\"\nknown = \"invented\"\nfires_on = [ { old = true } ]\nsilent_on = [ { old = false } ]\n", `mine.toml:8: rule[1].danger: found "radon"`},
		"a sixth priority": {ownSource + `[[criterion]]
id = "carbon"
name = "low carbon"
measures = "pounds"
unit = "lb"
curve = [ { at = 0.0, value = 1.0 }, { at = 9.0, value = 0.0 } ]
source = "own"
known = "invented"
`, "mine.toml:5: criterion.carbon: found a priority of your own"},
		"dangling source": {`[[price]]
product = "fg-13"
low = 1
typical = 2
high = 3
unit = "usd_ft2"
year = 2025
source = "nowhere"
known = "practice"
`, `source "nowhere" is not in the list`},
		"bad mark": {ownSource + `[[price]]
product = "fg-13"
low = 1
typical = 2
high = 3
unit = "usd_ft2"
year = 2025
source = "own"
known = "sure"
`, `known = "sure"; want standard`},
		"falling prices": {ownSource + `[[price]]
product = "fg-13"
low = 3
typical = 2
high = 1
unit = "usd_ft2"
year = 2025
source = "own"
known = "invented"
`, "must rise from low to typical to high"},
		"impossible R": {ownSource + `[[product]]
id = "fg-13"
material = "fiberglass"
form = "batt"
nominal_r = 60
thickness_in = 3.5
facings = ["none"]
widths_in = [15]
lengths_in = [93]
source = "own"
known = "invented"
`, "R per inch"},
		"material gone": {ownSource + `[[product]]
id = "fg-13"
material = "straw"
form = "batt"
nominal_r = 13
thickness_in = 3.5
facings = ["none"]
widths_in = [15]
lengths_in = [93]
source = "own"
known = "invented"
`, `material "straw" is not listed`},
		"rule on memory alone": {`[[rule]]
id = "mine"
title = "Mine"
where = { place = "attic" }
effect = { kind = "exclude" }
reason = "because"
source = "common-practice"
known = "memory"
fires_on = [ { place = "attic" } ]
silent_on = [ { place = "chimney" } ]
`, `mine.toml:8: rule[1].known: found "memory" for what takes a choice away or warns; want a published ground, or practice`},
		"rule about an unknown fact": {`[[rule]]
id = "mine"
title = "Mine"
where = { moon = "full" }
effect = { kind = "for" }
reason = "because"
source = "common-practice"
known = "practice"
fires_on = [ { place = "attic" } ]
silent_on = [ { place = "chimney" } ]
`, "mine.toml:4: rule[1].where.moon: found a fact that is not declared; want the name of a fact in facts.toml"},
		"rule that asks what cannot be": {`[[rule]]
id = "mine"
title = "Mine"
where = { place = "attic", zone = { at_least = 6, below = 4 }, gap_in = { beneath = 2 } }
effect = { kind = "for" }
reason = "because"
source = "common-practice"
known = "practice"
fires_on = [ { place = "attik" } ]
`, `mine.toml:1: rule[1].silent_on: found none; want a case in which it stays silent, like { place = "attic" }
mine.toml:4: rule[1].where.gap_in: found { beneath = 2 }; want a number from 0 to 60, or a table of above, at_least, below and at_most like { at_least = 2, below = 5 }
mine.toml:4: rule[1].where.zone: found { at_least = 6, below = 4 }, which nothing can be; want what some value meets
mine.toml:9: rule[1].fires_on[1].place: found "attik"; want one of "attic"`},
		"figure in what is required": {`[[rule]]
id = "mine"
title = "Mine"
where = { place = "attic" }
effect = { kind = "require", need = "baffle", need_value = "{1 inn} free" }
reason = "because"
source = "common-practice"
known = "practice"
fires_on = [ { place = "attic" } ]
silent_on = [ { place = "chimney" } ]
`, "mine.toml:5: rule[1].effect.need_value: found {1 inn}; want a unit behind the figure"},
		"fact of a type unheard of": {`[[fact]]
name = "mood"
type = "feeling"
from = "answer"
`, `mine.toml:3: fact[1].type: found "feeling"; want enum, bool or number`},
		"material the facts do not know": {ownSource + `[[material]]
id = "straw"
name = "straw"
`, "straw"},
	} {
		_, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": c.text}))
		require.ErrorContains(t, err, c.want, name)
	}
}

// Conditions and examples in their earlier form are refused, and each file is
// told how the very same is written now.
func TestOverlayInTheEarlierForm(t *testing.T) {
	const head = "[[rule]]\nid = \"mine\"\ntitle = \"Mine\"\n"
	const rest = "effect = { kind = \"for\" }\nreason = \"because\"\nsource = \"common-practice\"\nknown = \"practice\"\n"
	const examples = `[[rule.example]]
facts = { place = "attic", zone = 4 }
fires = true
[[rule.example]]
facts = { place = "chimney" }
fires = false
[[rule.example]]
facts = { zone = 2 }
`
	const fires, silent = `fires_on = [ { place = "attic", zone = 4 } ]`, `silent_on = [ { place = "chimney" }, { zone = 2 } ]`
	for was, now := range map[string]string{
		`{ fact = "place", op = "eq", value = "attic" }`:                  `place = "attic"`,
		`{ fact = "place", op = "ne", value = "attic" }`:                  `place = { not = "attic" }`,
		`{ fact = "place", op = "in", value = ["attic", "chimney"] }`:     `place = ["attic", "chimney"]`,
		`{ fact = "place", op = "not_in", value = ["attic", "chimney"] }`: `place = { none_of = ["attic", "chimney"] }`,
		`{ fact = "vents_ok", op = "eq", value = true }`:                  `vents_ok = true`,
		`{ fact = "vents_ok", op = "ne", value = true }`:                  `vents_ok = false`,
		`{ fact = "zone", op = "lt", value = 3 }`:                         `zone = { below = 3 }`,
		`{ fact = "zone", op = "le", value = 3.5 }`:                       `zone = { at_most = 3.5 }`,
		`{ fact = "zone", op = "gt", value = 3 }`:                         `zone = { above = 3 }`,
		`{ fact = "zone", op = "ge", value = 3 }`:                         `zone = { at_least = 3 }`,
		`{ fact = "zone", op = "between", value = [3, 5] }`:               `zone = { at_least = 3, below = 5 }`,
		`{ fact = "zone", op = "ge", value = 3 }, { fact = "old", op = "eq", value = false }, { fact = "zone", op = "lt", value = 5 }`: `zone = { at_least = 3, below = 5 }, old = false`,
	} {
		_, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": head + "when = [ " + was + " ]\n" + rest + examples}))
		require.EqualError(t, err, "mine.toml:4: rule[1].when: found conditions in their earlier form; want where = { "+now+" }\n"+
			"mine.toml:9: rule[1].example: found examples in their earlier form; want "+fires+" and "+silent)
		_, err = catalog.Load(data.Files, over(map[string]string{"mine.toml": head + "where = { " + now + " }\n" + rest + fires + "\n" + silent + "\n"}))
		require.NoError(t, err, "what it is told to write is taken: %s", now)
	}
}

// Duplicate ids within the base files are refused too.
func TestDuplicateIDs(t *testing.T) {
	base := fstest.MapFS{}
	entries, err := fs.ReadDir(data.Files, ".")
	require.NoError(t, err)
	for _, e := range entries {
		if e.IsDir() {
			continue // the hourly years
		}
		b, err := fs.ReadFile(data.Files, e.Name())
		require.NoError(t, err)
		base[e.Name()] = &fstest.MapFile{Data: b}
	}
	require.NoError(t, catalog.CheckStrict(base))
	base["again.toml"] = &fstest.MapFile{Data: []byte(ownSource + ownSource)}
	err = catalog.CheckStrict(base)
	require.ErrorContains(t, err, "source own is there twice")
}

// Rules may still name a material that an overlay takes away.
func TestRemovedMaterialStaysAValue(t *testing.T) {
	_, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": ownSource + "[[material]]\nid = \"cotton\"\nname = \"cotton\"\nremove = true\n"}))
	require.ErrorContains(t, err, `material "cotton" is not listed`, "of what is sold of it")
	require.NotContains(t, err.Error(), "rules-materials.toml")
}
