package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// A dearer material that wins by priorities alone is not promised where the
// house has a budget: at a lowest price of 0 the attic of the demo house would
// take sheep's wool, and its budget does not.
func TestDearerSwitchesDependOnTheBudget(t *testing.T) {
	a := fixture.Demo(t, demo.Default)
	prefs := plan.PreferencesOf(a, nil)
	require.True(t, prefs.HasBudget)
	assessed := plan.Assess(a)
	const promise, bound = "With lowest price at 0 instead of 3: sheep's wool.", "With lowest price at 0 instead of 3: sheep's wool, if the budget allows."
	attic := func() plan.Place { return assessed.Weigh(prefs).Places[0] }
	require.Contains(t, pages.SureText(attic(), planned.Options(t)), bound)
	prefs.HasBudget = false
	require.Contains(t, pages.SureText(attic(), planned.Options(t)), promise)
	prefs.Priorities["cost"] = 0
	require.Equal(t, "sheeps-wool", attic().Choice.MaterialID)
	prefs.HasBudget = true
	require.NotEqual(t, "sheeps-wool", attic().Choice.MaterialID)
	for _, place := range assessed.Weigh(prefs).Places {
		for _, l := range pages.WhyNotLines(place, planned.Options(t)) {
			e := place.EntryOf(strings.NewReplacer("Why not ", "", "?", "", " ", "-", "'", "").Replace(l.Label))
			if e != nil && strings.Contains(l.Text, "It would win") {
				require.Equal(t, e.Money.Total.Typical > place.Choice.Money.Total.Typical, strings.Contains(l.Text, "if the budget allows"), l.Text)
			}
		}
	}
}
