package print_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/page"
	"battwright/rules/print"
	"battwright/testdata/fixture/planned"
)

// Whatever a page says, text of every width and Markdown say it.
func TestEveryBlockIsPrinted(t *testing.T) {
	same := func(s string) string { return s }
	for name, d := range planned.Pages(t) {
		for i := range d.Blocks { // a row that leads on does so in screens and lines only
			for k := range d.Blocks[i].Rows {
				d.Blocks[i].Rows[k].Then = ""
			}
		}
		planned.Holds(t, name, d, print.Text(d, 400), same)
		planned.Holds(t, name, d, print.Markdown(d), func(s string) string {
			return strings.NewReplacer("\\", "\\\\", "&", "&amp;", "<", "&lt;", ">", "&gt;", "*", "\\*", "_", "\\_", "`", "\\`", "[", "\\[", "]", "\\]", "#", "\\#", "|", "\\|").Replace(s)
		})
		for _, width := range []int{30, 40, 78} {
			for _, l := range strings.Split(print.Text(d, width), "\n") {
				require.LessOrEqual(t, len([]rune(l)), width, "%s: %s", name, l)
			}
		}
	}
}

// What is loud is loud in both forms, whatever kind of row it is.
func TestToneIsPrinted(t *testing.T) {
	var b page.Block
	b.Say("quiet words")
	b.Loud("loud words")
	b.Item(page.Stop, "a stop")
	d := page.Page{Title: "T", Blocks: []page.Block{b}}
	require.Contains(t, print.Text(d, 0), "\nquiet words\n! loud words\n- a stop\n")
	require.Contains(t, print.Markdown(d), "quiet words\n\n**loud words**\n\n- **a stop**\n")
}

// A list is never run together with the paragraph behind it.
func TestMarkdownKeepsListsApart(t *testing.T) {
	var b page.Block
	b.Tick(page.Plain, "one")
	b.Say("two")
	d := page.Page{Title: "T", Blocks: []page.Block{b}}
	require.Contains(t, print.Markdown(d), "- [ ] one\n\ntwo\n")
}
