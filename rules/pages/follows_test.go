package pages_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

var oldWords = regexp.MustCompile(`(?i)porcelain|knob|pebbly|vermiculite|asbestos`)

// A house that is not framed yet has no old wiring, and is not asked whether it
// has; one that may have old parts is warned at each place and asked once.
func TestOldPartsOnlyWhereTheyMayBe(t *testing.T) {
	const rest = "\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\ncode = \"irc-2021\"\n[[place]]\nkind = \"attic\"\n[[place]]\nkind = \"exterior-wall\"\n"
	for _, now := range []string{"stage = \"not-framed\"", "stage = \"framed\"\nold = false"} {
		a := fixture.Read(t, "version = 1\n"+now+rest)
		p := plan.Make(a)
		require.Empty(t, oldWords.FindAllString(planned.Printed(t, p), -1), now)
		handed, err := planned.Handed(pages.Handover{Job: planned.Job(a)}, planned.Options(t))
		require.NoError(t, err)
		require.Empty(t, oldWords.FindAllString(handed+print.Text(pages.FormPage(planned.Job(a)), planned.Options(t).Width), -1), now)
	}
	a := fixture.Read(t, "version = 1\nstage = \"framed\""+rest)
	assessed := plan.Assess(a)
	p := plan.Make(a)
	require.Equal(t, 3, strings.Count(print.Text(pages.PlanPage(p, planned.Options(t)), planned.Options(t).Width), "If there may be"), "two of wiring, one of fill")
	list, _ := assessed.FindOut(plan.PreferencesOf(a, nil), p, plan.Whole)
	require.Equal(t, "old", list[0].Key)
	require.True(t, list[0].Matters)
	for _, s := range list[1:] {
		require.NotContains(t, []string{"place.knob_and_tube", "place.vermiculite"}, s.Key, "the root question stands for it")
	}
}

// A brick chimney that is said of the house is known in its attic: the shield
// is ordered without an if, and nothing asks of metal pipes.
func TestTheChimneyIsSaidOnce(t *testing.T) {
	const places = "[[place]]\nkind = \"attic\"\n[[place]]\nkind = \"exterior-wall\"\n"
	of := func(up, more string) (plan.Plan, string) {
		a := fixture.Read(t, "version = 1\nold = false\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n[shape]\nchimney = \""+up+"\"\n"+places+more)
		p := plan.Make(a)
		return p, print.Text(pages.OrderPage(order.Make(p, a), p, planned.Options(t)), planned.Options(t).Width)
	}
	p, bought := of("masonry", "[[place]]\nkind = \"chimney\"\n")
	text := print.Text(pages.PlanPage(p, planned.Options(t)), planned.Options(t).Width)
	require.Contains(t, strings.Join(strings.Fields(text), " "), "Where the chimney of brick or stone passes through")
	for _, said := range []string{text, bought} { // brick and stone have no listing
		require.NotContains(t, strings.ToLower(said), "its listing")
		require.NotContains(t, said, "the listing")
		require.Contains(t, strings.Join(strings.Fields(said), " "), "width not known: find out where the brick stands (inside, in the wall, outside)")
	}
	require.NotContains(t, text, "Does a chimney, flue")
	require.NotContains(t, text, "single-wall metal")
	require.NotContains(t, text, "For metal and plastic")
	require.Contains(t, strings.Join(strings.Fields(text), " "), "depends on where it stands")
	require.Contains(t, bought, "shield")
	require.NotContains(t, bought, "only if one goes through")
	p, bought = of("metal", "[[place]]\nkind = \"chimney\"\n")
	require.Contains(t, print.Text(pages.PlanPage(p, planned.Options(t)), planned.Options(t).Width), "See its listing")
	require.Contains(t, spaced(bought), "its listing decides")
	p, bought = of("none", "")
	require.NotContains(t, print.Text(pages.PlanPage(p, planned.Options(t)), planned.Options(t).Width), "flue or vent")
	require.NotContains(t, bought, "shield")
}
