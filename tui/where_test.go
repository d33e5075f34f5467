package tui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/tui/session"
)

// A state that is not one takes the climate zone away, and with it every
// target: it is said before it is kept, and the same accepted again is kept,
// for a house elsewhere.
func TestOddStateIsSaidBeforeItIsKept(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1").ask("site.state").typed("Louisana").press("enter")
	require.Contains(t, p.view(), "did you mean Louisiana?")
	require.Contains(t, p.view(), "enter again keeps it")
	require.Empty(t, p.m.s.Answered().Text(house.Site, nil, "state"))
	p.press("ctrl+u").typed("Ontario").press("enter")
	require.Contains(t, p.view(), "without it the climate zone is not known")
	p.press("enter")
	require.Equal(t, "Ontario", p.m.s.Answered().Text(house.Site, nil, "state"))
	p.press("shift+tab").press("ctrl+u").typed("la").press("enter")
	require.Equal(t, "LA", p.m.s.Answered().Text(house.Site, nil, "state"))
	p.typed("Orlaens").press("enter")
	require.Contains(t, p.view(), "enter again keeps it")
	p.press("ctrl+u").typed("orlean").press("enter")
	require.Equal(t, "Orleans", p.m.s.Answered().Text(house.Site, nil, "county"), "one name begins so: it is meant")
}

// Whoever types the 5 of zone 5A does not get the fifth zone of the list.
func TestDigitsOfAZoneLeadToTheZone(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 40)
	p.press("2").ask("site.zone").press("5")
	require.Empty(t, p.m.s.Answered().Text(house.Site, nil, "zone"), "a digit alone is no answer")
	require.Contains(t, p.view(), "› 5A")
	p.press("5")
	require.Contains(t, p.view(), "› 5B")
	p.press("6", "enter")
	require.Equal(t, "6A", p.m.s.Answered().Text(house.Site, nil, "zone"))
	p = newPlayer(t, Config{Mono: true}, 80, 40)
	p.press("2").ask("site.zone").press("0", "0", "0", "enter")
	require.Equal(t, "0A", p.m.s.Answered().Text(house.Site, nil, "zone"), "round and round")
}

// Without a climate zone the first look says that nothing is asked for.
func TestFirstLookWithoutAZone(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1", "g", "4")
	require.Contains(t, p.view(), "no place to insulate yet")
	require.NotContains(t, p.view(), "$0")
	require.NotContains(t, p.view(), "CLIMATE ZONE NOT KNOWN")
	p.press("g", "6")
	require.NotContains(t, p.view(), "see the places below")
	p.press("g", "2", "r", "g", "4")
	require.Contains(t, p.view(), "CLIMATE ZONE NOT KNOWN")
	p.press("g", "1").ask("site.state").typed("MN").press("enter").typed("St. Louis").press("enter").press("g", "4")
	require.NotContains(t, p.view(), "CLIMATE ZONE NOT KNOWN")
}

// Whoever comes to the priorities and types a level does not rule out the
// fourth fiber.
func TestALevelRulesNothingOut(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	p.press("g", "3", "4")
	require.Empty(t, p.m.s.Answered().Answer(house.Top, nil, "rule_out").List)
	p.press("down", "down", " ")
	require.Equal(t, []string{"mineral-wool"}, p.m.s.Answered().Answer(house.Top, nil, "rule_out").List)
}

// The key that leaves a form for the next step is named where there is room,
// and n is no where the question is answered by yes or no.
func TestFormsNameTheKeyThatLeavesThem(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 120, 40)
	p.press("1").ask("stage")
	require.Contains(t, feet(p), "n next step")
	p.ask("old")
	require.NotContains(t, feet(p), "n next step")
	p.press("shift+tab", "n")
	require.Equal(t, session.AtPlaces, p.m.top().Step())
	p.press("e").ask("place.framing.size")
	require.Contains(t, feet(p), "n done")
	p.press("n")
	require.Equal(t, session.AtPlaces, p.m.top().Step())
}
