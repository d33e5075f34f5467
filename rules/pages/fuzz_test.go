package pages_test

import (
	"encoding/csv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/rules/strict"
	"battwright/testdata/fixture/planned"
)

// Any text as the name of a house and its places leaves every form clean, of
// its width, and readable back; a spreadsheet takes no cell for a formula.
func FuzzNamesStayNames(f *testing.F) {
	for _, s := range nasty {
		f.Add(s, uint8(40))
		f.Add("  "+s, uint8(40))
	}
	f.Add("", uint8(94))
	f.Add(strings.Repeat("wide ", 60), uint8(30))
	f.Fuzz(func(t *testing.T, name string, width uint8) {
		o := planned.Options(t)
		o.Width = 30 + int(width)%91
		p := nastyPlan(t, name)
		for form, out := range planned.Forms(t, p, o) {
			require.True(t, utf8.ValidString(out), form)
			for _, r := range out {
				require.True(t, r == '\n' || r != '\t' && !strict.BadRune(r), "%s: %U", form, r)
			}
		}
		// Escapes of the JSON form are looked at as the reader will have them.
		walk("", parsed(t, p), func(path string, v any) {
			if s, ok := v.(string); ok {
				clean, _ := strict.CleanText(s)
				require.Equal(t, clean, s, path)
			}
		})
		for _, l := range strings.Split(print.Text(pages.PlanPage(p, o), o.Width), "\n") {
			require.LessOrEqual(t, utf8.RuneCountInString(l), o.Width)
		}
		table, err := pages.CSV(p, o)
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
		require.NoError(t, err)
		for _, r := range rows {
			for _, cell := range r {
				require.NotRegexp(t, `^\s*[=+\-@＝＋－＠﹦﹢﹣﹫]`, cell)
			}
		}
	})
}
