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

func houseFile(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "house.toml")
	require.NoError(t, os.WriteFile(path, []byte("version = 1\n"+text), 0o600))
	return path
}

func ranOrder(args ...string) result { return runs(append([]string{"order"}, args...)...) }

func TestOrderCommand(t *testing.T) {
	r := ranOrder()
	require.Equal(t, exitDone, r.code)
	require.Empty(t, r.stderr)
	require.Contains(t, r.stdout, "Shopping list")
	require.Contains(t, r.stdout, "invented demo house")

	for _, format := range formats {
		r := ranOrder("--format", format)
		require.Equal(t, exitDone, r.code, r.stderr)
		require.NotEmpty(t, r.stdout, format)
		if format == "json" {
			require.True(t, json.Valid([]byte(r.stdout)))
		}
	}
	for width, columns := range map[string]int{"40": 40, "78": 78} {
		r := ranOrder("--ask", "--width", width)
		require.Equal(t, exitDone, r.code)
		for _, l := range strings.Split(strings.Split(r.stdout, "\nThis is an invented")[0], "\n") {
			require.LessOrEqual(t, utf8.RuneCountInString(l), columns, l)
		}
	}
}

func TestOrderCommandLine(t *testing.T) {
	for _, args := range [][]string{{"--format", "xml"}, {"--units", "metric"}, {"--width", "29"}, {"--width", "0"}, {"--width", "201"}, {"--ask", "--format", "json"}, {"--priority", "cost=9"}, {"--nothing"}} {
		r := ranOrder(args...)
		require.Equal(t, exitUsage, r.code, args)
		require.Empty(t, r.stdout, args)
		require.NotEmpty(t, r.stderr, args)
	}
	r := ranOrder("no-such.toml")
	require.Equal(t, exitInput, r.code)
	require.Contains(t, r.stderr, "no such file")
}

// Sizes that cannot be are told in clear words: at once where the file shows
// it, else in the order itself, which counts the rest.
func TestOrderBadSizes(t *testing.T) {
	r := ranOrder(houseFile(t, "[[place]]\nkind = \"exterior-wall\"\nlengths_ft = [40]\nopenings = [\"10000 of 3 ft x 4 ft\"]\n"))
	require.Equal(t, exitInput, r.code)
	require.Contains(t, r.stderr, ":5: place[1].openings[1]: found \"10000 of 3 ft x 4 ft\"; want an opening, each like")

	path := houseFile(t, "[site]\nstate = \"VT\"\n[[place]]\nlabel = \"North\"\nkind = \"exterior-wall\"\nlengths_ft = [10]\nopenings = [\"9 of 3 ft x 7 ft\"]\n")
	r = ranOrder(path)
	require.Equal(t, exitShort, r.code, "nothing else is ordered: %s", r.stderr)
	require.Contains(t, r.stdout, "NOT COUNTED: the windows and doors do not fit into the wall")
	require.Equal(t, exitShort, ranOrder(path, "--strict").code)
}

// An order of nothing is printed with its reason and does not end like one that
// can be carried to the store.
func TestAnOrderOfNothingExits3(t *testing.T) {
	stopped := houseFile(t, "[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nlength_ft = 30\nwidth_ft = 20\nknob_and_tube = true\n")
	for _, format := range []string{"text", "markdown", "csv", "json"} {
		r := ranOrder("--format", format, stopped)
		require.Equal(t, exitShort, r.code, format)
		require.Empty(t, r.stderr)
		require.NotEmpty(t, r.stdout)
	}
}
