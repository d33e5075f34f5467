package plan_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// The same house gives the same plan, byte for byte, also from a catalog read
// anew.
func TestSameInputSameBytes(t *testing.T) {
	fresh, err := catalog.Load(data.Files, nil)
	require.NoError(t, err)
	for _, name := range demo.Names() {
		a := fixture.Demo(t, name)
		want := planned.Printed(t, plan.Make(a))
		again, err := house.Read(house.NewList(fresh), name, demo.Text(name))
		require.NoError(t, err)
		require.Equal(t, want, planned.Printed(t, plan.Make(house.Answered{List: house.NewList(fresh), House: again})), name)
	}
	rng := rand.New(rand.NewPCG(1, 1))
	for range 12 {
		a := fixture.RandomHouse(t, rng)
		require.Equal(t, planned.Printed(t, plan.Make(a)), planned.Printed(t, plan.Make(fixture.Copy(a))))
	}
}

// The order in which places are listed changes nothing but their order.
func TestShufflingPlacesOnlyPermutes(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 2))
	for i := range 150 {
		a := fixture.Demo(t, demo.Default)
		if i > 2 {
			a = fixture.RandomHouse(t, rng)
		}
		b := fixture.Copy(a)
		b.House.Places = shuffled(rng, b.House.Places)
		was, is := plan.Make(a), plan.Make(b)
		require.Equal(t, printedPlaces(t, was), printedPlaces(t, is))
		require.Equal(t, was.Bill.Money.Total, is.Bill.Money.Total)
		require.Equal(t, was.Sources, is.Sources)
		require.ElementsMatch(t, was.Assumed, is.Assumed)
		require.ElementsMatch(t, was.Unknown, is.Unknown)
		for i, p := range b.House.Places {
			require.Equal(t, p.ID, is.Places[i].Surface.ID)
		}
	}
}

var simplePlaces = []string{
	"id = \"here\"\nkind = \"attic\"", "id = \"here\"\nkind = \"exterior-wall\"", "id = \"here\"\nkind = \"crawl-space\"",
	"id = \"here\"\nkind = \"basement-wall\"\nfoam_r = 15", "id = \"here\"\nkind = \"rim-joist\"", "id = \"here\"\nkind = \"sloped-ceiling\"",
	"id = \"here\"\nkind = \"chimney\"\nchimney = \"masonry-inside\"",
}

// A square foot costs the same however many there are, with the same choice.
func TestASquareFootCostsTheSame(t *testing.T) {
	for _, labor := range []string{"self", "installer", "installer-checked"} {
		for _, place := range simplePlaces {
			site := "zone = \"6A\"\n[budget]\nlabor = \"" + labor + "\""
			one := plan.Make(fixture.OfPlaces(t, site, place+"\narea_ft2 = 333.3"))
			two := plan.Make(fixture.OfPlaces(t, site, place+"\narea_ft2 = 666.6"))
			require.Equal(t, one.Places[0].Choice.MaterialID, two.Places[0].Choice.MaterialID, place)
			require.Positive(t, one.Bill.Money.Total.Low)
			require.Equal(t, one.Places[0].Choice.Money.PerFt2, two.Places[0].Choice.Money.PerFt2)
			require.Equal(t, labor != "self", one.Bill.Money.Labour.Typical > 0)
			require.InDelta(t, 2*one.Places[0].Choice.Heat.LossMMBtu.High, two.Places[0].Choice.Heat.LossMMBtu.High, 1e-9)
			// Points are by square foot and R: the size of a place does not move them.
			require.InDeltaSlice(t, one.Places[0].Choice.Parts, two.Places[0].Choice.Parts, 1e-9)
		}
	}
}

// A wall in two parts loses what the whole does.
func TestSplittingAWallAddsUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	const wall = "kind = \"exterior-wall\"\nheight_ft = 8\nframing.size = \"2x6\"\n"
	for range 20 {
		long, part := 20+rng.IntN(60), 0.25+rng.Float64()/2
		open := float64(rng.IntN(100))
		piece := func(id string, share float64) string {
			return "id = \"" + id + "\"\n" + wall + "length_ft = " + num(float64(long)*share) + "\nopenings_ft2 = " + num(open*share)
		}
		whole := plan.Make(fixture.OfPlaces(t, "zone = \"5A\"", piece("all", 1)))
		halves := plan.Make(fixture.OfPlaces(t, "zone = \"5A\"", piece("one", part), piece("two", 1-part)))
		sum := 0.0
		for _, p := range halves.Places {
			require.Equal(t, whole.Places[0].Choice.MaterialID, p.Choice.MaterialID)
			sum += p.Choice.Heat.LossMMBtu.Typical
		}
		require.InDelta(t, whole.Places[0].Choice.Heat.LossMMBtu.Typical, sum, 1e-6)
	}
}

// What the places cost is what the plan costs, part by part.
func TestMoneyAddsUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	for range 40 {
		p := plan.Make(fixture.RandomHouse(t, rng))
		var sum units.Range[units.Cents]
		for _, place := range p.Places {
			m := place.Cost
			if place.Choice == nil {
				require.Zero(t, m.Blankets)
			}
			require.Equal(t, m.Total, m.Blankets.Plus(m.Extras).Plus(m.Gear).Plus(m.Labour))
			require.LessOrEqual(t, m.Total.Low, m.Total.Typical)
			require.LessOrEqual(t, m.Total.Typical, m.Total.High)
			sum = sum.Plus(m.Total)
		}
		require.Equal(t, sum, p.Bill.Money.Total)
		require.Equal(t, p.Over() > 0, p.Bill.Money.HasBudget && p.Bill.Money.Total.Typical > p.Bill.Money.Budget)
	}
}

// Working out one place again gives what working out all of them gives.
func TestUpdateEqualsAssess(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	for range 60 {
		a := fixture.Copy(fixture.Demo(t, demo.Default))
		before := plan.Assess(a)
		now := fixture.Copy(a)
		i := rng.IntN(len(now.House.Places))
		place := &now.House.Places[i]
		fixture.AnswerAll(t, rng, now.List, place)
		sameAssessment(t, plan.Assess(now), before.Update(now, place.ID), place.ID+": "+fmt.Sprint(place.Answers))
	}
}

// sameAssessment compares all figures, and prints only when they differ.
func sameAssessment(t *testing.T, want, got plan.Assessment, say string) {
	t.Helper()
	require.True(t, reflect.DeepEqual(want.Site, got.Site), say)
	for i := range want.Places {
		if !reflect.DeepEqual(want.Places[i], got.Places[i]) {
			t.Fatalf("%s: %s differs", say, want.Places[i].Surface.ID) // a diff of all figures takes minutes
		}
	}
}

// Each answer of each place alone, changed by Update.
func TestUpdateEqualsAssessForEveryAnswer(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	a := fixture.Demo(t, demo.Default)
	before := plan.Assess(a)
	for i := range a.House.Places {
		for _, q := range a.List.In(house.PlaceScope, a.House.Places[i].Kind) {
			now := fixture.Copy(a)
			answer := fixture.RandomAnswer(rng, q)
			if q.Kind == house.YesNoKind {
				answer = house.YesNo(!a.Bool(house.PlaceScope, &a.House.Places[i], q.Key))
			}
			now.House.Places[i].Answers.Set(q.Key, answer)
			id := now.House.Places[i].ID
			sameAssessment(t, plan.Assess(now), before.Update(now, id), fmt.Sprint(id, " ", q.Key, " ", answer))
		}
	}
}

// A place added or taken away is worked out too.
func TestUpdateAfterAPlaceIsAdded(t *testing.T) {
	a := fixture.Copy(fixture.Demo(t, demo.Default))
	a.House.Answers.Set("budget.total_usd", house.Answer{}) // else the place might cost others theirs
	before := plan.Assess(a)
	now := fixture.Copy(a)
	require.True(t, now.House.Duplicate("street-wall"))
	got := before.Update(now, "street-wall").Weigh(plan.PreferencesOf(now, nil))
	require.Equal(t, planned.Printed(t, plan.Make(now)), planned.Printed(t, got))
	changes := plan.Changes(plan.Make(a), got)
	require.Len(t, changes, 1)
	require.True(t, changes[0].Added)
	require.Positive(t, changes[0].Cost)
	back := plan.Changes(got, plan.Make(a))
	require.True(t, back[0].Removed)
	require.Equal(t, changes[0].Cost, -back[0].Cost)
	require.Empty(t, plan.Changes(got, got))
}

// Priorities of one place weigh there alone, and weights add up to one.
func TestLevelsStayWithinTheirPlace(t *testing.T) {
	a := fixture.Demo(t, demo.Default)
	p := plan.Make(a)
	sound := slices.IndexFunc(p.Priorities, func(k plan.Priority) bool { return k.ID == "sound" })
	for _, place := range p.Places {
		require.Equal(t, place.Surface.ID == "street-wall", place.Own)
		want := p.Priorities[sound].Level
		if place.Own {
			want = 5
		}
		require.Equal(t, want, place.Levels[sound])
		sum := 0.0
		for _, w := range place.Weights {
			sum += w
		}
		require.InDelta(t, 1, sum, 1e-12)
	}
}
