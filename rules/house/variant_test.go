package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// A saved plan keeps that it had no budget; one that says nothing of a budget
// leaves that of the house.
func TestASavedPlanKeepsThatItHadNoBudget(t *testing.T) {
	l := fixture.List(t)
	a := house.Answered{List: l, House: read(t, l, "[priorities]\nfire = 5\n")}
	a.KeepVariant("rocks", nil)
	h := read(t, l, house.Write(l, a.House)[len("version = 1\n"):])
	h.Answers.Set("budget.total_usd", house.Number(7000))
	h.Answers.Set("priorities.fire", house.Number(0))
	laid := h.Variant("rocks").Over(h)
	require.NotContains(t, laid.Answers, "budget.total_usd")
	require.Equal(t, house.Number(5), laid.Answers["priorities.fire"])
	require.Equal(t, house.Number(7000), h.Answers["budget.total_usd"], "the house itself stays")
	a.House = h
	a.KeepVariant("within", nil)
	h.Answers.Set("budget.total_usd", house.Number(9))
	require.Equal(t, house.Number(7000), h.Variant("within").Over(h).Answers["budget.total_usd"])
	only := house.Variant{Answers: house.Answers{"priorities.fire": house.Number(1)}}
	require.Equal(t, house.Number(9), only.Over(h).Answers["budget.total_usd"])
}
