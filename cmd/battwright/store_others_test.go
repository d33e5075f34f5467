package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func storeIn(t *testing.T, dir string) *store {
	t.Helper()
	s := newStore(environ(map[string]string{"XDG_STATE_HOME": dir}))
	t.Cleanup(s.Close)
	return s
}

// Two that run at once keep their answers apart, and both are offered later.
func TestTwoAtOnce(t *testing.T) {
	dir := t.TempDir()
	one, two := storeIn(t, dir), storeIn(t, dir)
	var wait sync.WaitGroup
	for name, s := range map[string]*store{"one": one, "two": two} {
		wait.Add(1)
		go func() {
			defer wait.Done()
			s.Belongs("/" + name + ".toml")
			for n := 1; n <= 30; n++ {
				if err := s.Autosave(n, fmt.Sprintf("%s %d", name, n)); err != nil {
					t.Error(err)
				}
			}
		}()
	}
	wait.Wait()
	require.NotEqual(t, one.Where(), two.Where())
	for name, s := range map[string]*store{"one": one, "two": two} {
		text, path, ok := s.Resume()
		require.True(t, ok)
		require.Equal(t, name+" 30", text, "each sees its own")
		require.Equal(t, "/"+name+".toml", path)
	}
	_, _, ok := storeIn(t, dir).Resume()
	require.False(t, ok, "answers that somebody is working on are not offered")

	one.Close() // as the end of the process does
	two.Close()
	seen := map[string]bool{}
	next := storeIn(t, dir)
	for range 2 {
		text, path, ok := next.Resume()
		require.True(t, ok)
		seen[text] = true
		next.Belongs(path)
		require.NoError(t, next.Forget())
	}
	require.Equal(t, map[string]bool{"one 30": true, "two 30": true}, seen)
	_, _, ok = next.Resume()
	require.False(t, ok)
}

// The answers kept for the file that is opened are the ones offered.
func TestTheFileWorkedOnComesFirst(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"/a.toml", "/b.toml", "/c.toml"} {
		s := storeIn(t, dir)
		s.Belongs(name)
		require.NoError(t, s.Autosave(1, "answers for "+name))
		s.Close()
	}
	s := storeIn(t, dir)
	s.Belongs("/b.toml")
	text, path, ok := s.Resume()
	require.True(t, ok)
	require.Equal(t, "/b.toml", path)
	require.Equal(t, "answers for /b.toml", text)
	require.NoError(t, s.Autosave(1, "more for b"))
	require.NoError(t, s.Forget())
	for _, name := range []string{"/a.toml", "/c.toml"} {
		s.Belongs(name)
		text, _, ok := s.Resume()
		require.True(t, ok)
		require.Equal(t, "answers for "+name, text, "the others are as they were")
	}
}

// What was kept for another house is not replaced by this one, whether it was
// looked at or not, and not dropped when this one is saved.
func TestAnotherHouseIsNotReplaced(t *testing.T) {
	for _, looks := range []bool{false, true} {
		dir := t.TempDir()
		before := storeIn(t, dir)
		before.Belongs("/theirs.toml")
		require.NoError(t, before.Autosave(7, "theirs"))
		before.Close()

		s := storeIn(t, dir)
		s.Belongs("/mine.toml")
		if looks {
			_, path, ok := s.Resume()
			require.True(t, ok)
			require.Equal(t, "/theirs.toml", path)
			require.NoError(t, s.Forget(), "nothing of mine is kept")
		}
		require.NoError(t, s.Autosave(1, "mine"))
		require.NoError(t, s.Forget())
		s.Belongs("/theirs.toml")
		text, _, ok := s.Resume()
		require.True(t, ok)
		require.Equal(t, "theirs", text)
	}
}

// When every slot is taken nothing is overwritten and the words say what to do.
func TestEverySlotTaken(t *testing.T) {
	dir := t.TempDir()
	for n := range mostSlots {
		require.NoError(t, storeIn(t, dir).Autosave(1, fmt.Sprint("program ", n)))
	}
	late := storeIn(t, dir)
	require.ErrorIs(t, late.Autosave(1, "too late"), errAllKept)
	require.ErrorContains(t, late.Autosave(1, "too late"), "save this house in a file of yours")
	kept, err := filepath.Glob(filepath.Join(dir, "battwright", "kept-answers*.toml"))
	require.NoError(t, err)
	require.Len(t, kept, mostSlots)
	for _, name := range kept {
		require.Contains(t, readFile(t, name), "program ")
	}
}

// Newest wins within one program only: a number of another program says
// nothing about this one's answers.
func TestNumbersAreEachProgramsOwn(t *testing.T) {
	dir := t.TempDir()
	long := storeIn(t, dir)
	require.NoError(t, long.Autosave(500, "a long session"))
	long.Close()
	s := storeIn(t, dir)
	_, _, ok := s.Resume()
	require.True(t, ok)
	require.NoError(t, s.Autosave(1, "taken up and changed"))
	text, _, _ := s.Resume()
	require.Equal(t, "taken up and changed", text)
}

// steps is standard input that does something between two lines.
type steps struct{ do []func() string }

func (s *steps) Read(p []byte) (int, error) {
	if len(s.do) == 0 {
		return 0, io.EOF
	}
	n := copy(p, s.do[0]())
	s.do = s.do[1:]
	return n, nil
}

func says(line string) func() string { return func() string { return line + "\n" } }

// A house file that another program changed while it was open is never
// overwritten before the person was asked.
func TestChangedByAnotherProgram(t *testing.T) {
	before := readFile(t, goodHouse)
	for name, theirs := range map[string]string{"changed": "version = 1\nname = \"Theirs\"\n", "emptied": "", "no longer a house": "{"} {
		path := filepath.Join(t.TempDir(), "house.toml")
		require.NoError(t, os.WriteFile(path, []byte(before), 0o644))
		change := func() string {
			require.NoError(t, os.WriteFile(path, []byte(theirs), 0o644))
			return "save\n"
		}
		sessions := []struct {
			do   []func() string
			want func(string) bool
		}{
			{[]func() string{says("matters"), says("1"), change, says("back"), says("quit"), says("no")}, func(s string) bool { return s == theirs }},
			{[]func() string{says("matters"), says("1"), change, says(path), says("back"), says("quit"), says("no")}, func(s string) bool { return s == theirs }},
			{[]func() string{says("matters"), says("1"), change, says(path), says(path), says("quit")}, func(s string) bool { return s != theirs && strings.Contains(s, "rule_out = [\"fiberglass\"]") }},
		}
		for i, c := range sessions {
			require.NoError(t, os.WriteFile(path, []byte(before), 0o644))
			var out, errs bytes.Buffer
			e := env{stdin: &steps{c.do}, stdout: &out, stderr: &errs, getenv: environ(map[string]string{"XDG_STATE_HOME": t.TempDir()})}
			code := run([]string{"ask", path}, e)
			require.NotEqual(t, exitInternal, code, errs.String())
			require.Contains(t, strings.Join(strings.Fields(out.String()), " "), "changed by another program", "%s %d", name, i)
			require.True(t, c.want(readFile(t, path)), "%s %d: %s", name, i, out.String())
		}
	}
}

// A file of a newer version is refused by every command that reads it, and
// neither its text nor its time is touched.
func TestNewerVersionIsNotTouched(t *testing.T) {
	state, path := t.TempDir(), filepath.Join(t.TempDir(), "newer.toml")
	require.NoError(t, os.WriteFile(path, []byte("version = 2\nname = \"From next year\"\n"), 0o644))
	long := time.Date(2001, 2, 3, 4, 5, 6, 0, time.UTC)
	require.NoError(t, os.Chtimes(path, long, long))
	for _, args := range [][]string{{path}, {"plan", path}, {"ask", path}, {"check", path}, {"order", path}, {"compare", path}, {"handover", path}, {"inspect", path, path}, {"offer", path, path}, {"plan", path, "--out", path, "--force"}} {
		for _, terminal := range []bool{false, true} {
			r := with{stdin: "save\nquit\n", terminal: terminal, environ: map[string]string{"XDG_STATE_HOME": state}}.run(args...)
			require.Equal(t, exitInput, r.code, "%q", args)
			require.Contains(t, r.stderr, path+":1: version", "%q", args)
		}
	}
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.True(t, info.ModTime().Equal(long))
	require.Equal(t, "version = 2\nname = \"From next year\"\n", readFile(t, path))
	entries, err := os.ReadDir(state)
	require.NoError(t, err)
	require.Empty(t, entries, "nothing was kept either")
}

// Links to links, a link to a file that is not there yet, a link in a circle,
// and a file marked read-only.
func TestLinksAndRights(t *testing.T) {
	dir, s := t.TempDir(), newStore(environ(nil))
	behind, link, second := filepath.Join(dir, "sub", "behind.toml"), filepath.Join(dir, "link.toml"), filepath.Join(dir, "second.toml")
	require.NoError(t, os.Mkdir(filepath.Dir(behind), 0o755))
	if err := os.Symlink(filepath.Join("sub", "behind.toml"), link); err != nil {
		t.Skip("no links here:", err)
	}
	require.NoError(t, os.Symlink("link.toml", second))
	for i, text := range []string{oldText, newText} { // first not there, then there
		require.NoError(t, s.Write(second, text, true), i)
		require.Equal(t, text, readFile(t, behind))
		for _, l := range []string{link, second} {
			info, err := os.Lstat(l)
			require.NoError(t, err)
			require.NotZero(t, info.Mode()&os.ModeSymlink, l)
		}
	}
	circle := filepath.Join(dir, "circle.toml")
	require.NoError(t, os.Symlink("circle.toml", circle))
	require.ErrorIs(t, s.Write(circle, newText, true), errLinkCircle)

	require.NoError(t, os.Chmod(behind, 0o400))
	require.ErrorIs(t, s.Write(behind, oldText, true), errReadOnly)
	require.ErrorIs(t, s.Write(link, oldText, true), errReadOnly)
	require.Equal(t, newText, readFile(t, behind))
}

// Answers that were offered for a file and not taken up are set aside before
// those typed next are kept in their place, and those taken up are not.
func TestWhatWasNotTakenUpIsSetAside(t *testing.T) {
	for _, taken := range []bool{false, true} {
		dir := t.TempDir()
		before := storeIn(t, dir)
		before.Belongs("h.toml")
		require.NoError(t, before.Autosave(1, "earlier"))
		before.Close()
		s := storeIn(t, dir)
		s.Belongs("h.toml")
		_, _, ok := s.Resume()
		require.True(t, ok)
		if taken {
			s.Belongs("h.toml")
		}
		require.NoError(t, s.Autosave(1, "later"))
		require.NoError(t, s.Autosave(2, "later still"))
		aside, err := filepath.Glob(filepath.Join(s.dir, asideName+"*"))
		require.NoError(t, err)
		require.Equal(t, taken, len(aside) == 0)
		if !taken {
			require.Contains(t, readFile(t, aside[0]), "earlier")
		}
	}
}
