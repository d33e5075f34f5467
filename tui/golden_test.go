package tui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// The golden files hold invented houses; they fix what the screens look like,
// not figures: those are checked where they are worked out.

var goldenScreens = []string{
	"start", "house-choice", "house-number", "house-text", "house-many", "house-help", "house-number-wrong",
	"places", "matters", "look", "place-result", "place-why", "place-picture", "place-damp", "place-how", "place-chimney",
	"money", "ladder", "would-change", "house-suggest", "order", "order-cut", "order-cut-place", "order-ask", "order-prices", "order-label", "order-price", "order-export", "check", "find-out", "export", "open-problems", "saved-plans", "words", "leave",
}

// narrowScreens are those that put things below each other where a window is
// narrow.
var narrowScreens = []string{"house-many", "places"}

// goldenSizes are the usual window, a narrow one where that shows another
// layout, and a large one for what goes on below the usual one. That every
// screen fits every window is a test of its own.
func goldenSizes(name, usual string) [][2]int {
	sizes := [][2]int{{80, 24}}
	if slices.Contains(narrowScreens, name) {
		sizes = append(sizes, [2]int{60, 20})
	}
	if strings.Contains(usual, "more below") {
		sizes = append(sizes, [2]int{120, 40})
	}
	return sizes
}

func TestGoldenScreens(t *testing.T) {
	for _, name := range goldenScreens {
		t.Run(name, func(t *testing.T) {
			var b strings.Builder
			usual := at(t, stopNamed(t, name), Config{Mono: true, List: fixture.Yearly(t)}, 80, 24).view()
			for _, size := range goldenSizes(name, usual) {
				p := at(t, stopNamed(t, name), Config{Mono: true, List: fixture.Yearly(t)}, size[0], size[1])
				fmt.Fprintf(&b, "== %dx%d\n%s\n", size[0], size[1], p.view())
			}
			golden(t, name, b.String())
		})
	}
}

func TestGoldenTooSmall(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 30, 6)
	golden(t, "too-small", p.view()+"\n")
}

func TestGoldenASCII(t *testing.T) {
	var b strings.Builder
	for _, name := range []string{"start", "house-choice", "matters", "place-picture", "place-damp"} {
		p := at(t, stopNamed(t, name), Config{Mono: true, ASCII: true, List: fixture.Yearly(t)}, 80, 24)
		fmt.Fprintf(&b, "== %s\n%s\n", name, p.view())
	}
	golden(t, "ascii", b.String())
}

func stopNamed(t testing.TB, name string) stop {
	t.Helper()
	for _, s := range stops {
		if s.name == name {
			return s
		}
	}
	require.Fail(t, "no such screen", name)
	return stop{}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	fixture.Golden(t, "testdata", name, got)
}
