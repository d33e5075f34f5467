package tui

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/session"
)

// Ready to order leads through size and frame of every place and not past them;
// the rough look goes on to what matters.
func TestReadyToOrderAsksEveryPlace(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 100, 60)
	p.press("2", "ctrl+n")
	require.Equal(t, session.AtPlaces, p.m.top().Step())
	require.Contains(t, p.view(), "size and frame of each")
	places := len(p.m.s.House.Places)
	require.Greater(t, places, 3)
	p.press("enter")
	for i := range places {
		f, ok := p.m.top().(*form)
		require.True(t, ok, "place %d", i+1)
		require.Contains(t, p.view(), "(place "+string(rune('1'+i))+" of ")
		for _, x := range f.fields {
			require.True(t, x.q.ToOrder, x.q.Key)
		}
		require.NotEmpty(t, f.fields)
		p.press("ctrl+n")
	}
	require.Equal(t, session.AtMatters, p.m.top().Step())
	p.press("b", "enter") // each is led through once
	require.Equal(t, session.AtMatters, p.m.top().Step())

	p = newPlayer(t, Config{Mono: true}, 100, 60)
	p.press("1", "ctrl+n", "enter")
	require.Equal(t, session.AtMatters, p.m.top().Step())
}

// A program that was killed goes on the way that was chosen, at the place that
// was not asked to the end.
func TestTheWayToAnOrderOutlivesTheProgram(t *testing.T) {
	store := fixture.NewMemory()
	p := newPlayer(t, Config{Mono: true, Store: store}, 100, 60)
	p.press("2", "1", "ctrl+n", "enter", "ctrl+n").typed("44").press("enter")
	require.Contains(t, p.view(), "(place 2 of ")
	p = newPlayer(t, Config{Mono: true, Store: store}, 100, 60)
	p.press("1")
	require.Contains(t, p.view(), "(place 2 of ")
	require.False(t, p.m.s.Rough)
	require.Equal(t, 1, p.m.top().(*form).active, "behind the length that was typed")

	// The rough look stays rough.
	store = fixture.NewMemory()
	p = newPlayer(t, Config{Mono: true, Store: store}, 100, 60)
	p.press("1", "1")
	p = newPlayer(t, Config{Mono: true, Store: store}, 100, 60)
	p.press("1")
	require.True(t, p.m.s.Rough)
}

// A form is headed by the name that its place has now.
func TestARenamedPlaceHasItsNewNameOverItsForm(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 100, 60)
	p.press("1", "ctrl+n", "down", "c", "e")
	require.Contains(t, p.view(), "Exterior walls 2")
	p.press("ctrl+u").typed("Street wall").press("enter")
	require.NotContains(t, p.view(), "Exterior walls 2")
	require.Equal(t, house.Text("Street wall"), p.m.s.House.Places[len(p.m.s.House.Places)-1].Answers["label"])
}

// Where no question is open it is not said that nothing is unknown: what is
// assumed is counted, on the find-out list and at the start.
func TestAssumptionsAreNotCalledKnown(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 100, 60)
	p.m.s.Plan.Unknown = nil
	n := len(p.m.s.Plan.Assumed)
	require.Greater(t, n, 10)
	line := p.m.s.StageLine()
	require.Contains(t, line, "0 answers not known yet, ")
	require.Contains(t, line, " assumed.")
	p.press("g", "4", "f")
	p.m.s.Tried().Found = nil
	require.NotContains(t, p.view(), "Nothing is unknown")
	require.Contains(t, p.view(), fmt.Sprintf("No open questions. %d answers are only assumed: see below.", n))
}
