//go:build unix

package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/creack/pty"
	"github.com/hinshun/vt10x"
	"github.com/stretchr/testify/require"
)

// patience is how long a test waits for something that takes milliseconds on
// an idle machine. It bounds a hang and is no figure of speed.
const patience = 20 * time.Second

// session is the real program in a pseudo-terminal, and what its screen shows.
type session struct {
	t       *testing.T
	cmd     *exec.Cmd
	pty     *os.File
	vt      vt10x.Terminal
	mu      sync.Mutex
	raw     bytes.Buffer
	changed chan struct{} // holds one token after something arrived
	ended   chan struct{} // closed when the program is gone and read to its end
}

// start runs the program in a window. The environment is fixed, so that the
// terminal this test runs in changes nothing.
func start(t *testing.T, state string, width, height uint16, environ []string, args ...string) *session {
	t.Helper()
	return startOther(t, state, width, height, environ, binary(t), args...)
}

// startOther is start for another program, a shell for instance.
func startOther(t *testing.T, state string, width, height uint16, environ []string, name string, args ...string) *session {
	t.Helper()
	s := &session{t: t, cmd: exec.Command(name, args...), vt: vt10x.New(vt10x.WithSize(int(width), int(height))), changed: make(chan struct{}, 1), ended: make(chan struct{})}
	s.cmd.Dir = t.TempDir()
	s.cmd.Env = append([]string{"TERM=xterm-256color", "LANG=C.UTF-8", "HOME=" + s.cmd.Dir, "XDG_STATE_HOME=" + state, "PATH=" + os.Getenv("PATH")}, environ...)
	if width == 0 { // the terminal does not say how large it is
		s.vt.Resize(80, 24)
	}
	f, err := pty.StartWithSize(s.cmd, &pty.Winsize{Rows: height, Cols: width})
	require.NoError(t, err)
	s.pty = closable(t, f)
	read := make(chan struct{})
	go s.read(read)
	go func() {
		s.cmd.Wait()
		<-read
		close(s.ended)
		s.poke()
	}()
	t.Cleanup(func() {
		s.cmd.Process.Kill()
		s.pty.Close()
	})
	return s
}

// closable is the same terminal as a file whose Close does not wait for the
// read that is under way: otherwise it could never be closed while watched.
func closable(t *testing.T, f *os.File) *os.File {
	t.Helper()
	fd, err := syscall.Dup(int(f.Fd()))
	require.NoError(t, err)
	syscall.CloseOnExec(fd)
	require.NoError(t, syscall.SetNonblock(fd, true))
	require.NoError(t, f.Close())
	return os.NewFile(uintptr(fd), f.Name())
}

// read feeds the screen, whole letters at a time.
func (s *session) read(done chan struct{}) {
	defer close(done)
	var rest []byte
	buf := make([]byte, 1<<14)
	for {
		n, err := s.pty.Read(buf)
		s.mu.Lock()
		s.raw.Write(buf[:n])
		rest = append(rest, buf[:n]...)
		whole := len(rest)
		for back := 1; back < utf8.UTFMax && back <= len(rest); back++ {
			if utf8.RuneStart(rest[len(rest)-back]) {
				if !utf8.FullRune(rest[len(rest)-back:]) {
					whole = len(rest) - back
				}
				break
			}
		}
		s.vt.Write(rest[:whole])
		rest = append([]byte{}, rest[whole:]...)
		s.mu.Unlock()
		s.poke()
		if err != nil {
			return
		}
	}
}

func (s *session) poke() {
	select {
	case s.changed <- struct{}{}:
	default:
	}
}

func (s *session) screen() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.vt.String()
}

func (s *session) bytes() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.raw.String()
}

// until waits for a condition that output or a file will bring about. Every
// now and then it looks without having been told, and runs again, if given.
func (s *session) until(what string, met func() bool, again func()) {
	s.t.Helper()
	deadline := time.After(patience)
	look := time.NewTicker(50 * time.Millisecond)
	defer look.Stop()
	for !met() {
		select {
		case <-s.changed:
		case <-look.C:
			if again != nil {
				again()
			}
		case <-deadline:
			require.FailNow(s.t, "waited in vain for "+what, "%s\nlast bytes: %q", s.screen(), tail(s.bytes(), 600))
		}
	}
}

// whole reports whether the last frame has arrived to its end: the renderer
// leaves the cursor in the last line after each. A frame read in two parts must
// not count as an answer to a key. Line by line there are no frames.
func (s *session) whole() bool {
	all := s.bytes()
	return !strings.Contains(all, "\x1b[?1049h") || frameEnd.MatchString(tail(all, 12))
}

var frameEnd = regexp.MustCompile("\x1b\\[[0-9]+;[0-9]*H$")

func (s *session) sees(text string) *session {
	s.t.Helper()
	s.until("the text "+text, func() bool { return strings.Contains(s.screen(), text) && s.whole() }, nil)
	return s
}

// key sends one key and waits until the screen shows something else: keys sent
// together may arrive as one. After a key that opens another screen, wait for
// something that only that one shows.
func (s *session) key(k string) *session {
	s.t.Helper()
	before := s.screen()
	s.write(k)
	s.until("a change after the key "+k, func() bool { return s.screen() != before && s.whole() || s.gone() }, nil)
	return s
}

// typed sends a text letter by letter.
func (s *session) typed(text string) *session {
	s.t.Helper()
	for _, r := range text {
		s.key(string(r))
	}
	return s
}

func (s *session) write(k string) {
	s.t.Helper()
	_, err := s.pty.WriteString(k)
	require.NoError(s.t, err)
}

func (s *session) gone() bool {
	select {
	case <-s.ended:
		return true
	default:
		return false
	}
}

// exit waits for the end and gives the exit code.
func (s *session) exit() int {
	s.t.Helper()
	s.until("the end of the program", s.gone, nil)
	return s.cmd.ProcessState.ExitCode()
}

func (s *session) signal(sig syscall.Signal) {
	s.t.Helper()
	if err := s.cmd.Process.Signal(sig); err != nil && !errors.Is(err, os.ErrProcessDone) {
		require.NoError(s.t, err)
	}
}

// restored checks that the terminal is as it was: the other screen left, the
// cursor shown, and nothing switched on after that.
func (s *session) restored() {
	s.t.Helper()
	p, all := expectation(s.t), s.bytes()
	require.Contains(s.t, all, p.sequence(s.t, "other screen on"))
	for _, pair := range [][2]string{{"other screen on", "other screen off"}, {"cursor hidden", "cursor shown"}} {
		on, off := strings.LastIndex(all, p.sequence(s.t, pair[0])), strings.LastIndex(all, p.sequence(s.t, pair[1]))
		require.Greater(s.t, off, on, "%s is not undone: %q", pair[0], tail(all, 300))
	}
	require.NotRegexp(s.t, "\x1b\\[\\?100[0-6]h", all, "the mouse belongs to the terminal, for selecting text")
}

func tail(s string, n int) string { return s[max(0, len(s)-n):] }

const (
	enter    = "\r"
	escape   = "\x1b"
	down     = "\x1b[B"
	pageDown = "\x1b[6~"
	ctrlC    = "\x03"
	ctrlZ    = "\x1a"
	ctrlU    = "\x15"
)
