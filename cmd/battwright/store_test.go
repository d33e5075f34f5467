package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

func environ(m map[string]string) func(string) string { return func(k string) string { return m[k] } }

// The state folder is where the XDG Base Directory Specification puts it.
func TestStateFolder(t *testing.T) {
	for _, f := range expectation(t).Folders {
		require.Equal(t, filepath.FromSlash(f.Want), newStore(environ(f.Given)).dir, "%v", f.Given)
	}
	none := newStore(environ(nil))
	require.Empty(t, none.dir)
	require.Error(t, none.Autosave(1, "x"))
	_, _, ok := none.Resume()
	require.False(t, ok)
	require.NoError(t, none.Forget())
}

// Writes that finish out of order leave the newest answers.
func TestAutosaveKeepsTheNewest(t *testing.T) {
	s := newStore(environ(map[string]string{"XDG_STATE_HOME": t.TempDir()}))
	s.Belongs("house.toml")
	var wait sync.WaitGroup
	for n := 1; n <= 40; n++ {
		wait.Add(1)
		go func() {
			defer wait.Done()
			if err := s.Autosave(n, fmt.Sprintf("answers %d\n", n)); err != nil {
				t.Error(err)
			}
		}()
	}
	wait.Wait()
	text, path, ok := s.Resume()
	require.True(t, ok)
	require.Equal(t, "answers 40\n", text)
	require.True(t, filepath.IsAbs(path))
	require.Equal(t, "house.toml", filepath.Base(path))

	info, err := os.Stat(s.file(1))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "answers are for the person alone")
	entries, err := os.ReadDir(s.dir)
	require.NoError(t, err)
	require.Len(t, entries, 2, "the answers and their lock; temporary files are gone")

	require.NoError(t, s.Forget())
	_, _, ok = s.Resume()
	require.False(t, ok)
	require.NoError(t, s.Forget(), "nothing to forget is no mistake")
}

func TestWriteAsksBeforeItOverwrites(t *testing.T) {
	dir := t.TempDir()
	s := newStore(environ(map[string]string{"XDG_STATE_HOME": dir}))
	path := filepath.Join(dir, "mine.toml")
	require.NoError(t, s.Write(path, "one", false))
	require.ErrorIs(t, s.Write(path, "two", false), fs.ErrExist, "the screens tell this from what a second try cannot help")
	require.Equal(t, "one", readFile(t, path))
	require.NoError(t, os.Chmod(path, 0o640))
	require.NoError(t, s.Write(path, "two", true))
	require.Equal(t, "two", readFile(t, path))
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode().Perm(), "rights stay as the person set them")

	require.False(t, s.Changed(path, "two"))
	require.NoError(t, os.WriteFile(path, []byte("somebody else"), 0o640))
	require.True(t, s.Changed(path, "two"))
	require.False(t, s.Changed(filepath.Join(dir, "gone.toml"), "two"))

	require.Error(t, s.Write(dir, "x", true), "a folder is not a file")
	require.Error(t, s.Write("", "x", true))
	require.Error(t, s.Write("a\x1b[31m.toml", "x", true))
	require.NotErrorIs(t, s.Write(filepath.Join(path, "x.toml"), "x", false), fs.ErrExist)
	require.Error(t, s.Write(filepath.Join(dir, "no", "such", "x.toml"), "x", true))
}

// What is about to be replaced is copied to a house file of its own, once, and
// what is kept stays until it is written over.
func TestSetAside(t *testing.T) {
	state := t.TempDir()
	s := newStore(environ(map[string]string{"XDG_STATE_HOME": state}))
	defer s.Close()
	require.NoError(t, s.Autosave(1, "version = 1\nstage = \"framed\"\n"))
	where, err := s.SetAside("version = 1\nstage = \"framed\"\n")
	require.NoError(t, err)
	require.Contains(t, readFile(t, where), "stage = \"framed\"")
	again, err := s.SetAside("version = 1\nstage = \"framed\"\n")
	require.NoError(t, err)
	require.Equal(t, where, again, "the same answers need one copy")
	other, err := s.SetAside("version = 1\nstage = \"wired\"\n")
	require.NoError(t, err)
	require.NotEqual(t, where, other)
	require.Equal(t, exitDone, runs("check", where).code, "it is a house file like any other")
	_, _, there := s.Resume()
	require.True(t, there)

	next := newStore(environ(map[string]string{"XDG_STATE_HOME": state})) // what was offered, and not taken up
	s.Close()
	defer next.Close()
	_, _, there = next.Resume()
	require.True(t, there)
	where, err = next.SetAside("")
	require.NoError(t, err)
	require.Contains(t, readFile(t, where), "stage = \"framed\"")

	nowhere := newStore(environ(nil))
	_, err = nowhere.SetAside("version = 1\n")
	require.Error(t, err)
	require.True(t, s.Same(where, filepath.Join(filepath.Dir(where), ".", filepath.Base(where))))
	require.False(t, s.Same(where, other))
	require.False(t, s.Same(where, filepath.Join(state, "none")))
}
