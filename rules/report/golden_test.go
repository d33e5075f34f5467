package report_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/report"
	"battwright/testdata/demo"
)

// golden compares a text with its file; UPDATE=1 writes the file anew.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "golden", name+".golden")
	if os.Getenv("UPDATE") == "1" {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "UPDATE=1 writes it")
	if string(want) == got {
		return
	}
	was, is := strings.Split(string(want), "\n"), strings.Split(got, "\n")
	for i := range max(len(was), len(is)) {
		if i >= len(was) || i >= len(is) || was[i] != is[i] {
			t.Fatalf("%s differs from line %d (UPDATE=1 writes it anew):\nwant %q\ngot  %q", name, i+1, at(was, i), at(is, i))
		}
	}
}

func at(lines []string, i int) string {
	if i >= len(lines) {
		return "(end)"
	}
	return lines[i]
}

// The reports of the three demo houses, as a person reads them.
func TestGoldenReports(t *testing.T) {
	for _, name := range demo.Names() {
		p, o := demoPlan(t, name), options(t)
		base := strings.TrimSuffix(name, ".toml")
		out := outputs(t, p, o)
		golden(t, base+".text78", out["text"])
		golden(t, base+".markdown", out["markdown"])
		golden(t, base+".json", out["json"])
		golden(t, base+".csv", out["csv"])
		o.Width = 40
		golden(t, base+".text40", report.Text(p, o))
	}
}
