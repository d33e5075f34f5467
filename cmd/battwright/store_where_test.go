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

// Kept answers that were not taken up are not said to be in the file they are
// for: "in a3.toml" would be false.
func TestAnswersThatWereNotTakenUpAreNamed(t *testing.T) {
	environ, path := lineEnv(t), filepath.Join(t.TempDir(), "a3.toml")
	require.NoError(t, os.WriteFile(path, []byte("version = 1\n"), 0o644))
	r := with{stdin: "1\nframed\n", environ: environ}.run("ask", path)
	require.Contains(t, r.stderr, "Your answers are in ")
	r = with{environ: environ}.run("ask", path)
	require.Equal(t, exitInput, r.code)
	require.Contains(t, r.stderr, "a3.toml, and those of an earlier time that are not in it in ")
	require.Contains(t, r.stderr, keptName)
}

// What is named at the end is a command that leads back to the same answers.
func TestGoodbyeNamesACommandThatWorks(t *testing.T) {
	environ, dir := lineEnv(t), t.TempDir()
	path := filepath.Join(dir, "my own ord.toml")
	r := with{stdin: "1\nframed\nsave\n" + path + "\nquit\n", environ: environ}.run("ask")
	require.Equal(t, exitDone, r.code, r.stderr)
	require.Contains(t, r.stderr, "To go on, type: battwright ask '"+path+"'\n")
	r = with{stdin: "quit\n", environ: environ}.run("ask", path)
	require.Contains(t, r.stdout, "Your answer so far: framed.")
	for typed, want := range map[string]string{"/x/ord.toml": "/x/ord.toml", "/x/it's.toml": `'/x/it'\''s.toml'`, "/x/a b": "'/x/a b'", "/x/$(y)": "'/x/$(y)'"} {
		require.Equal(t, want, typedPath(typed))
	}
	here, err := os.Getwd()
	require.NoError(t, err)
	require.Equal(t, "ord.toml", typedPath(filepath.Join(here, "ord.toml")))
	require.Equal(t, "go run ./cmd/battwright ask", started("/tmp/go-build1/b001/exe/battwright", "battwright ask"))
	require.Equal(t, "battwright ask", started("/usr/bin/battwright", "battwright ask"))
}
