package house_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"battwright/rules/house"
	"battwright/rules/strict"
	"battwright/testdata/fixture"
)

// eachBroken goes through testdata/broken: archives of house files that are
// wrong, each followed by a member "want" with what is said about it. A file
// with bytes that editors hide or change stands there as Go strings, a line
// each, and its name ends in ".quoted". With UPDATE=1 the archives are written
// anew with what do made of want.
func eachBroken(t testing.TB, do func(subject, name, text string, want *[]byte)) {
	t.Helper()
	paths, err := filepath.Glob("../../testdata/broken/*.txtar")
	require.NoError(t, err)
	for _, path := range paths {
		a, err := txtar.ParseFile(path)
		require.NoError(t, err)
		for pair := range slices.Chunk(a.Files, 2) {
			require.Equal(t, "want", pair[1].Name, pair[0].Name)
			name, quoted := strings.CutSuffix(pair[0].Name, ".quoted")
			text := string(pair[0].Data)
			if quoted {
				text = unquoted(t, text)
			}
			do(strings.TrimSuffix(filepath.Base(path), ".txtar"), name, text, &pair[1].Data)
		}
		if os.Getenv("UPDATE") == "1" {
			require.NoError(t, os.WriteFile(path, txtar.Format(a), 0o644))
		}
	}
}

func unquoted(t testing.TB, text string) string {
	t.Helper()
	var b strings.Builder
	for line := range strings.Lines(text) {
		raw, err := strconv.Unquote(strings.TrimSuffix(line, "\n"))
		require.NoError(t, err, line)
		b.WriteString(raw)
	}
	return b.String()
}

// brokenText is one of the files, by subject and name.
func brokenText(t testing.TB, which string) string {
	t.Helper()
	found := ""
	eachBroken(t, func(subject, name, text string, _ *[]byte) {
		if subject+"/"+name == which {
			found = text
		}
	})
	require.NotEmpty(t, found, which)
	return found
}

// The messages were read one by one as a builder would; UPDATE=1 writes them
// anew, to be read again.
func TestBrokenFilesSayWhatIsWrong(t *testing.T) {
	l, cases := fixture.List(t), 0
	eachBroken(t, func(subject, name, text string, want *[]byte) {
		cases++
		t.Run(subject+"/"+name, func(t *testing.T) {
			_, err := house.Read(l, name, text)
			require.Error(t, err, "this file is meant to be wrong")
			got := err.Error() + "\n"
			if os.Getenv("UPDATE") == "1" {
				*want = []byte(got)
			}
			require.Equal(t, string(*want), got)
		})
	})
	require.GreaterOrEqual(t, cases, 362)
}

// What holds for every message, whatever its words: it is one line, names the
// file, a line that is in the file, what was found and what would be right,
// fits a few lines of a screen and cannot harm a terminal.
func TestEveryMessageHasItsParts(t *testing.T) {
	l := fixture.List(t)
	shape := regexp.MustCompile(`^[a-z0-9-]+\.toml(:\d+)?: (.+: )?found .+; (want|did you mean) .+$`)
	eachBroken(t, func(_, path, text string, _ *[]byte) {
		_, err := house.Read(l, path, text)
		var problems strict.Problems
		require.ErrorAs(t, err, &problems, path)
		lines := 1 + strings.Count(text, "\n")
		seen := map[string]bool{}
		for _, p := range problems {
			said := p.Error()
			require.Regexp(t, shape, said, path)
			require.LessOrEqual(t, p.Line, lines, path)
			require.False(t, seen[said], "%s says twice: %s", path, said)
			seen[said] = true
			require.Less(t, len([]rune(said)), 700, path)
			clean, changed := strict.CleanText(said)
			require.False(t, changed, clean)
			for _, goWord := range []string{"map[", "interface", "%!", "nil", "strconv", "<"} {
				require.NotContains(t, strings.ReplaceAll(said, "<?xml", ""), goWord, path)
			}
		}
	})
}
