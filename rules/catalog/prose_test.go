package catalog_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
)

// A figure in braces that is not understood is named with its file, its line,
// its key, and what would be right.
func TestOverlayProseIsChecked(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"handover", ownSource + `
[[handover]]
id = "own-clear"
group = "clear"
text = "Keep {3 inn} clear."
source = "own"
known = "practice"
`, `mine.toml:9: handover[1].text: found {3 inn}; want a unit behind the figure`},
		{"word", ownSource + `
[[word]]
term = "own"
meaning = "About {3 in deep."
matters = "It matters."
source = "own"
known = "practice"
`, `mine.toml:8: word[1].meaning: found a brace without its partner; want each { with its }`},
		{"reason", ownSource + `
[[rule]]
id = "own-rule"
title = "Own"
where = { place = "attic" }
effect = { kind = "install" }
reason = "Keep {3 furlongs} and {depth_in}."
source = "own"
known = "practice"
`, `mine.toml:11: rule[1].reason: found {3 furlongs}; want a unit behind the figure`},
	} {
		_, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": c.text}))
		require.ErrorContains(t, err, c.want, c.name)
	}
}

// The file of codes, which an overlay replaces whole, is checked too.
func TestCodesProseIsChecked(t *testing.T) {
	b, err := data.Files.ReadFile("codes.toml")
	require.NoError(t, err)
	require.Contains(t, string(b), "{10 ft min}")
	_, err = catalog.Load(data.Files, over(map[string]string{"codes.toml": strings.ReplaceAll(string(b), "{10 ft min}", "{10 fathoms}")}))
	require.Regexp(t, `^codes\.toml:\d+: `, err.Error())
	require.ErrorContains(t, err, "found {10 fathoms}; want a ")
}
