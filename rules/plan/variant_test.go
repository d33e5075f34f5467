package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// A saved plan costs what it cost, whatever budget is typed and whoever is
// hired afterwards.
func TestASavedPlanStaysWhatItWas(t *testing.T) {
	a := fixture.Copy(fixture.Demo(t, demo.Default))
	delete(a.House.Answers, "budget.total_usd")
	a.House.Answers.Set("budget.labor", house.Text("self"))
	was := plan.Make(a)
	a.KeepVariant("kept", nil)
	a.House.Answers.Set("budget.total_usd", house.Number(float64(was.Bill.Money.Total.Typical)/100*0.9))
	a.House.Answers.Set("budget.labor", house.Text("installer"))
	now := plan.Assess(a).OfVariant(*a.House.Variant("kept"))
	require.Equal(t, was.Bill.Money.Total, now.Bill.Money.Total)
	require.False(t, now.Bill.Money.HasBudget)
	require.Empty(t, plan.Changes(was, now))
}
