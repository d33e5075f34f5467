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
				require.Equal(t, place.More(&e.Assessed) > 0, strings.Contains(l.Text, "if the budget allows"), l.Text)
			}
		}
	}
}

// Where the budget chose, nothing is clear: the chimney bay that may fall short
// gets the cheaper fiber, which another one outranks and falls less short of.
func TestWhatTheBudgetChoseIsNotCalledClear(t *testing.T) {
	const chimney = "version = 1\nold = false\nstage = \"not-framed\"\n[site]\nzone = \"6B\"\n[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \"masonry-outside\"\narea_ft2 = 200\nframing.size = \"2x6\"\ngap_in = 1\nwaive_target = true\n[priorities]\ncost = 1\n[budget]\nlabor = \"self\"\n"
	at := func(more string) (plan.Place, string) {
		p := planned.Job(fixture.Read(t, chimney+more)).Plan.Places[0]
		require.NotNil(t, p.Choice)
		b, err := pages.JSON(plan.Plan{Places: []plan.Place{p}}, planned.Options(t), false)
		require.NoError(t, err)
		return p, string(b)
	}
	free, _ := at("")
	require.Contains(t, pages.SureText(free, planned.Options(t)), "lear")
	p, written := at("total_usd = 10\n")
	require.NotNil(t, p.Best)
	require.Equal(t, "The budget chose it: by itself this place would get something else.", pages.SureText(p, planned.Options(t)))
	require.Empty(t, pages.SureNumbers(p, planned.Options(t)))
	require.Contains(t, written, `"word": "budget"`)
}

// A choice that hangs on an answer nobody gave is not called clear without it: this
// basement gets wool only because no dehumidifier is assumed to run.
func TestWhatHangsOnAnAnswerIsNotCalledClear(t *testing.T) {
	sure := func(more string) string {
		a := fixture.Judged(t, fixture.Read(t, "version = 1\nold = false\n[site]\nstate = \"SD\"\ncounty = \"Brookings\"\nindoor = \"usual\"\n[[place]]\nid = \"b\"\nkind = \"basement-wall\"\nlength_ft = 144\nheight_ft = 8\ndampness = \"dry\"\nabove_grade_ft = 2\nframing.spacing_in = 24\n"+more+"[priorities]\nfire = 4\nmoisture = 5\n"))
		return pages.SureText(plan.Make(a).Places[0], planned.Options(t))
	}
	require.Contains(t, sure("dehumidifier = false\n"), "Clear: the others fall short, get damp")
	open := sure("")
	require.Contains(t, open, "Clear only as assumed: the others fall short, get damp")
	require.Contains(t, open, "An answer that nobody gave decides here. With a dehumidifier from May to September: ")
	require.Contains(t, open, " less.")
}
