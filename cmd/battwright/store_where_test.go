package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// Where the answers are is never said of a file that is not there.
func TestWhereIsAFileThatIsThere(t *testing.T) {
	folder := t.TempDir()
	state := filepath.Join(folder, "state")
	path := filepath.Join(folder, "mine.toml")
	getenv := func(name string) string { return map[string]string{"XDG_STATE_HOME": state}[name] }
	s := newStore(getenv)
	defer s.Close()
	require.Empty(t, s.Where(), "nothing was said yet")
	s.Belongs(path)
	require.Empty(t, s.Where(), "the file is still to be written")

	require.NoError(t, s.Autosave(1, "version = 1\n"))
	require.FileExists(t, s.Where())
	require.NotEqual(t, path, s.Where())

	require.NoError(t, s.Write(path, "version = 1\n", true))
	require.NoError(t, s.Forget())
	require.Equal(t, path, s.Where())

	require.NoError(t, os.RemoveAll(state))
	require.NoError(t, os.WriteFile(state, nil, 0o600))
	require.Error(t, s.Autosave(2, "version = 1\n"))
	require.Empty(t, s.Where(), "the newest answers are in no file")
	require.Empty(t, newStore(func(string) string { return "" }).Where())
}

// A program that was told nothing does not claim to have kept it.
func TestGoodbyeIsTrue(t *testing.T) {
	environ := lineEnv(t)
	r := with{stdin: "quit\n", environ: environ}.run("ask")
	require.Equal(t, exitDone, r.code)
	require.NotContains(t, r.stderr, "Your answers are in")
	r = with{stdin: "3\n", environ: environ}.run("ask")
	require.Equal(t, exitInput, r.code)
	require.NotContains(t, r.stderr, "Your answers are in")
}
