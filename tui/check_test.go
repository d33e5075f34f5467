package tui

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
	"battwright/tui/session"
)

// onCheck has the demo house on the last step.
func onCheck(t testing.TB, c Config) *player {
	t.Helper()
	c.House = demoHouse(t)
	p := newPlayer(t, c, 100, 40)
	return p.press("g", "7")
}

// The walk through the finished work can be broken off at any question: what
// was typed is kept, and is there again after a new start.
func TestWalkIsKept(t *testing.T) {
	p := onCheck(t, Config{Mono: true})
	p.press("5", "8").ask("place.batt_in_gap").press("y")
	require.Contains(t, p.view(), "STOP")
	p.ask("place.gap_in").typed("1 1/2").press("enter", "ctrl+c")
	require.Contains(t, p.store.Text, "#| batt_in_gap = true")
	require.Contains(t, p.store.Text, "#| gap_in = 1.5")

	again := newPlayer(t, Config{Mono: true, Store: p.store}, 100, 40)
	again.press("1") // go on where you stopped
	again.press("g", "7")
	require.Contains(t, again.view(), "STOP: do not close")
	again.press("5")
	require.Contains(t, again.view(), "STOP: do not close")
}

// Paging through the questions with enter answers none of them: nobody passes
// a chimney gap that was not looked into.
func TestPagingOnAnswersNothing(t *testing.T) {
	for _, place := range []string{"1", "3", "5", "6", "8"} {
		p := onCheck(t, Config{Mono: true})
		p.press("5", place)
		for range 40 {
			p.press("enter")
			if _, on := p.m.top().(*form); !on {
				break
			}
		}
		require.False(t, p.m.s.WalkBegun(), place)
		require.False(t, p.m.s.WalkResult().ReadyToClose())
	}
}

// Up to three offers are held against the plan, and judged again when it
// changes.
func TestOffersInTheWizard(t *testing.T) {
	p := onCheck(t, Config{Mono: true})
	for _, name := range []string{"full", "bold", "metric"} {
		p.store.Files[name+".toml"] = fixture.File(t, "offers/"+name+".toml")
		p.press("4", "1").typed(name + ".toml").press("enter")
		require.Contains(t, strings.ToUpper(p.view()), "OFFERS BESIDE THE PLAN")
		p.press("b", "b")
	}
	p.press("4")
	require.Contains(t, p.view(), "5 lines could not be read")
	p.store.Files["four.toml"] = fixture.File(t, "offers/full.toml")
	p.press("1").typed("four.toml").press("enter")
	require.Contains(t, p.view(), "3 offers are open: close one first")
	require.Len(t, p.m.s.Offers, 3, "three are enough")
	p.press("down", "down", "down", "x") // close the first
	require.Len(t, p.m.s.Offers, 2)
	require.Equal(t, "bold.toml", p.m.s.Offers[0].Path)
	p.press("1").typed("nowhere.toml").press("enter")
	require.Contains(t, p.view(), "no such file")
}

// Nothing takes the place of a walk that no file holds unasked.
func TestWalkIsNotReplacedUnasked(t *testing.T) {
	p := onCheck(t, Config{Mono: true})
	p.store.Files["f.toml"] = fixture.File(t, "finished/mixed.toml")
	p.store.Files["nonsense.toml"] = "== not TOML"
	p.press("5", "8").ask("place.batt_in_gap").press("y", "esc")
	p.press("down", "down", "down", "enter").typed("nonsense.toml").press("enter")
	require.Contains(t, p.view(), session.UnsavedWalk)
	p.press("enter")
	require.Contains(t, p.view(), "nonsense.toml could not be read")
	require.True(t, p.m.s.WalkResult().Stops())

	p.press("g", "down", "down", "down", "enter") // the start screen
	p.press("4")
	require.Contains(t, p.view(), "finished work is in no file of yours")
	require.True(t, p.m.s.WalkResult().Stops())
}
