package takeoff

// knapsack fills one stock piece with the greatest value, at most so many
// pieces of each size. Tables are kept between calls.
type knapsack struct {
	p     problem
	parts []part // sizes split into 1, 2, 4, ... pieces
	best  []int  // best[room]
	taken []bool // taken[part*(stock+1)+room]
}

type part struct{ size, pieces, length int }

func newKnapsack(p problem) *knapsack {
	k := &knapsack{p: p, best: make([]int, p.stock+1)}
	for i, l := range p.size {
		left := min(p.need[i], p.stock/l)
		for n := 1; left > 0; n *= 2 {
			n = min(n, left)
			k.parts = append(k.parts, part{i, n, n * l})
			left -= n
		}
	}
	k.taken = make([]bool, len(k.parts)*(p.stock+1))
	return k
}

// solve returns the greatest total value and the counts that reach it. Values
// of 0 or less are left out.
func (k *knapsack) solve(value []int) (int, []int) {
	clear(k.best)
	clear(k.taken)
	for i, t := range k.parts {
		v := value[t.size] * t.pieces
		if v <= 0 {
			continue
		}
		row := k.taken[i*(k.p.stock+1):]
		for room := k.p.stock; room >= t.length; room-- {
			if with := k.best[room-t.length] + v; with > k.best[room] {
				k.best[room] = with
				row[room] = true
			}
		}
	}
	count := make([]int, len(k.p.size))
	room := k.p.stock
	for i := len(k.parts) - 1; i >= 0; i-- {
		if k.taken[i*(k.p.stock+1)+room] {
			count[k.parts[i].size] += k.parts[i].pieces
			room -= k.parts[i].length
		}
	}
	return k.best[k.p.stock], count
}
