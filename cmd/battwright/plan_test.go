package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// planJSON is the part of the schema that these tests look at.
type planJSON struct {
	Schema int
	House  struct{ Name, Zone string }
	Places []struct {
		ID      string
		Ranking []struct {
			Material string
			Parts    map[string]float64
			Score    float64
		}
	}
}

func parsePlan(t *testing.T, text string) planJSON {
	t.Helper()
	var p planJSON
	require.NoError(t, json.Unmarshal([]byte(text), &p), text)
	require.Equal(t, 1, p.Schema)
	return p
}

func TestPlanFormats(t *testing.T) {
	text := runs("plan", goodHouse)
	require.Contains(t, text.stdout, "North wall")
	require.Contains(t, text.stdout, "ELM ROW (INVENTED)")
	require.NotContains(t, text.stdout, "demo house", "only the demo plan says so")
	require.Contains(t, runs("plan").stdout, "invented demo house")

	markdown := runs("plan", goodHouse, "--format", "markdown")
	require.True(t, strings.HasPrefix(markdown.stdout, "# "), markdown.stdout[:40])

	records, err := csv.NewReader(strings.NewReader(runs("plan", "--format", "csv", goodHouse).stdout)).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(records), 1)

	one := runs("plan", "--format=json", goodHouse)
	p := parsePlan(t, one.stdout)
	require.Equal(t, "Elm Row (invented)", p.House.Name)
	require.Equal(t, "6A", p.House.Zone, "Hennepin County, Minnesota (zone by county: see the catalog's own tests)")

	for _, r := range []result{text, markdown, one} {
		require.Equal(t, exitDone, r.code)
		require.Empty(t, r.stderr)
		require.NotContains(t, r.stdout, "\x1b", "a result is plain text")
	}
}

// Several houses as JSON: one object a line, in the order named.
func TestSeveralHousesAsJSON(t *testing.T) {
	r := runs("plan", "--format", "json", goodHouse, demoFolder+"house-on-stilts.toml", goodHouse)
	require.Equal(t, exitDone, r.code, r.stderr)
	lines := strings.Split(strings.TrimSuffix(r.stdout, "\n"), "\n")
	require.Len(t, lines, 3)
	for i, want := range []string{"Elm Row (invented)", "House on stilts (invented)", "Elm Row (invented)"} {
		require.Equal(t, want, parsePlan(t, lines[i]).House.Name)
	}
	require.Equal(t, lines[0], lines[2], "the same answers give the same plan")
}

// One bad house among several: all are named, nothing is printed.
func TestOneBadHouseAmongSeveral(t *testing.T) {
	r := runs("plan", goodHouse, brokenHouse, "testdata/nowhere.toml")
	require.Equal(t, exitInput, r.code)
	require.Empty(t, r.stdout)
	require.Contains(t, r.stderr, brokenHouse)
	require.Contains(t, r.stderr, "testdata/nowhere.toml")
}

func TestPlanReadsStandardInput(t *testing.T) {
	r := with{stdin: readFile(t, goodHouse)}.run("plan", "-", "--format", "json")
	require.Equal(t, exitDone, r.code, r.stderr)
	require.Equal(t, runs("plan", goodHouse, "--format", "json").stdout, r.stdout)

	empty := with{}.run("plan", "-")
	require.NotEqual(t, exitInternal, empty.code)
	require.NotEmpty(t, empty.stdout+empty.stderr)

	huge := with{stdin: strings.Repeat("# nothing\n", 1<<20)}.run("plan", "-")
	require.Equal(t, exitInput, huge.code, "a file far above any house is refused")
	require.Less(t, len(huge.stderr), 1000)
}

func TestPriorityAndVariantChangeTheRanking(t *testing.T) {
	points := func(args ...string) map[string]float64 {
		r := runs(append([]string{"plan", "--format", "json", goodHouse}, args...)...)
		require.Equal(t, exitDone, r.code, r.stderr)
		return parsePlan(t, r.stdout).Places[0].Ranking[0].Parts
	}
	base := points()
	require.Positive(t, base["cost"])
	none := points("--priority", "cost=0")
	require.Zero(t, none["cost"], "a priority of 0 gives no points")
	require.Equal(t, none, points("--priority=cost=5", "--priority", "cost=0"), "the last one counts")
	require.Zero(t, points("--variant", "quiet one")["cost"])
	require.Positive(t, points("--variant", "quiet one", "--priority", "cost=4")["cost"], "the command line wins over the saved plan")
}

func TestUnits(t *testing.T) {
	us, si := runs("plan", goodHouse).stdout, runs("plan", goodHouse, "--units", "si").stdout
	require.Contains(t, us, "200 ft2")
	require.NotContains(t, us, "RSI")
	require.NotContains(t, si, "200 ft2")
	require.Contains(t, si, "18.6 m2", "200 square feet of 0.09290304 m2")
	require.Contains(t, si, "RSI")
}

func TestStrict(t *testing.T) {
	loose, strict := runs("plan", shortHouse), runs("plan", "--strict", shortHouse)
	require.Equal(t, exitDone, loose.code)
	require.Equal(t, exitShort, strict.code)
	require.Equal(t, loose.stdout, strict.stdout, "--strict changes the code, not the result")
	require.Equal(t, exitShort, runs("plan", "--strict", goodHouse, shortHouse).code)
	dir := t.TempDir()
	house := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte("version = 1\n"+text), 0o600))
		return path
	}
	require.Equal(t, exitShort, runs("plan", "--strict", house("empty.toml", "")).code, "nothing was judged")
	wall := "[[place]]\nkind = \"exterior-wall\"\n"
	require.Equal(t, exitShort, runs("plan", "--strict", house("zoneless.toml", wall)).code, "nobody knows what is asked")
	require.Equal(t, exitDone, runs("plan", "--strict", house("board.toml", "old = false\n[site]\nzone = \"6A\"\n"+wall)).code, "a board to buy is named, like all that is bought")
	attic := func(name, old string) string {
		return house(name, "old = "+old+"\n[site]\nzone = \"6A\"\n[[place]]\nkind = \"attic\"\nlength_ft = 20\nwidth_ft = 20\narea_ft2 = 400\nframing.size = \"2x6\"\nframing.spacing_in = 24\nframing.practice = \"trusses\"\n")
	}
	older := attic("older.toml", "true")
	require.Equal(t, exitShort, runs("plan", "--strict", older).code, "nobody knows of old wiring and old fill")
	require.Equal(t, exitDone, runs("order", older).code)
	newer, err := os.ReadFile(attic("newer.toml", "false"))
	require.NoError(t, err)
	for lights, want := range map[string]int{"false": exitDone, "true": exitShort, `"unknown"`: exitShort} {
		lit := house("lit.toml", strings.TrimPrefix(string(newer), "version = 1\n")+"bath_fan_outside = true\nvents_ok = true\nnon_ic_lights = "+lights+"\n")
		require.Equal(t, want, runs("order", "--strict", lit).code, lights)
		require.Equal(t, want, runs("plan", "--strict", lit).code, lights)
		require.Equal(t, exitDone, runs("order", lit).code, "it is planned all the same")
	}
	require.Equal(t, exitShort, runs("order", "--strict", older).code, "nobody knows of old wiring and old fill")
	require.Equal(t, exitDone, runs("plan", "--strict", house("idle.toml", "old = false\n[site]\nzone = \"2A\"\n[[place]]\nkind = \"basement-wall\"\ndampness = \"dry\"\n")).code, "nothing is asked there")
	const vermont = "stage = \"not-framed\"\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n"
	const sized = "[[place]]\nkind = \"exterior-wall\"\nlengths_ft = [24]\nheight_ft = 8\nopenings = []\nframing.size = \"2x6\"\nframing.spacing_in = 16\nframing.practice = \"standard\"\n"
	for figures, want := range map[string]int{"": exitShort, "wall_board = 5\n": exitShort, "wall = 20\nwall_board = 5\n": exitDone} {
		drawn := house("drawn.toml", "drawings = true\n"+vermont+"[drawing_r]\n"+figures+sized)
		require.Equal(t, want, runs("plan", "--strict", drawn).code, "figures of the drawings: %s", figures)
		require.Equal(t, want, runs("order", "--strict", drawn).code, "figures of the drawings: %s", figures)
	}
	against := house("against.toml", "drawings = false\n"+vermont+"[drawing_r]\nwall = 20\n"+sized)
	for _, r := range []result{runs("plan", "--strict", against), runs("order", "--strict", against), runs("check", against)} {
		require.Equal(t, exitShort, r.code, "answers that disagree")
		require.Contains(t, r.stdout, "TWO ANSWERS DISAGREE")
	}
	require.Equal(t, exitShort, runs("plan", "--strict", shortHouse, "--out", filepath.Join(t.TempDir(), "x.txt")).code)
}

func TestOut(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "plan.txt")
	want := runs("plan", goodHouse).stdout

	r := runs("plan", goodHouse, "--out", path)
	require.Equal(t, exitDone, r.code, r.stderr)
	require.Empty(t, r.stdout)
	require.Equal(t, want, readFile(t, path))

	require.NoError(t, os.WriteFile(path, []byte("mine"), 0o600))
	r = runs("plan", goodHouse, "--out", path)
	require.Equal(t, exitInput, r.code)
	require.Contains(t, r.stderr, "add --force")
	require.Equal(t, "mine", readFile(t, path))

	r = runs("plan", goodHouse, "--out", path, "--force")
	require.Equal(t, exitDone, r.code, r.stderr)
	require.Equal(t, want, readFile(t, path))

	r = runs("plan", goodHouse, "--out", dir, "--force")
	require.Equal(t, exitInput, r.code)
	require.NotContains(t, r.stderr, "goroutine")

	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 1, "nothing else is left behind")

	r = runs("plan", brokenHouse, "--out", filepath.Join(dir, "never.txt"))
	require.Equal(t, exitInput, r.code)
	require.NoFileExists(t, filepath.Join(dir, "never.txt"))
}

// An overlay folder changes the plan and is named in it; a broken one is
// refused with file and line.
func TestOverlay(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "materials.toml"), []byte("[[material]]\nid = \"straw\"\nname = 7\n"), 0o644))
	r := runs("check", "--data", dir)
	require.Equal(t, exitInput, r.code)
	require.Contains(t, r.stderr, "materials.toml:3")
	require.Equal(t, exitInput, runs("plan", "--data", dir).code)

	empty := t.TempDir()
	require.Equal(t, runs("plan", goodHouse).stdout, runs("plan", goodHouse, "--data", empty).stdout)
}

// Flags may come before or after the files, with one dash or two.
func TestFlagsAnywhere(t *testing.T) {
	want := runs("plan", goodHouse, "--format", "json").stdout
	require.Equal(t, want, runs("plan", "--format", "json", goodHouse).stdout)
	require.Equal(t, want, runs("plan", "-format=json", goodHouse).stdout)
}
