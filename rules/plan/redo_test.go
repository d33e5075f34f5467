package plan_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

// After any answer to any question, in houses of any answers, what is worked
// out again with its reach is what working out everything gives.
func TestRedoEqualsAssessForEveryAnswer(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	seen := map[plan.Reach]int{}
	for range 6 {
		a := fixture.RandomHouse(t, rng)
		// One of which nobody said anything shares what the shape gives.
		a.House.Add(a.House.Places[0].Kind)
		before := plan.Assess(a)
		for _, q := range a.List.Questions {
			if q.Scope != house.PlaceScope {
				redone(t, rng, a, before, q, -1, seen)
				continue
			}
			for i, p := range a.House.Places {
				if q.For(p.Kind) && (q.Unit == "ft" || rng.IntN(4) == 0) {
					redone(t, rng, a, before, q, i, seen)
				}
			}
		}
	}
	for _, r := range []plan.Reach{plan.WeightsOnly, plan.OnePlace, plan.WholeHouse} {
		require.Positive(t, seen[r], r)
	}
}

// Under each edition of the code, from each other, what is kept of a place is what
// working it out again gives.
func TestRedoEqualsAssessForEveryEdition(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	kinds := fixture.List(t).PlaceKinds()
	for range 12 {
		a := fixture.RandomHouse(t, rng, kinds...)
		for i := range a.House.Places { // most is not said, as in most houses
			for key := range a.House.Places[i].Answers {
				if rng.IntN(4) > 0 {
					delete(a.House.Places[i].Answers, key)
				}
			}
		}
		q, ok := a.List.Find("site.code")
		require.True(t, ok)
		before := plan.Assess(a)
		for _, o := range q.Options {
			now := fixture.Copy(a)
			now.Store(q, nil, house.Text(o.Value))
			before = before.Redo(now, plan.WholeHouse, "")
			sameAssessment(t, plan.Assess(now), before, o.Value)
		}
	}
}

// Fill that is typed at the attic is warned of at once in the places that open to
// it.
func TestFillOfTheAtticReachesTheWallAtOnce(t *testing.T) {
	a := oldHouse(t, "id = \"a\"\nkind = \"attic\"", "id = \"w\"\nkind = \"exterior-wall\"")
	now := fixture.Copy(a)
	q, ok := a.List.Find("place.vermiculite")
	require.True(t, ok)
	now.Store(q, now.House.Place("a"), house.YesNo(true))
	got := plan.Assess(a).Redo(now, plan.ReachOf(q, now.House.Place("a")), "a")
	sameAssessment(t, plan.Assess(now), got, "vermiculite")
}

// redone answers one question at random and compares both ways.
func redone(t *testing.T, rng *rand.Rand, a house.Answered, before plan.Assessment, q house.Question, i int, seen map[plan.Reach]int) {
	t.Helper()
	now, id := fixture.Copy(a), ""
	var p *house.Place
	if i >= 0 {
		p = &now.House.Places[i]
		id = p.ID
	}
	answer := fixture.RandomAnswer(rng, q)
	now.Store(q, p, answer)
	reach := plan.ReachOf(q, p)
	seen[reach]++
	got := before.Redo(now, reach, id)
	require.Same(t, now.House, got.Answered.House)
	sameAssessment(t, plan.Assess(now), got, fmt.Sprint(id, " ", q.FullKey(), " ", answer))
}
