package report_test

import (
	"strings"
	"testing"

	"battwright/rules/report"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func golden(t *testing.T, name, got string) {
	t.Helper()
	fixture.Golden(t, "../../testdata/golden", name, got)
}

// The reports of the three demo houses, as a person reads them.
func TestGoldenReports(t *testing.T) {
	for _, name := range demo.Names() {
		p, o := demoPlan(t, name), planned.Options(t)
		base := strings.TrimSuffix(name, ".toml")
		out := planned.Forms(t, p, o)
		golden(t, base+".text78", out["text"])
		golden(t, base+".markdown", out["markdown"])
		golden(t, base+".json", out["json"])
		golden(t, base+".csv", out["csv"])
		o.Width = 40
		golden(t, base+".text40", report.Text(p, o))
	}
}
