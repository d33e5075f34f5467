package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// script is what a person types, a line each.
func script(lines ...string) string { return strings.Join(lines, "\n") + "\n" }

// What is said to become of kept answers is what becomes of them.
func TestKeptAnswersStayAsIsSaid(t *testing.T) {
	environ, dir := lineEnv(t), t.TempDir()
	one, two := filepath.Join(dir, "one.toml"), filepath.Join(dir, "two.toml")
	for _, path := range []string{one, two} {
		require.NoError(t, os.WriteFile(path, []byte(readFile(t, goodHouse)), 0o600))
	}
	change := func(level string) []string { return []string{"matters", "", level, "done", "quit", "no"} }
	asks := func(path string, lines ...string) string {
		t.Helper()
		args := []string{"ask"}
		if path != "" {
			args = append(args, path)
		}
		r := with{environ: environ, stdin: script(lines...)}.run(args...)
		require.Equal(t, exitDone, r.code, r.stderr)
		return strings.Join(strings.Fields(r.stdout), " ")
	}
	const offered = "Answers were kept that are not saved"
	asks(one, change("5")...)
	require.NotContains(t, asks(two, "quit"), "copied", "they are another file's")
	said := asks(two, append([]string{"2"}, change("4")...)...)
	require.Contains(t, said, offered)
	require.Contains(t, said, "The kept answers stay, and are offered again when "+one+" is opened.")

	// They did stay, beside those for the second file.
	said = asks(one, "1", "quit", "no")
	require.Contains(t, said, offered)
	require.Contains(t, said, "They are for "+one)
	require.Contains(t, said, "The kept answers are copied to a file of their own, which is named then.")
	require.Contains(t, asks(two, "1", "quit", "no"), "They are for "+two)

	// Those of the same file make room for a change, and are found where it is said.
	folder := filepath.Join(environ["XDG_STATE_HOME"], "battwright")
	said = asks(one, append([]string{"2"}, change("1")...)...)
	aside, err := filepath.Glob(filepath.Join(folder, "replaced-answers*.toml"))
	require.NoError(t, err)
	require.Len(t, aside, 1)
	require.Contains(t, strings.ReplaceAll(said, " ", ""), "keptin"+aside[0]+":", "long names go over the end of a line")
	require.Contains(t, readFile(t, aside[0]), "\ncost = 5")
	kept, err := filepath.Glob(filepath.Join(folder, "kept-answers*.toml"))
	require.NoError(t, err)
	require.Len(t, kept, 2)
	for _, path := range kept {
		require.NotContains(t, readFile(t, path), "\ncost = 5")
	}
}

// A file that is opened from the menu while answers are kept for it does not
// cost them: they are offered, whatever else is kept.
func TestKeptAnswersAreOfferedFromTheMenu(t *testing.T) {
	environ, dir := lineEnv(t), t.TempDir()
	names := []string{filepath.Join(dir, "one.toml"), filepath.Join(dir, "two.toml")}
	for i, path := range names {
		require.NoError(t, os.WriteFile(path, []byte(readFile(t, goodHouse)), 0o600))
		answers := script("matters", "", []string{"5", "4"}[i], "done", "quit", "no")
		if i > 0 {
			answers = "2\n" + answers
		}
		r := with{environ: environ, stdin: answers}.run("ask", path)
		require.Equal(t, exitDone, r.code, r.stderr)
	}
	for i, path := range names {
		// The first row of the menu is to go on where one stopped.
		r := with{environ: environ, stdin: script("5", path, "1", "matters", "", "quit", "no")}.run("ask")
		require.Equal(t, exitDone, r.code, r.stderr)
		require.Contains(t, r.stdout, "Answers were kept that are not saved")
		require.Contains(t, strings.Join(strings.Fields(r.stdout), " "), "They are for "+path)
		require.Contains(t, r.stdout, "Your answer so far: "+[]string{"5", "4"}[i])
	}
}
