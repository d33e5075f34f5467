package inspect_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// lookedFor names the point of finished work that looks for what a caution warns of
// where no blanket lies; "" where only a blanket would bring the danger (practice).
var lookedFor = map[string]string{
	"lights-not-rated": "heat-producers", "flue-through": "heat-producers", "flue-and-brick-through": "heat-producers", "brick-through": "heat-producers",
	"fan-into-attic": "fans", "fan-into-slope": "fans", "attic-vents": "vents",
	"damp-wall": "damp-settled-wall", "damp-crawl": "damp-settled-floor",
	"ground-sheet-missing": "ground-sheet", "crawl-closed-burners": "burner-air", "crawl-closed-air": "crawl-air",
	"foam-covered": "foam-covered", "foam-left-visible": "foam-covered",
	"board-off-chimney": "board-off-chimney", "board-off-pipe": "board-off-pipe",
	"chimney-gap-empty": "chimney-gap", "chimney-kind-unknown": "chimney-gap", "chimney-brick-where": "chimney-gap",
	"chimney-fireblock": "fireblocks", "pipe-fire-stop": "fireblocks",
	"basement-foam-first": "no-blanket", "chimney-no-room": "no-blanket",
	"attic-old-face": "", "attic-old-load": "", "closed-up": "", "closed-up-inside": "", "old-paint-lead": "", "old-leaks": "",
	"fiber-left-visible": "", "crawl-hot-humid": "", "crawl-hot-humid-later": "", "hot-humid-left-out": "", "sheet-left-visible": "", "rim-cold": "", "rim-damp": "", "second-tight-layer": "",
}

// randomPlaces are places of random houses, of every kind, half of those below grade
// with bare concrete, and half of the crawl spaces closed.
func randomPlaces(t testing.TB, visit func(j inspect.Job, p plan.Place)) {
	rng := rand.New(rand.NewPCG(27, 1))
	for _, kind := range fixture.List(t).PlaceKinds() {
		for i := range 90 {
			h := fixture.RandomHouse(t, rng, kind)
			if at := &h.House.Places[0]; i%2 == 0 && h.Has(at, "foam_r") {
				at.Answers.Set("foam_r", house.Number(0))
				at.Answers.Set("vented", house.YesNo(i%4 == 0))
				at.Answers.Set("dampness", house.Text("damp"))
			}
			j := planned.Job(h)
			for _, p := range j.Plan.Places {
				if !p.Stopped() {
					visit(j, p)
				}
			}
		}
	}
}

// What the plan warns of is looked for in the finished work, whether a blanket is
// planned in the place or not, and what is asked there and missing is said. Nothing is
// ready to close before: neither a closed crawl space whose burners nobody has seen
// (IRC R408.3) nor bare concrete where R is asked.
func TestFinishedWorkLeavesNothingOfThePlanUnsaid(t *testing.T) {
	kinds, short, boards := map[string]int{}, map[string]int{}, 0
	randomPlaces(t, func(j inspect.Job, p plan.Place) {
		bare, id := p.Choice == nil, p.Surface.Kind.ID
		has := func(point string) bool {
			return slices.ContainsFunc(inspect.FormOf(j, p), func(f inspect.Form) bool { return f.Point.ID == point })
		}
		for _, h := range p.Safety {
			e := h.Rule.Effect
			point, listed := lookedFor[h.Rule.ID]
			weighs := e.Severity >= 3 || e.Need != "" && e.Need != "board" && e.Need != "fire-mark-fiber"
			if point == "no-blanket" && p.Target.Idle { // asked; nobody is held to none where no R is wanted
				point = ""
			}
			if h.Rule.ID == "foam-left-visible" && p.Surface.CIR == 0 { // there is none
				point = ""
			}
			if h.AsksFirst() || !weighs && !e.SettleFirst || !bare && !e.SettleFirst {
				continue
			}
			require.True(t, listed, "%s in %s", h.Rule.ID, id)
			require.True(t, point == "" || has(point), "%s in %s, blanket planned: %v", h.Rule.ID, id, !bare)
		}
		if !bare {
			return
		}
		kinds[id]++
		unseen := inspect.JudgeFound(j, inspect.EmptyFound(j), nil)
		require.False(t, unseen.ReadyToClose() && len(unseen.Places) > 0, id)
		r := inspect.JudgeFound(j, allGood(t, j), nil)
		switch {
		case p.Target.Required && p.Target.CavityR == 0 && p.Surface.CIR >= p.Target.ContinuousR: // the board does it
			boards++
			require.True(t, has("board"), id)
			require.False(t, r.ReadyToClose(), "nobody saw the board")
		case p.Target.Required && p.Surface.Held() == "":
			short[id]++
			require.Contains(t, r.Places[0].ShortText(units.US), p.Target.Text, id)
			require.Equal(t, !p.Surface.Waived, len(r.Short()) == 1, id)
			require.True(t, p.Surface.Waived || !r.ReadyToClose(), id)
		}
	})
	for _, kind := range []string{"attic", "exterior-wall", "crawl-space", "crawl-wall", "basement-wall", "chimney", "rim-joist", "sloped-ceiling"} {
		require.Positive(t, kinds[kind], kind)
		require.Positive(t, short[kind], kind)
	}
	require.Positive(t, boards)
}

// allGood is finished work without a blanket in any place, every point that a person
// looks at marked good.
func allGood(t testing.TB, j inspect.Job) *house.House {
	l, h := inspect.FoundList(fixture.Catalog(t)), inspect.EmptyFound(j)
	for i := range h.Places {
		p, _ := j.Place(h.Places[i].ID)
		a := house.Answers{"blanket_there": house.YesNo(false)}
		if p.Surface.Kind.BesideChimney {
			a["batt_in_gap"], a["gap_in"] = house.YesNo(false), house.Number(p.Surface.Clearance.Inches)
		}
		for _, q := range inspect.QuestionsOf(l, p, a) {
			if q.Kind == house.Choice && len(q.Options) == 2 && q.Options[0].Value == "good" {
				a[q.Key] = house.Text("good")
			}
		}
		h.Places[i].Answers = a
	}
	return h
}
