package catalog

import (
	"slices"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"battwright/data"
)

// What stops the work may not be taken out or softened by data files of
// somebody's own; other points may.
func TestOverlayKeepsWhatStops(t *testing.T) {
	overlay := fstest.MapFS{"mine.toml": {Data: []byte(`
[[acceptance]]
id = "chimney-gap"
title = "x"
look = "x"
fails = "x"
result = "fix"
ask = "x"
remove = true
[[acceptance]]
id = "hatch"
title = "x"
look = "x"
fails = "x"
result = "fix"
ask = "x"
remove = true
[[contract_item]]
id = "crew"
level = "offer"
key = "from"
text = "who comes"
ask = "Who comes?"
source = "common-practice"
known = "practice"
`)}}
	c, err := Load(data.Files, overlay)
	require.NoError(t, err)
	has := func(id string) bool {
		return slices.ContainsFunc(c.Acceptance().Points, func(p AcceptancePoint) bool { return p.ID == id && p.Title != "x" })
	}
	require.True(t, has("chimney-gap"))
	require.False(t, has("hatch"))
	require.True(t, slices.ContainsFunc(c.Acceptance().Contract, func(x ContractItem) bool { return x.ID == "crew" }))
	require.Contains(t, c.Overlaid, "contract item crew changed or added (mine.toml)")
}

func TestAcceptanceRecordsAreChecked(t *testing.T) {
	good := "title = \"x\"\nlook = \"x\"\nfails = \"x\"\nask = \"x\"\n"
	for text, want := range map[string]string{
		"[[acceptance]]\nid = \"a\"\n" + good + "result = \"wish\"\nsource = \"ftc-460\"\nknown = \"standard\"":                                             "result \"wish\"",
		"[[acceptance]]\nid = \"a\"\n" + good + "result = \"stop\"\nsource = \"ftc-460\"\nknown = \"memory\"":                                               "memory alone",
		"[[acceptance]]\nid = \"a\"\n" + good + "result = \"fix\"\nkinds = [\"tower\"]\nsource = \"ftc-460\"\nknown = \"standard\"":                         "tower",
		"[[acceptance]]\nid = \"a\"\n" + good + "result = \"fix\"\nsource = \"nowhere\"\nknown = \"standard\"":                                              "nowhere",
		"[[grade]]\nid = \"I\"\nnumber = 1\nvoid_max = 0.5\nsqueezed_max = 0\ndepth_left_min = 1\ntext = \"x\"\nsource = \"ftc-460\"\nknown = \"standard\"": "void_max",
		"[[lead]]\nid = \"l\"\nperson = \"cook\"\ndays = 3\ntext = \"x\"\nsource = \"ftc-460\"\nknown = \"standard\"":                                       "cook",
		"[[handover]]\nid = \"h\"\ngroup = \"song\"\ntext = \"x\"\nsource = \"ftc-460\"\nknown = \"standard\"":                                              "song",
	} {
		_, err := Load(data.Files, fstest.MapFS{"mine.toml": {Data: []byte(text)}})
		require.ErrorContains(t, err, want)
	}
}

// Every group that a page is made of has notes, and every kind of place has
// points, something that comes first, and a pace.
func TestHandoverCovers(t *testing.T) {
	c, err := Load(data.Files, nil)
	require.NoError(t, err)
	groups := map[string]int{}
	for _, n := range c.Acceptance().Notes {
		groups[n.Group]++
	}
	for _, g := range noteGroups {
		require.Positive(t, groups[g], g)
	}
	for _, k := range c.Kinds {
		n := 0
		for _, p := range c.Acceptance().Points {
			if p.For(k.ID, true) {
				n++
			}
		}
		require.Greater(t, n, 5, k.ID)
	}
}
