package house_test

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/strict"
	"battwright/testdata/fixture"
)

const brokenDir = "../../testdata/broken"

func brokenFiles(t *testing.T) []string {
	t.Helper()
	var out []string
	require.NoError(t, filepath.WalkDir(brokenDir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".toml") {
			out = append(out, path)
		}
		return err
	}))
	return out
}

// The messages beside the files were read one by one as a builder would;
// UPDATE=1 writes them anew, to be read again.
func TestBrokenFilesSayWhatIsWrong(t *testing.T) {
	files := brokenFiles(t)
	require.GreaterOrEqual(t, len(files), 150)
	l := fixture.List(t)
	for _, path := range files {
		t.Run(strings.TrimPrefix(path, brokenDir+"/"), func(t *testing.T) {
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			_, err = house.Read(l, filepath.Base(path), string(text))
			require.Error(t, err, "this file is meant to be wrong")
			got := err.Error() + "\n"
			wantPath := strings.TrimSuffix(path, ".toml") + ".want"
			if os.Getenv("UPDATE") == "1" {
				require.NoError(t, os.WriteFile(wantPath, []byte(got), 0o644))
			}
			want, err := os.ReadFile(wantPath)
			require.NoError(t, err)
			require.Equal(t, string(want), got)
		})
	}
}

// What holds for every message, whatever its words: it is one line, names the
// file, a line that is in the file, what was found and what would be right,
// fits a few lines of a screen and cannot harm a terminal.
func TestEveryMessageHasItsParts(t *testing.T) {
	l := fixture.List(t)
	shape := regexp.MustCompile(`^[a-z0-9-]+\.toml(:\d+)?: (.+: )?found .+; (want|did you mean) .+$`)
	for _, path := range brokenFiles(t) {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		_, err = house.Read(l, filepath.Base(path), string(text))
		var problems strict.Problems
		require.ErrorAs(t, err, &problems, path)
		lines := 1 + strings.Count(string(text), "\n")
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
	}
}

// One file with ten mistakes gives ten lines, each with the line it is on.
func TestTenMistakesAreTenLines(t *testing.T) {
	text, err := os.ReadFile(brokenDir + "/ten-mistakes.toml")
	require.NoError(t, err)
	// The lines are found by the text of the mistake, not by counting.
	mistakes := []struct{ text, key string }{
		{"name = 42", "name"},
		{`stage = "famed"`, "stage"},
		{`conty = "Chittenden"`, "site.conty"},
		{"months = [", "site.months"},
		{"length_ft = 4000", "shape.length_ft"},
		{`area_ft2 = "1120"`, "place[1].area_ft2"},
		{"vented = true", "place[1].vented"},
		{"id = \"attic\"\nkind = \"exterior-wall\"", "place[2].id"},
		{`size = "2x5"`, "place[2].framing.size"},
		{"cost = 9", "priorities.cost"},
	}
	var want []string
	for _, m := range mistakes {
		before, _, found := strings.Cut(string(text), m.text)
		require.True(t, found, m.text)
		want = append(want, fmt.Sprintf("ten-mistakes.toml:%d: %s: ", 1+strings.Count(before, "\n"), m.key))
	}
	_, err = house.Read(fixture.List(t), "ten-mistakes.toml", string(text))
	require.Error(t, err)
	got := strings.Split(err.Error(), "\n")
	require.Len(t, got, len(want))
	for i := range want {
		require.Contains(t, got[i], want[i])
	}
}
