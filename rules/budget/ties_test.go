package budget

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// Walking back and ranking are two ways to the same order: that of the ids.
func TestTiesByWalkAndByRank(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 1))
	for range 100 {
		places := randomHouse(r, 6, 5)
		p, err := newProblem(places)
		require.NoError(t, err)
		s := search{p: p, limit: math.MaxInt64 / 2, cap: DefaultMaxStates}
		require.NoError(t, s.run())
		n := len(places)
		for a := range s.layers[n] {
			for b := range s.layers[n] {
				ida := p.set(choice(s.layers, int32(a))).IDs
				idb := p.set(choice(s.layers, int32(b))).IDs
				want := slices.Compare(ida, idb) < 0
				if a == b {
					continue
				}
				s.ties = ties{layer: n, steps: -1 << 30}
				require.Equal(t, want, s.idsBefore(n, int32(a), 0, int32(b), 0))
				require.Empty(t, s.ties.ranks)
				s.ties = ties{layer: n, steps: 1 << 30}
				require.Equal(t, want, s.idsBefore(n, int32(a), 0, int32(b), 0))
				require.NotEmpty(t, s.ties.ranks)
			}
		}
	}
}

// Alike places tie in every sum. Whatever the number of places, the same
// money goes to the first of them by id.
func TestAlikePlaces(t *testing.T) {
	for _, n := range []int{2, 10, 60, 200} {
		places := make([]Place, n)
		for i := range places {
			places[i] = Place{fmt.Sprint(i), []Option{{"c", 10, 1}, {"a", 20, 2}, {"b", 30, 3}}}
		}
		// With k steps to give, ids compare least when as many places as can
		// be get "a", and those first; then "b"; "c" last.
		for k := range 2*n + 1 {
			if n == 200 && k%20 > 0 {
				continue
			}
			s := mustBest(t, places, units.Cents(10*(n+k))).Set
			want := make([]string, 0, n)
			for i := range n {
				left, after := k-sum(want), n-1-i
				switch {
				case left >= 1 && left-1 <= 2*after:
					want = append(want, "a")
				case left >= 2:
					want = append(want, "b")
				default:
					want = append(want, "c")
				}
			}
			require.Equal(t, want, s.IDs, "%d of %d", k, n)
			require.Equal(t, units.Cents(10*(n+k)), s.Cost)
		}
	}
}

func sum(ids []string) int {
	total := 0
	for _, id := range ids {
		total += map[string]int{"c": 0, "a": 1, "b": 2}[id]
	}
	return total
}
