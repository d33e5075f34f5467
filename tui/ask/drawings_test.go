package ask_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

// Whoever says that the drawings name R-values is asked for them next, and is
// told loudly while they are not typed.
func TestDrawingsAreAskedForAtOnce(t *testing.T) {
	store := fixture.NewMemory()
	lines := []string{"1", "", "", "VT", "Chittenden", "", "", "", "", "", "none", "yes", "49", "20", "5", "don't know", "next", "done", "find out", "quit"}
	out, err := said(t, store, ask.Config{}, lines...)
	require.NoError(t, err)
	flat := strings.Join(strings.Fields(out), " ")
	has(t, flat, "Which R-value do your drawings name for the ceiling under the attic?")
	has(t, flat, "THE R-VALUES OF YOUR DRAWINGS ARE NOT IN THIS PLAN YET (Floor over the crawl space)")
	has(t, flat, "1. House: The R-values of your drawings MATTERS")
	h := kept(t, store)
	require.Equal(t, house.Number(5), h.Answers["drawing_r.wall_board"])
	require.Equal(t, house.DontKnow(), h.Answers["drawing_r.floor"])
}
