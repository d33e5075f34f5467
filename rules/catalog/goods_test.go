package catalog

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"battwright/data"
)

// Every figure the order is counted by is there, says where it is from, and
// keeps its mark; what nobody published does not claim to be.
func TestFiguresOfTheOrder(t *testing.T) {
	c, err := Load(data.Files, nil)
	require.NoError(t, err)
	require.NotEmpty(t, c.Studs())
	require.NotEmpty(t, c.GearList())
	require.Len(t, c.goods.Figures, len(figureNames))
	for _, name := range figureNames {
		f := c.Figure(name)
		require.Equal(t, name, f.ID)
		_, ok := c.Source(f.Source)
		require.True(t, ok, name)
		read := name == "airway" || name == "vent-floor" // IRC R806.2 and R806.3
		require.Equal(t, read, f.Known == Standard, "%s: no other was read in a standard", name)
		r := f.Range()
		require.True(t, 0 < r.Low && r.Low <= r.Typical && r.Typical <= r.High, name)
	}
	require.Empty(t, c.Figure("no-such").ID)
}

// A figure of one's own replaces ours and is said; a wrong one is refused.
func TestOwnFigures(t *testing.T) {
	own := func(id, unit, rest string) fstest.MapFS {
		return fstest.MapFS{"own.toml": {Data: []byte("[[figure]]\nid = \"" + id + "\"\nwhat = \"x\"\nunit = \"" + unit + "\"\n" + rest + "\nsource = \"common-practice\"\nknown = \"practice\"\n")}}
	}
	c, err := Load(data.Files, own("people", "each", "value = 3"))
	require.NoError(t, err)
	require.Equal(t, 3.0, c.Figure("people").Value)
	require.Contains(t, strings.Join(c.Overlaid, "\n"), "figure people changed or added (own.toml)")
	for name, o := range map[string]fstest.MapFS{
		"removed":     own("people", "each", "value = 3\nremove = true"),
		"zero":        own("people", "each", "value = 0"),
		"upside down": own("hours-crew", "hours per ft2", "value = 1\nlow = 2"),
		"share":       own("spare-plain", "share", "value = 1.5"),
		"far apart":   own("staple-spacing", "in", "value = 48"),
		"low shield":  own("flue-shield", "in", "value = 1"),
		"wires":       own("wire-spacing", "in", "value = 24"),
		"stud":        {"own.toml": {Data: []byte("[[stud]]\nwall_ft = 8\nstud_in = 200\nbatt_in = 201\nsource = \"common-practice\"\nknown = \"practice\"\n")}},
		"gear":        {"own.toml": {Data: []byte("[[gear]]\nid = \"hat\"\nname = \"hat\"\neach = \"week\"\nsource = \"common-practice\"\nknown = \"practice\"\n")}},
	} {
		_, err := Load(data.Files, o)
		require.Error(t, err, name)
	}
}
