//go:build unix

package main

import (
	"os/exec"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// lines starts the line-by-line mode on a terminal of the usual kind and
// answers the first question.
func lines(t *testing.T, state string) *session {
	s := start(t, state, 100, 100, nil, "ask")
	s.sees("Your choice:").write("1\r")
	s.sees("How far is the building today?").write("framed\r")
	s.sees("from before 1990?").keeps(state, `stage = "framed"`)
	return s
}

// Somebody closes the window, or the line to the machine breaks.
func TestAskHungUp(t *testing.T) {
	t.Parallel()
	for name, end := range map[string]func(*session){
		"closed": func(s *session) { require.NoError(t, s.pty.Close()) },
		"SIGHUP": func(s *session) { s.signal(syscall.SIGHUP) },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			state := t.TempDir()
			s := lines(t, state)
			end(s)
			require.NotContains(t, []int{exitInternal, exitDone}, s.exit())
			require.Contains(t, readFile(t, keptIn(state)), `stage = "framed"`)
		})
	}
}

// The program that reads the lines goes away: the answers are on disk, and
// nothing is said of goroutines.
func TestAskIntoABrokenPipe(t *testing.T) {
	t.Parallel()
	for _, after := range []int{0, 200, 1500} {
		state := t.TempDir()
		r := with{stdin: "1\nframed\nno\nMN\nHennepin\n", environ: map[string]string{"XDG_STATE_HOME": state}, stdout: &brokenPipe{after: after}}.run("ask")
		require.Equal(t, exitInput, r.code, r.stderr)
		require.NotContains(t, r.stderr, "goroutine")
	}
}

// shell is a shell with job control in a terminal of its own.
func shell(t *testing.T, state string) *session {
	t.Helper()
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("no bash here")
	}
	s := startOther(t, state, 100, 40, []string{"PS1=ready> ", "BW=" + binary(t)}, bash, "--norc", "--noprofile", "--noediting", "-i")
	return s.sees("ready> ")
}

// ctrl-z in a shell gives the terminal back to it, fg goes on, in both modes;
// in between the terminal works as before: what is typed is shown.
func TestPausedInAShell(t *testing.T) {
	t.Parallel()
	for mode, c := range map[string]struct{ command, first, answer, next string }{
		"screens": {`"$BW"`, "rough look", "1", "How far is the building today?"},
		"lines":   {`"$BW" ask`, "Your choice:", "1\r", "How far is the building today?"},
	} {
		t.Run(mode, func(t *testing.T) {
			t.Parallel()
			state := t.TempDir()
			s := shell(t, state)
			s.write(c.command + "\r")
			s.sees(c.first).write(c.answer)
			s.sees(c.next)
			s.write(ctrlZ)
			s.until("the shell", func() bool {
				return strings.Contains(s.bytes(), "Stopped") && strings.HasSuffix(s.bytes(), "ready> ")
			}, nil)
			s.write("echo here $((20+3))\r")
			s.until("the answer of the shell", func() bool {
				return strings.Contains(s.bytes(), "echo here $((20+3))") && strings.Contains(s.bytes(), "here 23")
			}, nil)
			at := len(s.bytes())
			s.write("fg\r")
			if mode == "lines" {
				s.until("the prompt", func() bool { return strings.HasSuffix(s.bytes()[at:], "Answer: ") }, nil)
				s.write("framed\r")
			} else {
				s.until("the screens", func() bool { return strings.Contains(s.bytes()[at:], c.next) }, nil)
				s.write("2")
			}
			s.until("the next question", func() bool { return strings.Contains(s.bytes()[at:], "1990?") }, nil)
			s.keeps(state, `stage = "framed"`)
			s.write(ctrlC)
			s.until("the shell again", func() bool { return strings.HasSuffix(s.bytes(), "ready> ") }, nil)
			s.write("exit\r")
			s.exit()
		})
	}
}
