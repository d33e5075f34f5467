package tui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/tui/session"
)

// Whoever says that the drawings name R-values is asked for them next, and the
// first look says loudly while they are not typed.
func TestDrawingsAreAskedForAtOnce(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 120, 60)
	p.press("1").ask("drawings").press("y")
	f, ok := p.m.top().(*form)
	require.True(t, ok)
	require.Equal(t, "drawing_r.attic", f.fields[f.active].q.FullKey())
	p.typed("49").press("enter").typed("20").press("enter").typed("5").press("enter").press("ctrl+d")
	require.Equal(t, session.AtPlaces, p.m.top().Step())
	require.Equal(t, house.Number(49), p.m.s.House.Answers["drawing_r.attic"])
	p.press("enter", "ctrl+n")
	require.Equal(t, session.AtLook, p.m.top().Step())
	require.Contains(t, p.view(), "THE R-VALUES OF YOUR DRAWINGS ARE NOT IN THIS PLAN YET (Floor over the crawl space)")
}
