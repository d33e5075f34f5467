package plan

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// Each answer that is tried, in houses of any answers, with a budget and without,
// does what it does when every place is worked out and weighed again.
func TestTriedIsTheWholeHouseWorkedOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	weights := map[int]int{}
	for n := range 12 {
		a := fixture.RandomHouse(t, rng)
		a.House.Add(a.House.Places[0].Kind)
		for i := range a.House.Places { // much is not said
			for key := range a.House.Places[i].Answers {
				if rng.IntN(3) > 0 {
					delete(a.House.Places[i].Answers, key)
				}
			}
		}
		assessed := Assess(a)
		prefs := PreferencesOf(a, nil)
		prefs.HasBudget, prefs.Budget, prefs.Spend = n%2 == 0, units.FromDollars(float64(rng.IntN(4000))), n%4 == 0
		base := assessed.Weigh(prefs)
		trial := assessed.trial(prefs, base)
		for _, s := range assessed.withCode(base.Unknown) {
			q, ok := a.List.Find(s.Key)
			require.True(t, ok)
			q = a.Offered(q, a.House.Place(s.Place))
			most, effect := 0, ""
			for _, answer := range possible(q) {
				want, text := wholly(trial, q, s.Place, answer)
				weights[want]++
				got, said := trial.tryOne(q, s.Place, answer, 0)
				require.Equal(t, [2]any{want, text}, [2]any{got, said}, "%d: %s of %q is %v", n, s.Key, s.Place, answer)
				if want > most {
					most, effect = want, text
				}
			}
			tried := s
			if trial.tryAnswers(&tried); !slices.Contains([]string{drawingEffect, oldEffect, zoneEffect, cautionEffect, ""}, tried.Effect) {
				require.Equal(t, effect, tried.Effect, "%d: %s of %q", n, s.Key, s.Place)
			}
		}
	}
	for _, w := range []int{0, changesCaution, changesBlanket, changesChoice, stopsPlace} {
		require.Positive(t, weights[w], w)
	}
}

// wholly tries an answer on the whole house, with nothing kept.
func wholly(t trial, q house.Question, placeID string, answer house.Answer) (int, string) {
	now := fixture.Copy(t.Answered)
	now.Store(q, now.House.Place(placeID), answer)
	other, words := Assess(now).weighed(t.p), q.Show(answer, now.System)
	for i, place := range other.Places {
		for _, s := range place.Stops {
			if !slices.ContainsFunc(t.base.Places[i].Stops, func(b Stop) bool { return b.Danger == s.Danger }) {
				return stopsPlace, fmt.Sprintf("if %q: no plan for %s yet: %s", words, place.Surface.Label, s.Brief())
			}
		}
	}
	return effectOf(t.base.Places, other.Places, words)
}
