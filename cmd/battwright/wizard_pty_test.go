//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/creack/pty"
	"github.com/stretchr/testify/require"
)

// keeps waits until the kept answers on disk hold a text.
func (s *session) keeps(state, text string) {
	s.t.Helper()
	s.until("kept answers with "+text, func() bool {
		b, err := os.ReadFile(keptIn(state))
		return err == nil && strings.Contains(string(b), text)
	}, nil)
}

// reach moves on until a question is the one that keys act on.
func (s *session) reach(question, key string) *session {
	s.t.Helper()
	for range 40 {
		if strings.Contains(s.screen(), "› "+question) {
			return s
		}
		s.key(key)
	}
	return s.sees("› " + question)
}

// A new house from the first screen to a printed text.
func TestNewHouseToText(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), 80, 24, nil)
	s.sees("A new house, rough look").key("1").sees("› How far is the building today?").key("2").sees("› Is any part")
	s.reach("Which state", enter).typed("MN").reach("Which county", enter).typed("Hennepin").key(enter)
	s.reach("How long is the house", enter).typed("36").reach("Do your approved", enter).key(enter).sees("The places to insulate").key(enter).sees("What matters").key(enter).sees("› lowest price").key("5").key(enter).sees("The house at a glance")
	s.key("x").sees("Export the recommendation").key("2").sees("The name of a file").typed("mine").key(enter).sees("Written to mine.txt")
	s.write("q")
	require.Equal(t, exitDone, s.exit())
	s.restored()
	text := readFile(t, filepath.Join(s.cmd.Dir, "mine.txt"))
	require.Contains(t, text, "Hennepin, MN")
	require.Contains(t, text, "Model codes are law only as adopted")
}

// A power cut loses nothing: the next start takes up where it stopped.
func TestKilledAndResumed(t *testing.T) {
	t.Parallel()
	state := t.TempDir()
	s := start(t, state, 80, 24, nil)
	s.sees("rough look").key("1").sees("› How far").key("2").sees("› Is any part")
	s.keeps(state, `stage = "framed"`)
	s.signal(syscall.SIGKILL)
	s.exit()

	s = start(t, state, 80, 24, nil)
	s.sees("Go on where you stopped").key("1").sees("framed")
	s.write(ctrlC)
	require.Equal(t, exitInterrupted, s.exit())
	require.Contains(t, readFile(t, keptIn(state)), `stage = "framed"`)
}

// The same with a file of one's own: the kept answers are offered before the
// first change could replace them.
func TestKilledWithAFile(t *testing.T) {
	t.Parallel()
	state := t.TempDir()
	good, err := filepath.Abs(goodHouse)
	require.NoError(t, err)
	s := start(t, state, 100, 30, nil, good)
	s.sees("The house at a glance").key("m").sees("What matters").key(enter).sees("› lowest price").key("1").sees("1 ██")
	s.keeps(state, "cost = 1")
	s.signal(syscall.SIGKILL)
	s.exit()

	s = start(t, state, 100, 30, nil, good)
	s.sees("Answers were kept").sees("good-house.toml").key("1").sees("The house at a glance").key("m").sees("lowest price          1 ██")
	s.write(ctrlC)
	require.Equal(t, exitInterrupted, s.exit())
	require.Contains(t, readFile(t, good), "cost = 3", "the file is not touched before s")
}

// A signal, or ctrl-c, ends the program in order with the answers on disk.
func TestStopped(t *testing.T) {
	t.Parallel()
	for name, stop := range map[string]func(*session){
		"SIGTERM": func(s *session) { s.signal(syscall.SIGTERM) },
		"SIGHUP":  func(s *session) { s.signal(syscall.SIGHUP) },
		"SIGQUIT": func(s *session) { s.signal(syscall.SIGQUIT) },
		"SIGINT":  func(s *session) { s.signal(syscall.SIGINT) },
		"ctrl-c":  func(s *session) { s.write(ctrlC) },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			state := t.TempDir()
			s := start(t, state, 80, 24, nil)
			s.sees("rough look").key("1").sees("› How far").key("3").sees("› Is any part")
			stop(s) // at once: the last answer may not be on disk yet
			require.Equal(t, exitInterrupted, s.exit())
			s.restored()
			require.Contains(t, readFile(t, keptIn(state)), `stage = "wired"`)
			require.Contains(t, s.bytes(), "Your answers are in")
		})
	}
}

// Without a shell behind it nobody could make a paused program go on, so it does
// not pause, says so, and works as before. That it does pause in a shell is tested
// beside the line mode.
func TestNoPauseWithoutAShell(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), 80, 24, nil)
	s.sees("rough look").key("1").sees("› How far is the building today?")
	s.write(ctrlZ)
	s.sees("no shell to go back to").key("2").sees("› Is any part")
	s.signal(syscall.SIGTSTP)
	s.sees("no shell to go back to").key("1")
	require.NotContains(t, s.bytes(), expectation(t).sequence(t, "other screen off"))
	s.write(ctrlC)
	require.Equal(t, exitInterrupted, s.exit())
	s.restored()
}

func TestResized(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), 80, 24, nil)
	s.sees("rough look").key("1").sees("first look")
	resize := func(width, height int) {
		s.mu.Lock()
		s.vt.Resize(width, height)
		s.mu.Unlock()
		require.NoError(t, pty.Setsize(s.pty, &pty.Winsize{Rows: uint16(height), Cols: uint16(width)}))
	}
	resize(60, 20)
	s.sees("step 1 of 7")
	resize(30, 8)
	s.sees("needs at least")
	resize(120, 40)
	s.sees("first look").sees("› How far is the building today?").key("2").sees("› Is any part")
	s.write(ctrlC)
	require.Equal(t, exitInterrupted, s.exit())
}

// Somebody closes the window: the program ends, with the answers on disk.
func TestClosedTerminal(t *testing.T) {
	t.Parallel()
	state := t.TempDir()
	s := start(t, state, 80, 24, nil)
	s.sees("rough look").key("1").sees("› How far").key("4").sees("› Is any part")
	s.keeps(state, `stage = "insulated"`)
	require.NoError(t, s.pty.Close())
	require.NotEqual(t, exitInternal, s.exit())
	require.Contains(t, readFile(t, keptIn(state)), `stage = "insulated"`)
}

// A paste of many lines with escape sequences lands in one field as text.
func TestPaste(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), 80, 24, nil)
	s.sees("rough look").key("2").sees("What shall we call this house?")
	s.write("\x1b[200~Elm\nRow \x1b[31mred\x07\x1b[201~")
	s.sees("Elm Row").key(enter).sees("How far is the building today?").sees("Elm Row")
	s.write(ctrlC)
	require.Equal(t, exitInterrupted, s.exit())
	require.NotContains(t, s.bytes(), "\x07")
}

// The file named on the command line is the one that s saves.
func TestSavesTheFileThatWasNamed(t *testing.T) {
	t.Parallel()
	state, path := t.TempDir(), filepath.Join(t.TempDir(), "mine.toml")
	lines := strings.SplitAfterN(readFile(t, goodHouse), "\n", 2)
	require.NoError(t, os.WriteFile(path, []byte(lines[1]), 0o644)) // without its comment
	s := start(t, state, 100, 30, nil, path)
	s.sees("The house at a glance").key("m").sees("What matters").key(enter).sees("› lowest price").key("1").sees("1 ██").key("s").sees("Saved in")
	require.Contains(t, readFile(t, path), "cost = 1")
	s.write("q")
	require.Equal(t, exitDone, s.exit())
	require.NoFileExists(t, keptIn(state), "what is saved need not be kept")
	require.Equal(t, exitDone, runs("check", path).code)
}
