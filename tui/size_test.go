package tui

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
)

// looks are the ways a screen can be drawn.
var looks = []struct {
	name string
	c    Config
}{
	{"colour", Config{}},
	{"mono", Config{Mono: true}},
	{"mono ascii", Config{Mono: true, ASCII: true}},
}

// windows gives every width at a random height and every height at a random
// width, from 20x5 to 200x60.
func windows(rnd *rand.Rand) [][2]int {
	out := [][2]int{{20, 5}, {39, 10}, {40, 9}, {40, 10}, {60, 20}, {75, 24}, {76, 24}, {80, 24}, {120, 40}, {200, 60}}
	for w := 20; w <= 200; w += 5 {
		out = append(out, [2]int{w, 5 + rnd.IntN(56)})
	}
	for h := 5; h <= 60; h += 3 {
		out = append(out, [2]int{20 + rnd.IntN(181), h})
	}
	return out
}

func TestEveryScreenFitsEveryWindow(t *testing.T) {
	for n, look := range looks {
		t.Run(look.name, func(t *testing.T) {
			rnd := rand.New(rand.NewPCG(1, 2))
			for _, s := range stops {
				p := at(t, s, look.c, 80, 24)
				for i, w := range windows(rnd) {
					if (i+n)%len(looks) != 0 && i >= 10 {
						continue // each look has the named sizes and a third of the others
					}
					p.resize(w[0], w[1])
					if problem := frameProblem(p.view(), w[0], w[1], look.c); problem != "" {
						t.Fatalf("%s at %dx%d: %s\n%s", s.name, w[0], w[1], problem, p.view())
					}
				}
			}
		})
	}
}

// frameProblem says what is wrong with a frame: too wide, too tall, too short,
// or with something in it that a terminal would obey.
func frameProblem(view string, width, height int, c Config) string {
	lines := strings.Split(view, "\n")
	switch {
	case len(lines) > height:
		return "more lines than the window"
	case width >= minWidth && height >= minHeight && len(lines) != height:
		return "does not fill the window"
	}
	for _, l := range lines {
		if ansi.StringWidth(l) > width {
			return "a line is wider than the window: " + l
		}
	}
	if c.Mono && strings.Contains(view, "\x1b") {
		return "an escape without colour"
	}
	for _, r := range withoutColour(view) {
		if r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 {
			return "a control character"
		}
		if c.ASCII && r > '~' {
			return "a sign beyond ASCII: " + string(r)
		}
	}
	return ""
}

// withoutColour takes out the colour sequences that the style makes, and no
// others: any other escape stays and is found.
func withoutColour(s string) string {
	var b strings.Builder
	for {
		i := strings.Index(s, "\x1b[")
		if i < 0 {
			b.WriteString(s)
			return b.String()
		}
		j := i + 2
		for j < len(s) && (s[j] >= '0' && s[j] <= '9' || s[j] == ';') {
			j++
		}
		b.WriteString(s[:i])
		if j == len(s) || s[j] != 'm' {
			b.WriteString(s[i : i+2])
			j = i + 1
		}
		s = s[j+1:]
	}
}

// A row that is cut off by the height of the window can be scrolled to: every
// row of the tall frame shows up in some frame of the low one.
func TestEveryRowCanBeReached(t *testing.T) {
	for _, s := range stops {
		if s.name == "leave" {
			continue // the question has to be answered first
		}
		t.Run(s.name, func(t *testing.T) {
			tall := at(t, s, Config{Mono: true}, 80, 400)
			low := at(t, s, Config{Mono: true}, 80, 14)
			seen := map[string]bool{}
			last := ""
			for _, turn := range []string{"pgup", "pgdn"} {
				for low.view() != last { // until there is no more
					last = low.view()
					for _, l := range strings.Split(last, "\n") {
						seen[l] = true
					}
					low.press(turn)
				}
				last = ""
			}
			lines := strings.Split(tall.view(), "\n")
			for _, l := range lines[2 : len(lines)-4] { // without path and keys
				require.True(t, l == "" || seen[l], "never on the screen: %q", l)
			}
		})
	}
}

func TestMoreMarks(t *testing.T) {
	p := at(t, stopNamed(t, "read-here"), Config{Mono: true}, 80, 24)
	require.Contains(t, p.view(), "more below: pgdn")
	require.NotContains(t, p.view(), "more above")
	p.press("pgdn")
	require.Contains(t, p.view(), "more above and below")
	for last := ""; last != p.view(); p.press("pgdn") {
		last = p.view()
	}
	require.Contains(t, p.view(), "more above")
	require.NotContains(t, p.view(), "below: pgdn")
}
