package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// fingerprint is every file under a folder with its content and time.
func fingerprint(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		text := info.Mode().String()
		if info.Mode().IsRegular() {
			text += readFile(t, path) + strconv.FormatInt(info.ModTime().UnixNano(), 10)
		}
		rel, err := filepath.Rel(dir, path)
		out[rel] = text
		return err
	}))
	return out
}

// The built program writes to the file that was named and to the state
// folder, and nowhere else: not to its folder, not to the home, not to the
// temporary folder.
func TestNothingElseIsWritten(t *testing.T) {
	t.Parallel()
	root := t.TempDir()
	folders := map[string]string{}
	for _, name := range []string{"home", "work", "tmp", "data"} {
		folders[name] = filepath.Join(root, name)
		require.NoError(t, os.Mkdir(folders[name], 0o755))
	}
	house := filepath.Join(folders["work"], "house.toml")
	require.NoError(t, os.WriteFile(house, []byte(readFile(t, goodHouse)), 0o644))
	before := fingerprint(t, root)
	inThere := func(stdin string, args ...string) {
		t.Helper()
		cmd := builtIn(t, folders, args...)
		cmd.Stdin = strings.NewReader(stdin)
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%q: %s", args, out)
	}
	for _, args := range [][]string{
		nil,
		{"plan"},
		{"plan", "house.toml"},
		{"plan", "house.toml", "--format", "json"},
		{"plan", "--format", "csv"},
		{"check", "--rules"},
		{"check", "house.toml"},
		{"words", "kraft"},
		{"tour"},
		{"completion", "zsh"},
		{"handover", "house.toml"},
		{"order", "house.toml"},
		{"compare", "house.toml"},
		{"--version"},
		{"plan", "--data", folders["data"]},
	} {
		inThere("", args...)
		require.Equal(t, before, fingerprint(t, root), "%q wrote something", args)
	}
	inThere("", "plan", "house.toml", "--out", "plan.txt")
	after := fingerprint(t, root)
	require.Contains(t, after, filepath.Join("work", "plan.txt"))
	delete(after, filepath.Join("work", "plan.txt"))
	require.Equal(t, len(before), len(after), "one file was named, one was written")

	inThere("matters\n1\nquit\nno\n", "ask", "house.toml")
	now := fingerprint(t, root)
	for path := range now {
		if _, known := before[path]; known || path == filepath.Join("work", "plan.txt") {
			continue
		}
		require.True(t, strings.HasPrefix(path, filepath.Join("home", ".local")), "%s is outside the state folder", path)
	}
	require.Equal(t, before[filepath.Join("work", "house.toml")], now[filepath.Join("work", "house.toml")], "the house is written on save only")
	require.Contains(t, now, filepath.Join("home", ".local", "state", "battwright", keptName))
}
