package pages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// Whatever the shopping list says loudly before the first blanket, that a place
// gets damp, is stopped or has nothing, stands on the sheet to ask with too.
func TestAskingSheetWarnsLikeTheShoppingList(t *testing.T) {
	met := 0
	for _, name := range demo.Names() {
		a := fixture.Demo(t, name)
		p, o := plan.Make(a), planned.Options(t)
		ord := order.Make(p, a)
		asking := pages.AskBlocks(ord, p, o)[0]
		for _, r := range pages.OrderBlocks(ord, o)[0].Rows {
			if r.Tone != page.Care {
				break
			}
			met++
			require.Contains(t, asking.Rows, r, name)
		}
	}
	require.Positive(t, met)
}

// How many points nobody looked at, and how many of them can hurt people, is
// said in a sentence that can be read aloud.
func TestPointsThatNobodyLookedAtAreCounted(t *testing.T) {
	open := func(stops, others int) inspect.FoundPlace {
		p := inspect.FoundPlace{Answers: house.Answers{}}
		for range stops {
			p.Points = append(p.Points, inspect.PointResult{Point: catalog.AcceptancePoint{Result: catalog.ResultStop}})
		}
		for range others {
			p.Points = append(p.Points, inspect.PointResult{})
		}
		return p
	}
	for want, p := range map[string]inspect.FoundPlace{
		"1 point was not looked at, and it can hurt people.":            open(1, 0),
		"2 points were not looked at, and all of them can hurt people.": open(2, 0),
		"3 points were not looked at, 1 of which can hurt people.":      open(1, 2),
		"1 point was not looked at.":                                    open(0, 1),
	} {
		require.Equal(t, "Nothing failed yet; "+want+" Not ready to close.", pages.FoundVerdict(inspect.FoundResult{Places: []inspect.FoundPlace{p}}))
	}
}

// A part that was seen is not the whole, and blankets that are short by more than
// anybody accepted are not ready to close.
func TestVerdictSaysWhatWasSeenAndWhatIsShort(t *testing.T) {
	p := inspect.FoundPlace{Answers: house.Answers{"looked_ft2": house.Number(5)}}
	p.Plan.Surface.Label, p.Plan.Surface.AreaFt2 = "Slope", 900
	require.Contains(t, pages.FoundVerdict(inspect.FoundResult{Places: []inspect.FoundPlace{p}}), "nobody looked at all of it (Slope)")
	p.Plan.Choice = &plan.Entry{}
	p.Plan.Target.Required, p.Plan.Choice.Heat.ShortByR = true, 11
	text := pages.FoundVerdict(inspect.FoundResult{Places: []inspect.FoundPlace{p}})
	require.Contains(t, text, "less R than is asked for (Slope)")
	require.Contains(t, text, "Not ready to close")
}

// A bid that lacks something at a place is not said to lack nothing.
func TestContractThatLacksSomethingAtAPlace(t *testing.T) {
	j := planned.Job(fixture.Demo(t, demo.Default))
	bid, problems := inspect.ReadOffer(j, "full.toml", fixture.File(t, "offers/full.toml"))
	require.Empty(t, problems)
	r := inspect.JudgeOffer(j, bid)
	lacks := func(r inspect.OfferResult) string {
		for _, b := range pages.OffersPage(j, []inspect.OfferResult{r}, nil, planned.Options(t)).Blocks {
			if b.Title == "What a proper contract still lacks" {
				require.Len(t, b.Rows, 1)
				return b.Rows[0].Text
			}
		}
		return ""
	}
	require.True(t, r.FallsShort())
	require.Contains(t, lacks(r), "said at the place")
	r.Places = nil
	require.Equal(t, "Nothing on our list.", lacks(r))
}
