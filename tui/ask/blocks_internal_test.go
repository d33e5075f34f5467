package ask

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/page"
	"battwright/testdata/fixture/planned"
)

// Whatever a page says is said aloud.
func TestEveryBlockIsSaid(t *testing.T) {
	for name, d := range planned.Pages(t) {
		var out strings.Builder
		a := &app{talk: newTalk(strings.NewReader(""), &out, 100, false)}
		a.readPage(d)
		require.NoError(t, a.talk.flush())
		planned.Holds(t, name, d, out.String(), aloud)
	}
}

// A caution is said to be one, and reasons say whether they are for or against.
func TestMeaningIsSaidInWords(t *testing.T) {
	var out strings.Builder
	a := &app{talk: newTalk(strings.NewReader(""), &out, 100, false)}
	a.blocks([]page.Block{{Rows: []page.Row{
		{Tone: page.Stop, Text: "do not begin"},
		{Kind: page.Fact, Label: "Why", Mark: page.For, Text: "it is quiet"},
		{Kind: page.Fact, Mark: page.Against, Text: "it is dear"},
		{Kind: page.Fact, Label: "Care", Mark: page.Caution, Text: "wear a mask"},
		{Kind: page.Fact, Mark: page.Open, Text: "old wiring"},
		{Kind: page.Blank, Text: "Width", Unit: "in"},
	}}})
	require.NoError(t, a.talk.flush())
	require.Equal(t, "Care: do not begin\nFor it: it is quiet\nAgainst it: it is dear\nCare: wear a mask\nCare: old wiring\nTo write down: Width, in inches\n", out.String())
}
