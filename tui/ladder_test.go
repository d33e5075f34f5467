package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/tui/session"
)

// While the ladder is worked out nothing typed can take a line of it, and the
// enter right after it came up takes none either; the next one does.
func TestNothingTypedBeforeTheLadderTakesALine(t *testing.T) {
	for name, early := range map[string][]string{"enter": {"enter"}, "b and enter": {"b", "enter"}, "down and enter": {"down", "enter", "enter"}} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
		p.press("g", "5")
		p.hold = true
		p.press("l")
		require.Positive(t, p.m.s.busy, "it is worked out outside the loop")
		next, _ := p.m.Update(slowMsg{make(chan tea.Msg)})
		p.m = next.(Model)
		require.Contains(t, p.view(), "Working out what the next dollars buy ... ctrl+c stops.")
		p.press(early...)
		p.hold = false
		p.settle()
		require.Contains(t, p.view(), "What the next dollars buy", name)
		require.Zero(t, p.m.s.Edits, name)

		p.press("enter")
		require.Contains(t, spaced(p.view()), enterEarly)
		require.Zero(t, p.m.s.Edits, name)
		p.press("down", "enter") // from the line of the plan to the next
		require.Equal(t, "spend", p.m.s.Answered().Text(house.Budget, nil, "use"), name)
	}
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	p.press("g", "5").send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("lb")}) // in one message
	require.Contains(t, p.view(), "What the next dollars buy")
}

// Choosing a saved plan says what becomes of the budget, above all that it is
// gone.
func TestASavedPlanNamesItsBudget(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 100, 40)
	q, ok := p.m.s.List.Find("budget.total_usd")
	require.True(t, ok)
	p.m.s.answer(q, nil, house.Answer{})
	p.m.s.Answered().KeepVariant("open", pages.Kept(p.m.s.Plan))
	p.m.s.answer(q, nil, house.Number(5000))
	p.m.s.Answered().KeepVariant("capped", pages.Kept(p.m.s.Plan))
	variant := func(name string) string {
		p.run(p.m.s.act(page.Action{ID: session.UsePlan, Arg: name}, p.m.top()))
		return spaced(p.view())
	}
	require.Contains(t, variant("open"), "The budget, $5,000 as a limit, is gone")
	require.Contains(t, variant("capped"), "The budget is now $5,000 as a limit.")
}
