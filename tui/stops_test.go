package tui

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/testdata/fixture/planned"
)

// Whatever is asked about a stopped place, its page begins with STOP, says each
// danger, and no step, choice or price.
func TestStoppedPlacesInEveryScreen(t *testing.T) {
	for _, h := range planned.StoppedHouses(t) {
		p := newPlayer(t, Config{Mono: true, House: h.House.House}, 100, 60)
		stops := p.m.s.Plan.Places[0].Stops
		require.NotEmpty(t, stops, h.Name)
		look := spaced(p.view())
		require.Contains(t, look, planned.StoppedLabel+" STOP: "+firstWords(stops[0]), h.Name)
		p.press("enter")
		for _, key := range []string{"", "w", "p", "d", "h"} {
			if key != "" {
				p.press(key)
			}
			lines := strings.Split(p.view(), "\n")
			require.True(t, strings.HasPrefix(strings.TrimSpace(lines[3]), "STOP"), "%s %s: %s", h.Name, key, lines[3])
			page := spaced(p.view())
			for _, s := range stops {
				require.Contains(t, page, firstWords(s), "%s %s", h.Name, key)
			}
			for _, word := range []string{"$", "Use ", "First seal", "of 100 points", "N95"} {
				require.NotContains(t, page, word, "%s %s", h.Name, key)
			}
		}
		p.m.s.Plan.Stage = "not-framed"
		require.NotContains(t, p.press("c").view(), "Decide", "nothing is compared for it")
	}
}

func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// firstWords are what stays on one line of a page.
func firstWords(s plan.Stop) string {
	return strings.Join(strings.Fields(s.Say)[:4], " ")
}
