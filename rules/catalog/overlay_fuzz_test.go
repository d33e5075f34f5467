package catalog_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/strict"
)

// FuzzOverlay: whatever stands in a builder's own data file, it makes nothing
// panic; what is refused is refused with words that a terminal can show; what
// is taken leaves a catalog with its rules and places, and text fit to print.
func FuzzOverlay(f *testing.F) {
	seeds, err := filepath.Glob("../../testdata/overlays/*.toml")
	require.NoError(f, err)
	require.NotEmpty(f, seeds)
	for _, name := range seeds {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(string(text))
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<14 {
			return
		}
		c, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": text}))
		if err != nil {
			require.NotEmpty(t, err.Error())
			for _, line := range strings.Split(err.Error(), "\n") {
				clean, changed := strict.CleanText(line)
				require.False(t, changed, clean)
			}
			return
		}
		require.NotEmpty(t, c.Book().Rules())
		require.NotEmpty(t, c.Kinds)
		for _, said := range c.Overlaid {
			clean, changed := strict.CleanText(said)
			require.False(t, changed, clean)
		}
		for _, m := range c.Materials {
			clean, changed := strict.CleanText(m.Name)
			require.False(t, changed, clean)
		}
	})
}
