package main

import (
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

// A result never replaces what it is made from, forced or not and under
// whatever name; - is standard output; what is no file is said.
func TestOutIsNoInput(t *testing.T) {
	dir := t.TempDir()
	house, link, hard := filepath.Join(dir, "a.toml"), filepath.Join(dir, "link"), filepath.Join(dir, "hard")
	text := readFile(t, goodHouse)
	require.NoError(t, os.WriteFile(house, []byte(text), 0o644))
	require.NoError(t, os.Symlink(house, link))
	require.NoError(t, os.Link(house, hard))
	data := filepath.Join(dir, "data")
	require.NoError(t, os.Mkdir(data, 0o755))
	own := filepath.Join(data, "own.toml")
	require.NoError(t, os.WriteFile(own, nil, 0o644))
	for _, out := range []string{house, link, hard, filepath.Join(dir, "data", "..", "a.toml"), own} {
		for _, command := range [][]string{{"plan"}, {"order"}, {"handover"}, {"inspect", "--template"}, {"offer", "--template"}} {
			args := append(command, "--data", data, house, "--out", out, "--force")
			r := runs(args...)
			require.Equal(t, exitInput, r.code, "%q", args)
			require.Contains(t, r.stderr, "is what this is made from", "%q", args)
		}
		require.Equal(t, text, readFile(t, house))
	}
	r := runs("plan", house, "--out", "-", "--format", "csv")
	require.Equal(t, exitDone, r.code)
	require.Contains(t, r.stdout, "place,kind")
	require.NoFileExists(t, "-")
	r = runs("plan", house, "--out", dir)
	require.Equal(t, exitInput, r.code)
	require.Contains(t, r.stderr, "this is a folder")
	for _, name := range []string{"", "a\nb", "a\x1b[2Jb"} {
		r := runs("plan", house, "--out", name)
		require.Equal(t, exitUsage, r.code, "%q", name)
		require.Contains(t, r.stderr, "want FILE", "%q", name)
	}
	require.Equal(t, exitDone, runs("plan", house, "--out", os.DevNull).code, "there is nothing to overwrite in a device")
}

// Options may stand before the command.
func TestOptionsBeforeTheCommand(t *testing.T) {
	want := runs("plan", "--units", "si", goodHouse).stdout
	for _, args := range [][]string{{"--units", "si", "plan", goodHouse}, {"--units=si", "plan", goodHouse}} {
		r := runs(args...)
		require.Equal(t, exitDone, r.code, r.stderr)
		require.Equal(t, want, r.stdout, "%q", args)
	}
	r := runs("--no-color", "plan", goodHouse)
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.stderr, "there is no option --no-color here")
}

// fullDisk takes nothing.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, os.ErrDeadlineExceeded }

// What could not be printed is no success, also for commands that print line
// by line.
func TestNothingPrintedIsNoSuccess(t *testing.T) {
	for _, args := range [][]string{{"words"}, {"words", "kraft"}, {"--help"}, {"plan", "--help"}, {"--version"}, {"check"}, {"check", goodHouse}, {"check", "--rules"}, {"tour"}, {"plan"}} {
		r := with{stdout: fullDisk{}}.run(args...)
		require.Equal(t, exitInput, r.code, "%q", args)
		require.Equal(t, 1, strings.Count(r.stderr, os.ErrDeadlineExceeded.Error()), "%q: said once", args)
	}
}

// An unknown word is printed back, but not all of a book.
func TestUnknownWordIsCut(t *testing.T) {
	require.Less(t, len(runs("words", strings.Repeat("q", 100_000)).stderr), 200)
}

// Files of the data folder are measured before they are read.
func TestDataFilesAreMeasured(t *testing.T) {
	dir := t.TempDir()
	big := filepath.Join(dir, "big.toml")
	require.NoError(t, os.WriteFile(big, nil, 0o644))
	require.NoError(t, os.Truncate(big, 3<<30)) // holes: no disk is filled, but reading it all would fill the memory
	for _, args := range [][]string{{"check", "--data", dir}, {"plan", big}, {"check", big}} {
		r := runs(args...)
		require.Equal(t, exitInput, r.code, "%q", args)
		require.Contains(t, r.stderr, "longer than a file of this kind can be", "%q", args)
	}
}

// Figures that no shop has are slips of the pen.
func TestDataFiguresAreBounded(t *testing.T) {
	product := "[[product]]\nid = \"fg-11\"\nmaterial = \"fiberglass\"\nform = \"batt\"\nnominal_r = 11.0\nthickness_in = 3.5\nfacings = [\"none\"]\nwidths_in = [15.0]\nlengths_in = [93.0]\nsource = \"trade-sizes\"\nknown = \"standard\"\n"
	price := "[[price]]\nproduct = \"fg-11\"\nunit = \"usd_ft2\"\nyear = 2026\nsource = \"rough-prices\"\nknown = \"practice\"\n"
	for text, want := range map[string]string{
		product + "pieces_per_package = 0\n":                   "pieces_per_package",
		product + "pieces_per_package = -3\n":                  "pieces_per_package",
		product + "pieces_per_package = 9000000000000000000\n": "pieces_per_package",
		price + "low = 0.0\ntypical = 0.0\nhigh = 0.0\n":       "price of fg-11: high",
		price + "low = 1.0\ntypical = 1.0\nhigh = 1e308\n":     "price of fg-11: high",
	} {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "own.toml"), []byte(text), 0o644))
		r := runs("check", "--data", dir)
		require.Equal(t, exitInput, r.code, text)
		require.Contains(t, r.stderr, want, text)
	}
}

// What takes long to work out is worked out where it is printed, and nowhere
// else: the list of what to find out; a year in other weather on a screen alone.
func TestOnlyWhatIsPrintedIsWorkedOut(t *testing.T) {
	path := filepath.Join(t.TempDir(), "h.toml")
	require.NoError(t, os.WriteFile(path, []byte("version = 1\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n[[place]]\nid = \"flue\"\nkind = \"chimney\"\nchimney = \"unknown\"\n"), 0o644))
	w, code := open(options{system: "us"}, []string{path}, env{stdin: strings.NewReader(""), stdout: io.Discard, stderr: io.Discard, getenv: func(string) string { return "" }, files: fixture.NoHours})
	require.Equal(t, exitDone, code)
	matters := func(x plan.Said) bool { return x.Matters }
	quick, err := w.plan(w.houses[0], false)
	require.NoError(t, err)
	require.False(t, slices.ContainsFunc(quick.Unknown, matters))
	whole, err := w.plan(w.houses[0], true)
	require.NoError(t, err)
	require.True(t, slices.ContainsFunc(whole.Unknown, matters))
	require.Empty(t, whole.NearClimate)
}
