package budget

import (
	"cmp"
	"slices"
)

// ties settles which of two equally good sets comes first by their ids. Few
// ties are walked back to where the sets part. Houses with many alike places
// have ties without end and long walks, so once the walks of a layer have
// taken more steps than it has sets, its sets are ranked for good.
type ties struct {
	layer, steps int
	ranks        [][]int32 // by layer; nil beyond those ranked
}

// idsBefore compares set p of the first i places, given option po at place i,
// with set q given qo: option ids in place order.
func (s *search) idsBefore(i int, p, po, q, qo int32) bool {
	if p == q {
		return s.p.items[i][po].rank < s.p.items[i][qo].rank
	}
	if i < len(s.ties.ranks) {
		return s.ties.ranks[i][p] < s.ties.ranks[i][q]
	}
	if s.ties.layer != i {
		s.ties.layer, s.ties.steps = i, 0
	}
	if s.ties.steps > len(s.layers[i]) {
		s.rank(i)
		return s.ties.ranks[i][p] < s.ties.ranks[i][q]
	}
	for l := i; ; l-- {
		s.ties.steps++
		a, b := &s.layers[l][p], &s.layers[l][q]
		if a.parent == b.parent {
			// Sets with one parent part at this place and nowhere before it.
			return s.p.items[l-1][a.choice].rank < s.p.items[l-1][b.choice].rank
		}
		p, q = a.parent, b.parent
	}
}

// rank orders the sets of every layer up to i by ids: first by the order of
// what they grew from, then by the last id.
func (s *search) rank(i int) {
	if len(s.ties.ranks) == 0 {
		s.ties.ranks = [][]int32{{0}}
	}
	for l := len(s.ties.ranks); l <= i; l++ {
		states, before, items := s.layers[l], s.ties.ranks[l-1], s.p.items[l-1]
		keys := make([]uint64, len(states)) // rank before, then rank of the id
		order := make([]int32, len(states))
		for k, st := range states {
			keys[k] = uint64(before[st.parent])<<32 | uint64(items[st.choice].rank)
			order[k] = int32(k)
		}
		slices.SortFunc(order, func(a, b int32) int { return cmp.Compare(keys[a], keys[b]) })
		ranks := make([]int32, len(states))
		for r, k := range order {
			ranks[k] = int32(r)
		}
		s.ties.ranks = append(s.ties.ranks, ranks)
	}
}
