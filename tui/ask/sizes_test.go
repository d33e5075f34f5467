package ask_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

// Ready to order leads through size and frame of every place and not past them;
// the start menu says how many questions there are, as the list has them.
func TestReadyToOrderAsksEveryPlace(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{}, "2", "done", "next", "44", "28", "done", "done", "done", "done", "done", "next", "quit")
	require.NoError(t, err)
	flat := strings.Join(strings.Fields(out), " ")
	for _, place := range []string{"next: size and frame of each place, then what matters", "Attic floor (place 1 of ", "Exterior walls (place 2 of ", "place 4 of "} {
		has(t, flat, place)
	}
	require.Equal(t, house.Number(44), kept(t, store).Places[0].Answers["length_ft"])
	require.Less(t, strings.Index(flat, "place 4 of "), strings.Index(flat, "What matters"))
	n := fixture.List(t).Counts(true)
	require.Equal(t, 11, n.House)
	has(t, flat, "About 11 questions on the house and 6 on what matters")

	out, err = said(t, fixture.NewMemory(), ask.Config{}, "1", "done", "next", "quit")
	require.NoError(t, err)
	require.NotContains(t, out, "place 1 of ")
}

// A program that was killed goes on the way that was chosen, at the place that
// was not asked to the end.
func TestTheWayToAnOrderOutlivesTheProgram(t *testing.T) {
	store := fixture.NewMemory()
	_, err := said(t, store, ask.Config{}, "2", "framed", "done", "next", "done", "44")
	require.ErrorIs(t, err, ask.ErrEnded)
	out, err := said(t, store, ask.Config{}, "1", "done", "back", "quit")
	require.NoError(t, err)
	require.NotContains(t, out, "place 1 of ")
	has(t, out, "Exterior walls (place 2 of ")
	has(t, out, "place 3 of ")
	has(t, out, "size and frame of each place, then what matters", "back leads to the places")
}

// A file that is not there yet is begun at the start menu, where the way to an
// order can be chosen, and saved under its name.
func TestANewFileBeginsAtTheStart(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{House: house.New(), Path: "new.toml", New: true}, "2", "", "framed", "save", "quit")
	require.NoError(t, err)
	has(t, strings.Join(strings.Fields(out), " "), "A new house, ready to order")
	require.NotContains(t, out, "Go on with new.toml")
	require.Contains(t, store.Files["new.toml"], "stage = \"framed\"")
}
