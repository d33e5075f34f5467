package budget

// state is a set for the first places that no other such set beats.
type state struct {
	cost, value    int64
	parent, choice int32
}

// cut leaves out partial sets that cannot become good enough; see bound.go.
type cut struct {
	bound *bound
	gap   int64
}

// search grows the undominated sets place by place. layers[0] holds the empty
// set; layers[i] the sets for the first i places, cheapest first and strictly
// rising in value.
type search struct {
	p      *problem
	limit  int64 // counted cost that no complete set may exceed
	cut    *cut  // nil: keep everything undominated
	cap    int
	kept   int
	layers [][]state
	ties   ties
}

// cursor walks the sets of the layer before, each with one option added. Both
// cost and value rise along the walk.
type cursor struct {
	cost, value int64
	parent, opt int32
}

// belowAll is under every sum of values, with room to subtract one.
const belowAll = -(1 << 62)

func (s *search) run() error {
	s.layers = [][]state{{{parent: -1, choice: -1}}}
	for i := range s.p.items {
		next, err := s.layer(i)
		if err != nil {
			return err
		}
		s.layers = append(s.layers, next)
	}
	return nil
}

// layer merges the walks of all options of place i in order of cost and keeps
// what raises the value.
func (s *search) layer(i int) ([]state, error) {
	heap := make([]cursor, 0, len(s.p.items[i]))
	for o := range s.p.items[i] {
		if c := (cursor{opt: int32(o)}); s.seek(i, &c, 0, belowAll) {
			heap = append(heap, c)
		}
	}
	for k := len(heap)/2 - 1; k >= 0; k-- {
		down(heap, k)
	}
	next := make([]state, 0, len(s.layers[i])+len(heap))
	last := int64(belowAll)
	for len(heap) > 0 {
		top := &heap[0]
		switch {
		case top.value == last && top.cost == next[len(next)-1].cost:
			// Every option's walk meets a given cost at most once, so all
			// equals of a kept set pass here right after it.
			if kept := &next[len(next)-1]; s.idsBefore(i, top.parent, top.opt, kept.parent, kept.choice) {
				kept.parent, kept.choice = top.parent, top.opt
			}
		case top.value > last:
			if s.kept++; s.kept > s.cap {
				return nil, wrapf(ErrTooManyStates, "more than %d at place %d of %d (%s)",
					s.cap, i+1, len(s.p.items), s.p.placeIDs[i])
			}
			next = append(next, state{top.cost, top.value, top.parent, top.opt})
			last = top.value
		}
		if !s.seek(i, top, int(top.parent)+1, last) {
			heap[0] = heap[len(heap)-1]
			heap = heap[:len(heap)-1]
		}
		down(heap, 0)
	}
	return next, nil
}

// seek moves the cursor to the first set from position `from` that fits, beats
// the value reached so far and is not cut; false when there is none.
func (s *search) seek(i int, c *cursor, from int, last int64) bool {
	prev, it := s.layers[i], s.p.items[i][c.opt]
	limit := s.limit - s.p.minAfter[i+1]
	for k := firstAbove(prev, from, last-it.value); k < len(prev); k++ {
		cost, value := prev[k].cost+it.cost, prev[k].value+it.value
		if cost > limit {
			return false
		}
		if s.cut != nil && s.cut.bound.slack(i+1, cost, value) > s.cut.gap {
			continue
		}
		c.cost, c.value, c.parent = cost, value, int32(k)
		return true
	}
	return false
}

// firstAbove finds the first state from position `from` worth more than value.
// It doubles its stride first: the answer is nearly always close by.
func firstAbove(states []state, from int, value int64) int {
	if from >= len(states) || states[from].value > value {
		return from
	}
	low, stride := from, 1 // states[low] is not above
	for low+stride < len(states) && states[low+stride].value <= value {
		low += stride
		stride *= 2
	}
	high := min(low+stride, len(states)) // states[high], if any, is above
	for high-low > 1 {
		if mid := low + (high-low)/2; states[mid].value <= value {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// down restores the heap below k: cheaper first, then more value.
func down(heap []cursor, k int) {
	for {
		child := 2*k + 1
		if child >= len(heap) {
			return
		}
		if r := child + 1; r < len(heap) && heap[r].before(&heap[child]) {
			child = r
		}
		if !heap[child].before(&heap[k]) {
			return
		}
		heap[k], heap[child] = heap[child], heap[k]
		k = child
	}
}

func (c *cursor) before(d *cursor) bool {
	return c.cost < d.cost || c.cost == d.cost && c.value > d.value
}

// choice walks back from a state of the last layer.
func choice(layers [][]state, at int32) []int32 {
	picks := make([]int32, len(layers)-1)
	for l := len(layers) - 1; l > 0; l-- {
		st := layers[l][at]
		picks[l-1], at = st.choice, st.parent
	}
	return picks
}
