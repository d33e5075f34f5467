package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/testdata/demo"
)

// Nobody counts to zero on a cut list, and one is one: where no batt goes in
// whole the list begins with the cutting.
func TestNoBattsGoInWhole(t *testing.T) {
	for _, name := range demo.Names() {
		o, _, opts := orderOf(t, demo.Text(name))
		for _, b := range pages.CutBlocks(o, opts) {
			for _, r := range b.Rows {
				require.NotRegexp(t, `^0 |^1 \w+ go `, r.Text, "%s: %s", name, b.Title)
			}
		}
	}
}

// A place of which only the area is known gives no pieces to cut: the list of
// cuts names the places it is for, and the others as not in it.
func TestCutsNameTheirPlaces(t *testing.T) {
	wall := func(id, sizes string) string {
		return "[[place]]\nid = \"" + id + "\"\nlabel = \"" + id + "\"\nkind = \"exterior-wall\"\npin = \"fiberglass\"\nframing.size = \"2x6\"\nframing.spacing_in = 16\n" + sizes + "\n"
	}
	o, _, opts := orderOf(t, "version = 1\ndrawings = false\nold = false\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n"+
		wall("Measured wall", "lengths_ft = [20]\nopenings = [\"1 of 36 in x 48 in\"]\nheight_ft = 8")+wall("Guessed wall", "area_ft2 = 200"))
	require.Len(t, o.Lines, 1)
	require.Equal(t, []string{"Guessed wall", "Measured wall"}, o.Lines[0].Places)
	blocks := pages.CutBlocks(o, opts)
	last := blocks[len(blocks)-1]
	require.Equal(t, "cutting", last.ID)
	require.Contains(t, last.Title, "for Measured wall")
	require.NotContains(t, last.Title, "Guessed wall")
	text := ""
	for _, r := range last.Rows {
		text += r.Text + "\n"
	}
	require.Equal(t, 1, strings.Count(text, "Guessed wall"), text)
	require.Contains(t, text, "not in this list: Guessed wall")
}

// Each of several people has a knife.
func TestGearIsSaidInTheNumberItIsCounted(t *testing.T) {
	o, p, opts := orderOf(t, demo.Text(demo.Default))
	require.Equal(t, 2, o.People)
	require.Contains(t, print.Text(pages.OrderPage(o, p, opts), opts.Width), "2 long insulation or serrated knives")
}
