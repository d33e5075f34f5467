package ask_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
	"battwright/tui/ask"
)

// Line mode says STOP first of a stopped place too, whatever is asked about it,
// and no step, choice or price.
func TestStoppedPlacesInLines(t *testing.T) {
	for _, h := range planned.StoppedHouses(t) {
		stops := plan.Make(h.House).Places[0].Stops
		for _, word := range []string{"", "why", "how", "layers", "damp"} {
			lines := []string{"look", "1", word, "quit"}
			if word == "" {
				lines = []string{"look", "1", "quit"}
			}
			said, err := said(t, fixture.NewMemory(), ask.Config{House: h.House.House, Path: "h.toml"}, lines...)
			require.NoError(t, err)
			all := strings.Join(strings.Fields(said), " ")
			require.Contains(t, all, planned.StoppedLabel+": STOP: ", h.Name)
			at := strings.LastIndex(said, "STOP: "+strings.Fields(stops[0].Say)[0])
			if word == "" {
				at = strings.LastIndex(said, "STOP: ")
			}
			require.Positive(t, at)
			rest := strings.Join(strings.Fields(said[at:]), " ")
			for _, s := range stops {
				require.Contains(t, all, s.Say, "%s %s", h.Name, word)
			}
			if word == "" {
				continue
			}
			for _, not := range []string{"$", "First seal", "of 100 points", "N95", "Use:"} {
				require.NotContains(t, rest, not, "%s %s", h.Name, word)
			}
		}
	}
}

// A rule is explained with its figures in the units of the house, as everywhere.
func TestRulesAreExplainedWithoutMarkup(t *testing.T) {
	l := fixture.List(t)
	for _, system := range []units.System{units.US, units.SI} {
		for _, r := range l.Catalog().Book().Rules() {
			if !strings.Contains(r.Reason, "{") {
				continue
			}
			out, err := said(t, fixture.NewMemory(), ask.Config{House: house.New(), System: system}, "word "+r.ID, "quit")
			require.NoError(t, err)
			require.NotContains(t, out, "{", "%s in %s", r.ID, system)
			require.Contains(t, out, "Rule "+r.ID)
		}
	}
}
