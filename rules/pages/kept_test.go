package pages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// A saved plan says what changed since it was kept: nothing right away, a
// place whose frame changed, a new place, a place that is gone. It survives
// the file it is written to.
func TestSinceKept(t *testing.T) {
	a := fixture.Demo(t, demo.Default)
	l, h := a.List, a.House
	h.Answers.Set("budget.total_usd", house.Answer{})
	now := func() plan.Plan { return plan.Make(house.Answered{List: l, House: h}) }
	h.Variants = append(h.Variants, house.Variant{Name: "kept", Answers: house.Answers{}, Was: pages.Kept(now())})
	require.Empty(t, pages.SinceKept(h.Variant("kept").Was, now()))

	again, err := house.Read(l, "again", house.Write(l, h))
	require.NoError(t, err)
	require.Equal(t, h.Variant("kept").Was, again.Variant("kept").Was)

	h.Place("street-wall").Answers.Set("framing.size", house.Text("2x4"))
	h.Delete("rim")
	h.Add("attic")
	since := pages.SinceKept(h.Variant("kept").Was, now())
	require.Contains(t, since, "Street wall was fiberglass R-20")
	require.Contains(t, since, "is new")
	require.Contains(t, since, "1 of its places are gone")
}
