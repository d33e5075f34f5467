package budget

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// Source "office" (read): each step up costs $414, then $1117, a point.
func TestLadderCostPerPoint(t *testing.T) {
	data := load(t)
	place := Place{ID: "office"}
	for _, o := range data.Office.Offices {
		place.Options = append(place.Options, Option{o.ID, units.FromDollars(o.Dollars), o.Benefit})
	}
	f, err := Frontier([]Place{place}, Opts{})
	require.NoError(t, err)
	require.Len(t, f.Points, len(data.Office.Offices))
	for i, want := range data.Office.PerPoint {
		steps, err := f.Ladder(i, 1)
		require.NoError(t, err)
		require.Len(t, steps, 1)
		// Published to the dollar, 1116.50 upward.
		require.InDelta(t, want, steps[0].CentsPerPoint()/100, 0.51)
		require.Equal(t, []Change{{0, "office", i, i + 1, place.Options[i].ID, place.Options[i+1].ID}}, steps[0].Changes)
	}
}

// Source "tiny" (computed).
func TestTinyLadder(t *testing.T) {
	data := load(t)
	f, err := Frontier(tinyPlaces(data), Opts{})
	require.NoError(t, err)
	steps, err := f.Ladder(3, 2) // 28000 cents, picks 1 1 0
	require.NoError(t, err)
	require.Len(t, steps, 2)
	require.Equal(t, units.Cents(32500), steps[0].Cost)
	require.Equal(t, units.Cents(4500), steps[0].ExtraCost)
	require.Equal(t, 6.0, steps[0].ExtraValue)
	require.Equal(t, units.Cents(5000), steps[1].ExtraCost)
	require.Equal(t, 11.0, steps[1].ExtraValue)
	require.Equal(t, []Change{{2, "place 3", 0, 1, "option 0", "option 1"}}, steps[1].Changes)

	end, err := f.Ladder(len(f.Points)-1, 5)
	require.NoError(t, err)
	require.Empty(t, end)
	for _, bad := range []int{-1, len(f.Points), math.MaxInt, math.MinInt} {
		_, err = f.Ladder(bad, 1)
		require.ErrorIs(t, err, ErrPoint)
		_, err = f.Set(bad)
		require.ErrorIs(t, err, ErrPoint)
	}
	_, err = f.Ladder(0, -1)
	require.ErrorIs(t, err, ErrSize)
	_, err = Front{}.Ladder(0, 1)
	require.ErrorIs(t, err, ErrPoint)
	_, ok := Front{}.At(100)
	require.False(t, ok)
}

// Making the listed changes to the start gives the set of the step.
func TestLadderChangesLeadThere(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 1))
	for range 200 {
		places := realHouse(r, 6, 8)
		f, err := Frontier(places, Opts{})
		require.NoError(t, err)
		from := r.IntN(len(f.Points))
		start, err := f.Set(from)
		require.NoError(t, err)
		steps, err := f.Ladder(from, math.MaxInt)
		require.NoError(t, err)
		require.Len(t, steps, len(f.Points)-1-from)
		for _, s := range steps {
			want, err := f.Set(s.Point)
			require.NoError(t, err)
			picks := append([]int{}, start.Picks...)
			require.NotEmpty(t, s.Changes)
			for _, c := range s.Changes {
				require.Equal(t, places[c.Place].ID, c.PlaceID)
				require.Equal(t, c.From, picks[c.Place])
				require.Equal(t, places[c.Place].Options[c.To].ID, c.ToID)
				require.Equal(t, places[c.Place].Options[c.From].ID, c.FromID)
				picks[c.Place] = c.To
			}
			require.Equal(t, want.Picks, picks)
			require.Equal(t, want.Cost-start.Cost, s.ExtraCost)
			require.InDelta(t, want.Value-start.Value, s.ExtraValue, 1e-9)
			require.Positive(t, s.ExtraCost)
			require.Positive(t, s.ExtraValue)
		}
	}
}
