package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// ran runs the program without a terminal.
func ranOrder(args ...string) (code int, out, err string) {
	var o, e strings.Builder
	code = run(append([]string{"order"}, args...), env{stdin: strings.NewReader(""), stdout: &o, stderr: &e, getenv: func(string) string { return "" }})
	return code, o.String(), e.String()
}

func houseFile(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "house.toml")
	require.NoError(t, os.WriteFile(path, []byte("version = 1\n"+text), 0o600))
	return path
}

func TestOrderCommand(t *testing.T) {
	code, out, errs := ranOrder()
	require.Equal(t, exitDone, code)
	require.Empty(t, errs)
	require.Contains(t, out, "Shopping list")
	require.Contains(t, out, "invented demo house")

	for _, format := range []string{"text", "markdown", "csv", "json"} {
		code, out, errs := ranOrder("--format", format)
		require.Equal(t, exitDone, code, errs)
		require.NotEmpty(t, out, format)
		if format == "json" {
			require.True(t, json.Valid([]byte(out)))
		}
	}
	for _, width := range []string{"40", "78"} {
		code, out, _ := ranOrder("--ask", "--width", width)
		require.Equal(t, exitDone, code)
		for _, l := range strings.Split(strings.Split(out, "\nThis is an invented")[0], "\n") {
			require.LessOrEqual(t, utf8.RuneCountInString(l), map[string]int{"40": 40, "78": 78}[width], l)
		}
	}
}

func TestOrderCommandLine(t *testing.T) {
	for _, args := range [][]string{{"--format", "xml"}, {"--units", "metric"}, {"--width", "29"}, {"--width", "201"}, {"--ask", "--format", "json"}, {"--priority", "cost=9"}, {"--nothing"}} {
		code, out, errs := ranOrder(args...)
		require.Equal(t, exitUsage, code, args)
		require.Empty(t, out, args)
		require.NotEmpty(t, errs, args)
	}
	code, _, errs := ranOrder("no-such.toml")
	require.Equal(t, exitInput, code)
	require.Contains(t, errs, "no such file")
}

// Sizes that cannot be are told in clear words: at once where the file shows
// it, else in the order itself, which counts the rest.
func TestOrderBadSizes(t *testing.T) {
	path := houseFile(t, "[[place]]\nkind = \"exterior-wall\"\nlengths_ft = [40]\nopenings = [\"10000 of 3 ft x 4 ft\"]\n")
	code, _, errs := ranOrder(path)
	require.Equal(t, exitInput, code)
	require.Contains(t, errs, ":5: place[1].openings[1]: found \"10000 of 3 ft x 4 ft\"; want an opening, each like")

	path = houseFile(t, "[site]\nstate = \"VT\"\n[[place]]\nlabel = \"North\"\nkind = \"exterior-wall\"\nlengths_ft = [10]\nopenings = [\"9 of 3 ft x 7 ft\"]\n")
	code, out, errs := ranOrder(path)
	require.Equal(t, exitShort, code, "nothing else is ordered: %s", errs)
	require.Contains(t, out, "NOT COUNTED: the windows and doors do not fit into the wall")
	code, _, _ = ranOrder(path, "--strict")
	require.Equal(t, exitShort, code)
}

func TestPlanJSONCarriesTheOrder(t *testing.T) {
	var o, e strings.Builder
	require.Equal(t, exitDone, run([]string{"plan", "--format", "json"}, env{stdin: strings.NewReader(""), stdout: &o, stderr: &e, getenv: func(string) string { return "" }}))
	require.Contains(t, o.String(), `"convention": "bay by bay"`)
	require.Contains(t, o.String(), `"spare_pieces"`)
}

// An order of nothing is printed with its reason and does not end like one that
// can be carried to the store.
func TestAnOrderOfNothingExits3(t *testing.T) {
	stopped := houseFile(t, "[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nlength_ft = 30\nwidth_ft = 20\nknob_and_tube = true\n")
	for _, format := range []string{"text", "markdown", "csv", "json"} {
		code, out, errs := ranOrder("--format", format, stopped)
		require.Equal(t, exitShort, code, format)
		require.Empty(t, errs)
		require.NotEmpty(t, out)
	}
}
