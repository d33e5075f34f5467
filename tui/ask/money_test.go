package ask_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

// The number of a line of the ladder takes it, as enter does on the screens.
func TestANumberTakesALineOfTheLadder(t *testing.T) {
	store := fixture.NewMemory()
	h := demoHouse(t)
	out, err := said(t, store, ask.Config{House: h, Width: 200}, "money", "done", "2", "ladder", "2", "quit")
	require.NoError(t, err)
	require.Contains(t, out, `"2" is not offered here`, "before there are lines")
	require.Contains(t, out, "What the next dollars buy")
	require.Contains(t, out, ", to be spent.")
	require.Equal(t, "spend", h.Answers["budget.use"].Text)
	require.Equal(t, house.Given, h.Answers["budget.total_usd"].State)
}
