package pages_test

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

const garageFile = "../../testdata/kinds/floor-over-garage.toml"

// garage reads the data with a kind that the program does not know; change
// rewrites its file first.
func garage(t *testing.T, change ...string) (*catalog.Catalog, error) {
	t.Helper()
	text, err := os.ReadFile(garageFile)
	require.NoError(t, err)
	file := strings.NewReplacer(change...).Replace(string(text))
	return catalog.Load(data.Files, fstest.MapFS{"garage.toml": {Data: []byte(file)}})
}

// A kind of place is one record and its rules: plan, order, handover and dangers
// follow from its traits.
func TestNewKindIsDataAlone(t *testing.T) {
	c, err := garage(t)
	require.NoError(t, err)
	require.Empty(t, c.Prove())
	a := fixture.ReadOver(t, c, `version = 1
old = true
[site]
zone = "6A"
[[place]]
id = "bonus"
kind = "floor-over-garage"
label = "Room over the garage"
length_ft = 24
width_ft = 20
knob_and_tube = false
non_ic_lights = true
flue_through = true
[[place]]
id = "spare"
kind = "floor-over-garage"
label = "Over the other garage"
`)
	j, o := planned.Job(a), pages.Options{Catalog: c}
	bonus := j.Plan.Places[0]
	// 2021 IECC table R402.1.3, floor in zone 6: R-30 (published/codes.csv). A 2x10
	// is 9 1/4 in deep, and the label of an R-30 batt says 9 1/2 in.
	require.InDelta(t, 30, bonus.Target.CavityR, 0)
	require.Equal(t, []float64{9.5, 30}, []float64{bonus.Choice.Layers[0].Product.ThicknessIn, bonus.Choice.NominalR})
	require.True(t, bonus.Choice.Heat.MeetsTarget)
	require.Equal(t, "none", bonus.Choice.Facing.OnBlanket)
	require.InDelta(t, 480, j.Plan.Places[1].Surface.AreaFt2, 0, "what its record assumes")

	made := order.Make(j.Plan, a)
	require.Equal(t, 480.0, made.Places[0].AreaFt2)
	require.NotEmpty(t, made.Places[0].Bays, "length and width give bays")
	require.NotEmpty(t, made.Places[0].Extras)
	handed, err := pages.Handover{Job: j, Drywall: time.Date(2027, 5, 3, 0, 0, 0, 0, time.UTC)}.Page(o)
	require.NoError(t, err)
	for name, page := range map[string]string{
		"plan": print.Text(pages.PlanPage(j.Plan, o), 0), "order": print.Text(pages.OrderPage(made, j.Plan, o), 0), "handover": print.Text(handed, 0),
	} {
		page = strings.Join(strings.Fields(page), " ")
		require.Contains(t, page, "Room over the garage", name)
		require.Contains(t, page, "5/8 in fire-rated drywall", name)
		require.Contains(t, page, "Recessed lights without an IC mark", name)
		require.Contains(t, page, "air space", name)
	}
	cautions := map[string]bool{}
	for _, h := range bonus.Verdict.Safety {
		cautions[h.Rule.ID] = true
	}
	require.Subset(t, slices.Collect(maps.Keys(cautions)), []string{"flue-through", "old-leaks", "old-paint-lead", "lights-not-rated", "garage-ceiling"})
	_, open := a.List.Find("place.knob_and_tube")
	require.True(t, open && a.Has(a.House.Place("spare"), "knob_and_tube") && !a.Has(a.House.Place("spare"), "vermiculite"))
	require.NotEmpty(t, j.Plan.Places[1].FindFirst(c, o.System), "nobody said whether there is old wiring")
	require.Len(t, j.Assessment.StillOpen(plan.PreferencesOf(a, nil), "bonus"), 5, "three sizes and two spacings")
}

// A danger that no caution of ours covers there is named until the kind says why
// it cannot be there.
func TestNewKindMustSpeakOfEveryDanger(t *testing.T) {
	c, err := garage(t, `fan-outlet = "a duct passes through it to the outdoors, as it should"`, "")
	require.NoError(t, err)
	found := c.Prove()
	require.Len(t, found, 1)
	require.Contains(t, found[0].String(), "danger fan-outlet in floor-over-garage: unmet")
	c, err = garage(t, `ground-water = "it is above the ground"`, "")
	require.NoError(t, err)
	require.Empty(t, c.Prove(), "the caution of that danger fires wherever it may be")
	require.Contains(t, c.KindsAsking("dampness"), "floor-over-garage")
	_, err = garage(t, `size = "floor"`, `size = "hall"`)
	require.ErrorContains(t, err, `garage.toml:22: place[1].size: found "hall"`)
}
