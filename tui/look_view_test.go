package tui

import (
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"
)

// However small the window, the name of the place that enter would open is in
// it; pages beyond are reached by paging.
func TestTheChosenPlaceIsSeen(t *testing.T) {
	for _, size := range [][2]int{{40, 10}, {60, 20}, {80, 24}, {120, 40}} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
		p.press("g", "4")
		p.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		for _, place := range p.m.s.plan.Places {
			name := strings.Fields(place.Surface.Label)[0]
			require.Regexp(t, `(?m)^› +`+name, p.view(), "%v", size)
			p.press("down")
		}
		require.Contains(t, p.press(slices.Repeat([]string{"pgup"}, 60)...).view(), "The house at a glance")
	}
}
