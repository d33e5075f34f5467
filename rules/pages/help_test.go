package pages_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func demoPlan(t testing.TB, name string) plan.Plan {
	t.Helper()
	return plan.Make(fixture.Demo(t, name))
}

// parsed is the JSON form read back with its numbers as they are written.
func parsed(t testing.TB, p plan.Plan) map[string]any {
	t.Helper()
	b, err := pages.JSON(p, planned.Options(t), true)
	require.NoError(t, err)
	d := json.NewDecoder(strings.NewReader(string(b)))
	d.UseNumber()
	var out map[string]any
	require.NoError(t, d.Decode(&out))
	return out
}

// walk visits every value of a JSON tree with its path.
func walk(path string, v any, visit func(path string, v any)) {
	visit(path, v)
	switch v := v.(type) {
	case map[string]any:
		for k, e := range v {
			walk(path+"."+k, e, visit)
		}
	case []any:
		for _, e := range v {
			walk(path+"[]", e, visit)
		}
	}
}

type safetyRow struct {
	Say, House, Site, Top, Source, Mark string
	Rules, Install, Silent, Words       []string
	Out                                 map[string]string
	First                               string
	NoFace                              string `json:"no_face"`
	NoBoard                             bool   `json:"no_board"`
	Stops, Nothing                      bool
}

func safetyRows(t testing.TB) []safetyRow {
	t.Helper()
	var p struct {
		Sources map[string]string
		Safety  []safetyRow
	}
	fixture.Published(t, "plan-checks.json", &p)
	for _, r := range p.Safety {
		require.Contains(t, p.Sources, r.Source, r.Say)
		require.NotEmpty(t, r.Mark, r.Say)
	}
	return p.Safety
}
