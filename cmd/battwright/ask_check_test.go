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

// firstUnsaid is the first line of a printed page that is not read out in its
// order. What stands in columns, ruled lines and room to write are for the eye,
// so only the points are compared; boxes are read as dashes.
func firstUnsaid(out, printed string) string {
	if !strings.Contains(printed, "\n- ") && !strings.Contains(printed, "\n[ ] ") {
		return "no points"
	}
	out = strings.Join(strings.Fields(out), " ")
	for _, point := range strings.Split(printed, "\n") {
		text, ok := strings.CutPrefix(strings.Replace(point, "[ ] ", "- ", 1), "- ")
		if !ok || strings.Contains(point, "___") {
			continue
		}
		_, rest, found := strings.Cut(out, strings.TrimSpace(text))
		if !found {
			return point
		}
		out = rest
	}
	return ""
}

// An offer that is opened line by line is judged as the command judges it, and
// so are pages and finished work; what is written is what the command prints.
func TestAskOpensAnOffer(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	r := with{environ: lineEnv(t), stdin: script("check",
		"pages", "2", "write 2", in("framer.txt"), "back",
		"sheets", "write", in("sheets.txt"), "back",
		"offers", "blank", in("blank.toml"), "open", offerDir+"nowhere.toml", offerDir+"full.toml", "open", offerDir+"bold.toml", "write", in("offers.txt"), "back",
		"finished work", "open", finishedDir+"mixed.toml", "result", "write", in("finished.toml"), "quit")}.run("ask", jobHouse)
	require.Equal(t, exitDone, r.code, r.stderr)
	require.Contains(t, r.stderr, "To go on, type: battwright ask")
	for _, args := range [][]string{
		{"handover", jobHouse, "--page", "framer"}, {"offer", jobHouse, offerDir + "full.toml", offerDir + "bold.toml"}, {"inspect", jobHouse, finishedDir + "mixed.toml"},
	} {
		printed := runs(args...).stdout
		require.NotEmpty(t, printed)
		require.Empty(t, firstUnsaid(r.stdout, printed), "%v is not read out as the command prints it", args)
	}
	require.Contains(t, r.stdout, "Not taken: "+offerDir+"nowhere.toml: ")
	for name, args := range map[string][]string{
		"framer.txt": {"handover", jobHouse, "--page", "framer"}, "sheets.txt": {"handover", jobHouse}, "blank.toml": {"offer", "--template", jobHouse},
		"offers.txt": {"offer", jobHouse, offerDir + "full.toml", offerDir + "bold.toml"},
	} {
		require.Equal(t, runs(args...).stdout, readFile(t, in(name)), name)
	}
	require.Equal(t, runs("inspect", jobHouse, finishedDir+"mixed.toml").stdout, runs("inspect", jobHouse, in("finished.toml")).stdout)

	r = with{environ: lineEnv(t), stdin: script("check", "offers", "open", offerDir+"metric.toml", "quit")}.run("ask", jobHouse)
	require.Equal(t, exitDone, r.code, "a mistake in an offer ends nothing: %s", r.stderr)
	flat := strings.Join(strings.Fields(r.stdout), " ")
	require.Contains(t, flat, "metric.toml:25: part[3].material: found \"granite\"")
}

// The input ends in the middle of the walk: an error, and nothing is lost.
func TestAskEndsInTheMiddleOfTheWalk(t *testing.T) {
	environ := lineEnv(t)
	house := filepath.Join(t.TempDir(), "alder.toml")
	require.NoError(t, os.WriteFile(house, []byte(readFile(t, jobHouse)), 0o600))
	r := with{environ: environ, stdin: script("check", "finished work", "8", "yes", "1 1/2")}.run("ask", house)
	require.Equal(t, exitInput, r.code)
	require.Contains(t, r.stderr, "the answers ended before quit. Your answers are in "+environ["XDG_STATE_HOME"])
	require.Contains(t, readFile(t, keptIn(environ["XDG_STATE_HOME"])), "#| gap_in = 1.5")
	for _, choice := range []string{"1", "2"} { // the walk is of the file, whichever answers are gone on with
		r = with{environ: environ, stdin: script(choice, "check", "quit", "no")}.run("ask", house)
		require.Equal(t, exitDone, r.code, r.stderr)
		require.Contains(t, r.stdout, "finished work: STOP: do not close.")
	}
}

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
