package tui

import (
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// However small the window, the name of the place that enter would open is in
// it; pages beyond are reached by paging.
func TestTheChosenPlaceIsSeen(t *testing.T) {
	for _, size := range [][2]int{{40, 10}, {60, 20}, {80, 24}, {120, 40}} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
		p.press("g", "4")
		p.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		for _, place := range p.m.s.Plan.Places {
			name := strings.Fields(place.Surface.Label)[0]
			require.Regexp(t, `(?m)^› +`+name, p.view(), "%v", size)
			p.press("down")
		}
		require.Contains(t, p.press(slices.Repeat([]string{"pgup"}, 60)...).view(), "The house at a glance")
	}
}

// The first look opens with its heading and the total, and the place that enter
// would open is below them. A warning stands in between.
func TestTheFirstLookOpensWithTheTotal(t *testing.T) {
	nowhere, undrawn := demoHouse(t), demoHouse(t)
	for key := range nowhere.Answers {
		if strings.HasPrefix(key, "site.") {
			delete(nowhere.Answers, key)
		}
	}
	undrawn.Answers["drawings"] = house.YesNo(true)
	for name, h := range map[string]*house.House{"demo": demoHouse(t), "no zone": nowhere, "drawings not read": undrawn} {
		for _, size := range [][2]int{{60, 20}, {80, 24}, {120, 40}} {
			p := newPlayer(t, Config{Mono: true, House: h}, size[0], size[1])
			view := strings.Join(strings.Fields(p.view()), " ")
			require.Contains(t, view, "The house at a glance", "%s %v", name, size)
			require.Contains(t, view, pages.MoneyGlance(p.m.s.Plan, p.m.s.System), "%s %v", name, size)
			require.Equal(t, page.Plain, pages.GlancePage(p.m.s.Plan, p.m.s.Options()).Blocks[0].Rows[0].Tone, "the total is not printed faint")
			require.Contains(t, view, "› "+p.m.s.Plan.Places[0].Surface.Label, "%s %v", name, size)
		}
	}
}

// A price is never cut in a narrow window: it goes on in the next line.
func TestPricesAreWholeInANarrowWindow(t *testing.T) {
	h, err := house.Read(fixture.List(t), "water", demo.Text("house-by-the-water.toml"))
	require.NoError(t, err)
	p := newPlayer(t, Config{Mono: true, House: h}, 60, 200)
	p.press("g", "4")
	view := spaced(p.view())
	rows := 0
	for _, pl := range p.m.s.Plan.Places {
		for _, r := range pages.RankRows(pl, p.m.s.Options()) {
			if r.Price != "" {
				rows++
				require.Contains(t, view, r.Fit+", "+r.Price)
			}
		}
	}
	require.Positive(t, rows)
}
