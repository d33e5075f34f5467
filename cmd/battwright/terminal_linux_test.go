package main

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"
)

// childOf is the process that another has started.
func childOf(t *testing.T, pid int) int {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("/proc", strconv.Itoa(pid), "task", strconv.Itoa(pid), "children"))
	require.NoError(t, err)
	child, err := strconv.Atoi(strings.Fields(string(b))[0])
	require.NoError(t, err)
	return child
}

// Stopped by somebody else, the program gives the terminal back as it does for
// its own key, and fg brings raw keys and screen again. A stop that no program
// can see (SIGSTOP) leaves its screen behind, but fg repairs that too.
func TestStoppedByAnotherInAShell(t *testing.T) {
	t.Parallel()
	off := expectation(t).sequence(t, "other screen off")
	for name, sig := range map[string]syscall.Signal{"SIGTSTP": syscall.SIGTSTP, "SIGSTOP": syscall.SIGSTOP} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := shell(t, t.TempDir())
			s.write("\"$BW\"\r")
			s.sees("rough look").write("1")
			s.sees("How far is the building today?")
			require.NoError(t, syscall.Kill(childOf(t, s.cmd.Process.Pid), sig))
			s.until("the shell", func() bool {
				return strings.Contains(s.bytes(), "Stopped") && strings.HasSuffix(s.bytes(), "ready> ")
			}, nil)
			if sig == syscall.SIGTSTP {
				require.Contains(t, s.bytes(), off)
			}
			at := len(s.bytes())
			s.write("fg\r")
			s.until("the screen", func() bool { return strings.Contains(s.bytes()[at:], "How far is the building today?") }, nil)
			s.write("2") // without an enter: the terminal is raw
			s.sees("› Is any part of it")
			s.write(ctrlC)
			s.until("the shell again", func() bool { return strings.HasSuffix(s.bytes(), "ready> ") }, nil)
			s.write("exit\r")
			s.exit()
		})
	}
}

// A pipe keeps nobody waiting: it is refused as a house, as an offer, as kept
// answers and as data.
func TestPipesAreRefused(t *testing.T) {
	t.Parallel()
	state := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(state, "battwright"), 0o700))
	require.NoError(t, syscall.Mkfifo(keptIn(state), 0o600)) // read before the first frame
	s := start(t, state, 80, 24, nil)
	require.NoError(t, syscall.Mkfifo(filepath.Join(s.cmd.Dir, "p"), 0o600))
	for _, path := range []string{"p", "/dev/tty"} {
		s.sees("rough look").write("4")
		s.sees("The path of a").write(path)
		s.sees(path + "_").write(enter)
		s.sees("this is not an ordinary file").write(escape)
	}
	s.sees("rough look").write("q")
	require.Equal(t, exitDone, s.exit())
	s.restored()

	dir := t.TempDir()
	require.NoError(t, syscall.Mkfifo(filepath.Join(dir, "own.toml"), 0o600))
	r := runs("check", "--data", dir)
	require.Equal(t, exitInput, r.code)
	require.Contains(t, r.stderr, "this is not an ordinary file")
}

// A terminal that says it is 0 by 0 is drawn as one of 80 by 24.
func TestTerminalWithoutASize(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), 0, 0, nil)
	s.sees("rough look").key("1").sees("› How far")
	s.write(ctrlC)
	require.Equal(t, exitInterrupted, s.exit())
	s.restored()
}

// Where answers can be kept nowhere, leaving asks, and giving them up is said
// and is no success.
func TestQuitWithNowhereToKeepAnswers(t *testing.T) {
	t.Parallel()
	for _, nowhere := range [][]string{{"HOME=", "XDG_STATE_HOME="}, {"XDG_STATE_HOME=/proc/nowhere"}} {
		s := start(t, t.TempDir(), 100, 30, nowhere)
		s.sees("rough look").key("1").sees("› How far").key("2").sees("could not be kept")
		s.key("q").sees("y yes").write("n")
		require.Equal(t, exitInput, s.exit())
		s.restored()
		require.Contains(t, s.bytes(), "your answers are in no file")
	}
}

// Without UTF-8 in the locale the drawing is plain by itself.
func TestPlainDrawingWithoutUTF8(t *testing.T) {
	t.Parallel()
	for locale, plain := range map[string]bool{"LC_ALL=C": true, "LANG=POSIX": true, "LANG=": true, "LC_CTYPE=de_DE.ISO-8859-1": true, "LC_ALL=en_US.utf8": false} {
		s := start(t, t.TempDir(), 80, 24, []string{locale})
		s.sees("rough look").key("3").sees("The house at a glance")
		s.write(ctrlC)
		s.exit()
		other := strings.IndexFunc(s.bytes(), func(r rune) bool { return r > unicode.MaxASCII })
		require.Equal(t, plain, other < 0, locale)
	}
}

// Letters that come in one read are text in a field, and a digit with an enter
// right behind it passes no question.
func TestBurstsInFields(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), 80, 24, nil)
	s.sees("rough look").write("1" + enter)
	s.sees("taken already").sees("› How far is the building today?")
	s.reach("Which state", enter).typed("VT").reach("Which county", enter)
	for _, part := range []string{"Chitt", "end", "en"} {
		s.key(part)
	}
	s.sees("Chittenden_").key(enter).reach("How long", enter)
	s.write("about 5000")
	s.sees("about 5000_")
	s.write(ctrlC)
	require.Equal(t, exitInterrupted, s.exit())
}

// An answer is on the disk before the frame that shows it: a process killed the
// moment the next question is seen has lost nothing.
func TestKilledBehindTheFrame(t *testing.T) {
	t.Parallel()
	for range 5 {
		state := t.TempDir()
		s := start(t, state, 80, 24, nil)
		s.sees("rough look").key("1").sees("› How far").write("2")
		s.sees("› Is any part of it")
		s.signal(syscall.SIGKILL)
		s.exit()
		require.Contains(t, readFile(t, keptIn(state)), `stage = "framed"`)
	}
}
