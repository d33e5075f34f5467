//go:build unix

package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A house file that is not there yet is a new house, which saving puts there.
func TestNewFileInTheScreens(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "new.toml")
	s := start(t, t.TempDir(), 100, 30, nil, path)
	s.sees("is not there yet").sees("ready to order").key("1").sees("› How far is the building today?").key("2").sees("› Is any part")
	require.NoFileExists(t, path, "nothing is written before it is saved")
	s.key("s").sees("Saved in")
	require.Contains(t, readFile(t, path), `stage = "framed"`)
	s.write("q")
	require.Equal(t, exitDone, s.exit())
	s.restored()
}

// What is no name of a house file, or lies in no folder, is refused: a slip of
// the finger begins no house.
func TestNewFileNeedsANameAndAFolder(t *testing.T) {
	folder := t.TempDir()
	asked := func(path string) result {
		return with{stdin: "quit\n", environ: lineEnv(t)}.run("ask", path)
	}
	require.Equal(t, exitInput, asked(filepath.Join(folder, "none", "new.toml")).code)
	require.Equal(t, exitInput, asked(filepath.Join(folder, "new.txt")).code)
	r := asked(filepath.Join(folder, "new.toml"))
	require.Equal(t, exitDone, r.code, r.stderr)
	require.Contains(t, r.stderr, "is not there yet")
	require.NotContains(t, r.stdout, "is not there yet")
	left, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Empty(t, left)
}
