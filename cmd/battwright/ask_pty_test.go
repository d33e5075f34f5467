//go:build unix

package main

import (
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// In a real terminal: nothing a dumb terminal would not understand, and ctrl-c
// or a signal ends it with the answers on disk.
func TestAskInATerminal(t *testing.T) {
	for name, end := range map[string]struct {
		do   func(*session)
		code int
	}{
		"ctrl-c":  {func(s *session) { s.write(ctrlC) }, exitInterrupted},
		"SIGTERM": {func(s *session) { s.signal(syscall.SIGTERM) }, exitInterrupted},
		"ctrl-d":  {func(s *session) { s.write("\x04") }, exitInput},
		"quit":    {func(s *session) { s.write("quit\r") }, exitDone},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			state := t.TempDir()
			s := start(t, state, 100, 100, []string{"TERM=dumb"})
			s.sees("Your choice:").write("1\r")
			s.sees("How far is the building today?").write("framed\r")
			s.sees("from before 1990?").keeps(state, `stage = "framed"`)
			end.do(s)
			require.Equal(t, end.code, s.exit())
			require.Contains(t, readFile(t, keptIn(state)), `stage = "framed"`)
			require.NotContains(t, s.bytes(), "\x1b", "no cursor movement, no colour")
			require.Equal(t, 1, strings.Count(s.bytes(), "framed\r\nAnswer")+strings.Count(s.bytes(), "Answer: framed"), "the terminal shows what is typed, and nobody else")
		})
	}
}

// Lines keep to a narrow window: a terminal breaks longer ones in the middle of a
// word.
func TestAskKeepsToTheWindow(t *testing.T) {
	t.Parallel()
	for width, longest := range map[uint16]int{40: 40, 60: 60, 120: 78} {
		s := start(t, t.TempDir(), width, 100, nil, "ask")
		s.sees("Your choice:").write("quit\r")
		require.Equal(t, exitDone, s.exit())
		for _, l := range strings.Split(s.bytes(), "\r\n") {
			require.LessOrEqual(t, len(l), longest, "%q", l)
		}
	}
}
