package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	jobHouse    = "../../testdata/demo/house-in-the-snow.toml"
	offerDir    = "../../testdata/offers/"
	finishedDir = "../../testdata/finished/"
)

func TestHandoverCommand(t *testing.T) {
	r := runs("handover", jobHouse)
	require.Equal(t, exitDone, r.code, r.stderr)
	require.Contains(t, r.stdout, "HANDOVER SHEETS")
	require.Equal(t, r.stdout, runs("handover").stdout, "without a house the demo house is handed over")
	for _, person := range []string{"installer", "framer", "electrician", "plumber", "inspector", "store", "self"} {
		r := runs("handover", jobHouse, "--page", person, "--width", "40", "--drywall", "2027-05-03")
		require.Equal(t, exitDone, r.code, r.stderr)
		for _, l := range strings.Split(r.stdout, "\n") {
			require.LessOrEqual(t, len([]rune(l)), 40, l)
		}
		require.Contains(t, r.stdout, "Mon 3 May", person)
		require.True(t, json.Valid([]byte(runs("handover", jobHouse, "--page", person, "--format", "json").stdout)))
	}
	path := filepath.Join(t.TempDir(), "sheets.md")
	require.Equal(t, exitDone, runs("handover", jobHouse, "--format", "markdown", "--out", path).code)
	require.Contains(t, readFile(t, path), "# Handover sheets")
	for _, wrong := range [][]string{
		{"--page", "cook"}, {"--drywall", "soon"}, {"--drywall", "2020-01-01"}, {"--drywall", "2026-05-31"}, {"--width", "10"}, {"--format", "csv"}, {"--units", "cubits"}, {"a.toml", "b.toml"},
	} {
		require.Equal(t, exitUsage, runs(append([]string{"handover"}, wrong...)...).code, wrong)
	}
	require.Equal(t, exitInput, runs("handover", "nowhere.toml").code)
}

func TestOfferCommand(t *testing.T) {
	r := runs("offer", jobHouse, offerDir+"full.toml")
	require.Equal(t, exitShort, r.code, "the chimney is not in it: %s", r.stderr)
	require.Empty(t, r.stderr)
	r = runs("offer", jobHouse, offerDir+"full.toml", offerDir+"bold.toml", offerDir+"metric.toml", "--width", "100")
	require.Equal(t, exitInput, r.code, "what could not be read is an error, and the rest is printed")
	require.Contains(t, r.stdout, "Bold Promises")
	require.Contains(t, r.stdout, "does not add up")
	require.Contains(t, r.stderr, "metric.toml:25: part[3].material: found \"granite\"")
	require.True(t, json.Valid([]byte(runs("offer", jobHouse, offerDir+"bold.toml", "--format", "json").stdout)))
	for _, wrong := range [][]string{{}, {jobHouse}, {"--template"}, {jobHouse, "1", "2", "3", "4"}} {
		require.Equal(t, exitUsage, runs(append([]string{"offer"}, wrong...)...).code, wrong)
	}
	require.Equal(t, exitInput, runs("offer", jobHouse, "nowhere.toml").code)
	require.Equal(t, exitInput, runs("offer", jobHouse, offerDir).code, "a folder is no offer")

	path := filepath.Join(t.TempDir(), "offer.toml")
	require.Equal(t, exitDone, runs("offer", "--template", jobHouse, "--out", path).code)
	r = runs("offer", jobHouse, path)
	require.Equal(t, exitShort, r.code, r.stderr)
}

func TestInspectCommand(t *testing.T) {
	r := runs("inspect", jobHouse, finishedDir+"mixed.toml")
	require.Equal(t, exitShort, r.code)
	require.Contains(t, strings.Join(strings.Fields(r.stdout), " "), "Not ready to close")
	r = runs("inspect", jobHouse, finishedDir+"chimney-stop.toml")
	require.Equal(t, exitShort, r.code)
	require.Contains(t, r.stdout, "STOP: do not close")
	require.True(t, json.Valid([]byte(runs("inspect", jobHouse, finishedDir+"mixed.toml", "--format", "json").stdout)))
	require.Contains(t, runs("inspect", "--form", jobHouse).stdout, "STOP if not: The air gap around the chimney is empty")
	for _, wrong := range [][]string{{}, {jobHouse}, {"--template"}, {"--form", "--template", jobHouse}, {jobHouse, "a", "b"}} {
		require.Equal(t, exitUsage, runs(append([]string{"inspect"}, wrong...)...).code, wrong)
	}
	path := filepath.Join(t.TempDir(), "finished.toml")
	require.Equal(t, exitDone, runs("inspect", "--template", jobHouse, "--out", path).code)
	r = runs("inspect", jobHouse, path)
	require.Equal(t, exitShort, r.code, "nobody has looked: a script must not close the wall")
	require.Contains(t, strings.Join(strings.Fields(r.stdout), " "), "points were not looked at")
	require.Contains(t, r.stderr, "Not ready to close", "and the error output says why")
	bad := with{stdin: "[[place]]\nid = \"attik\"\n"}.run("inspect", jobHouse, "-")
	require.Equal(t, exitInput, bad.code)
	require.Contains(t, bad.stderr, "did you mean attic?")
}
