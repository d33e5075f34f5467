//go:build unix

package main

import (
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

var colour = regexp.MustCompile("\x1b\\[[0-9;:]*m")

// Without colour the row that the keys act on is still marked. With colour the
// same walk has some, so that the first half says something.
func TestNoColour(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		environ, args []string
		colour        bool
	}{
		"NO_COLOR":       {[]string{"NO_COLOR=1"}, nil, false},
		"NO_COLOR=0":     {[]string{"NO_COLOR=0"}, nil, false}, // any value but none
		"--no-color":     {nil, []string{"--no-color"}, false},
		"NO_COLOR empty": {[]string{"NO_COLOR="}, nil, true},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := start(t, t.TempDir(), 80, 24, c.environ, c.args...)
			s.sees("› 1  A new house").key(down).sees("› 2  A new house").key(enter).sees("› What shall we call this house?")
			s.write(ctrlC)
			s.exit()
			require.Equal(t, c.colour, colour.MatchString(s.bytes()), "%q", tail(s.bytes(), 300))
		})
	}
}

func TestASCIIScreens(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), 80, 24, nil, "--ascii")
	s.sees("> 1  A new house").key("3").sees("The house at a glance").key(enter).sees("taken already").key(enter).sees("Cost").key("p").sees("INSIDE")
	s.write(ctrlC)
	s.exit()
	for _, r := range s.bytes() {
		require.LessOrEqual(t, r, '~', "%q", r)
	}
}

// A terminal that never answers must not hold up a command that draws nothing.
// The fault this guards against waits 5 seconds; the best of three tries keeps
// a busy machine from failing the test.
func TestVersionOnASilentTerminal(t *testing.T) {
	t.Parallel()
	best := patience
	for range 3 {
		began := time.Now()
		s := start(t, t.TempDir(), 80, 24, nil, "--version")
		require.Equal(t, exitDone, s.exit())
		best = min(best, time.Since(began))
		require.NotContains(t, s.bytes(), "\x1b")
		require.Regexp(t, `^battwright .+\r\n$`, s.bytes())
		if best < time.Second {
			break
		}
	}
	require.Less(t, best, time.Second)
}

// Nor are the screens: they never ask for the background either.
func TestScreensAskNothing(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), 80, 24, nil)
	s.sees("rough look")
	s.write(ctrlC)
	s.exit()
	require.NotContains(t, s.bytes(), expectation(t).sequence(t, "background asked"))
}
