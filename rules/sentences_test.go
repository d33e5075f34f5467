package rules

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// sentencesIn are the texts of five words or more in the Go files of a folder,
// in small letters and without what stands around them.
func sentencesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, f := range sources(t) {
		if f.test || f.dir != dir {
			continue
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", filepath.FromSlash(f.path)), nil, 0)
		require.NoError(t, err)
		ast.Inspect(parsed, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			text, err := strconv.Unquote(lit.Value)
			require.NoError(t, err)
			if text = strings.Trim(strings.ToLower(text), " .,:;!?"); len(strings.Fields(text)) > 4 {
				out[text] = f.path
			}
			return true
		})
	}
	return out
}

// What the screens and the lines both say stands once, in tui/session or below.
func TestSentencesStandOnce(t *testing.T) {
	screens, lines := sentencesIn(t, "tui"), sentencesIn(t, "tui/ask")
	require.Greater(t, len(screens), 10, "the sentences were not found")
	require.Greater(t, len(lines), 10, "the sentences were not found")
	shared := sentencesIn(t, "tui/session")
	require.NotEmpty(t, shared)
	var twice []string
	for text, path := range lines {
		for _, other := range []string{screens[text], shared[text]} {
			if other != "" {
				twice = append(twice, path+", "+other+": "+text)
			}
		}
	}
	for text, path := range screens {
		if other := shared[text]; other != "" {
			twice = append(twice, path+", "+other+": "+text)
		}
	}
	slices.Sort(twice)
	require.Empty(t, twice)
}
