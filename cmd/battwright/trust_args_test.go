package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzCommandLine: whatever is typed behind the program's name, it ends with a
// code of its own and words that are safe to show, and writes nothing outside
// the folder it was told of. Arguments are separated by newlines.
func FuzzCommandLine(f *testing.F) {
	seeds := readFile(f, "testdata/command-lines.txt")
	for line := range strings.Lines(seeds) {
		f.Add(strings.ReplaceAll(strings.TrimSpace(line), " ", "\n"))
	}
	for _, nasty := range nastyTexts {
		f.Add("plan\n" + nasty)
		f.Add("order\n--place\n" + nasty + "\nhouse.toml")
	}
	house := readFile(f, goodHouse)
	f.Fuzz(func(t *testing.T, line string) {
		if len(line) > 400 {
			return
		}
		top := t.TempDir()
		dir := filepath.Join(top, "here")
		require.NoError(t, os.Mkdir(dir, 0o700))
		t.Chdir(dir)
		require.NoError(t, os.WriteFile("house.toml", []byte(house), 0o600))
		var args []string
		for _, a := range strings.Split(line, "\n") {
			// Paths stay in the folder, so that what turns up beside it is a fault.
			args = append(args, strings.NewReplacer("/", "", "\\", "", "..", "").Replace(a))
		}
		r := with{stdin: "quit\n", environ: map[string]string{"XDG_STATE_HOME": filepath.Join(dir, "state"), "HOME": dir}}.run(args...)
		require.NotEqual(t, exitInternal, r.code, "%q: %s", args, r.stderr)
		require.GreaterOrEqual(t, r.code, 0)
		requireSafe(t, "output", strings.ReplaceAll(r.stdout, "\t", " "))
		requireSafe(t, "messages", r.stderr)
		require.Equal(t, house, readFile(t, "house.toml"), "%q changed the house file", args)
		beside, err := os.ReadDir(top)
		require.NoError(t, err)
		require.Len(t, beside, 1, "%q wrote beside its folder", args)
	})
}
