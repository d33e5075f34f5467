package takeoff

// boundL2 is Martello and Toth's bound (Knapsack Problems, 1990, ch. 8): for a
// threshold a, pieces longer than stock-a share with nothing of length a or
// more, pieces longer than half a stock need one each, and what is left of the
// pieces between a and half must fit beside those or take stock of its own. At
// a = 0 that is never less than the total
// length over the stock length.
func (p problem) boundL2() int {
	best := p.boundAt(0)
	for _, a := range p.size {
		if 2*a <= p.stock {
			best = max(best, p.boundAt(a))
		}
	}
	return best
}

func (p problem) boundAt(a int) int {
	alone, big, bigTotal, small := 0, 0, 0, 0
	for i, l := range p.size {
		switch n := p.need[i]; {
		case l > p.stock-a:
			alone += n
		case 2*l > p.stock:
			big += n
			bigTotal += n * l
		case l >= a:
			small += n * l
		}
	}
	spill := max(0, small-(big*p.stock-bigTotal))
	return alone + big + ceilDiv(spill, p.stock)
}

func ceilDiv(a, b int) int { return (a + b - 1) / b }

// greedy is first-fit decreasing. Filling one stock piece after the other with
// the longest pieces that still fit gives the same packing, and lets equal
// fillings be taken in one step.
func (p problem) greedy(need []int) []filling {
	left := append([]int(nil), need...)
	var out []filling
	for {
		count, times := make([]int, len(left)), maxPieces
		room := p.stock
		for i, n := range left {
			count[i] = min(n, room/p.size[i])
			room -= count[i] * p.size[i]
			if count[i] > 0 {
				times = min(times, n/count[i])
			}
		}
		if room == p.stock {
			return out
		}
		for i := range left {
			left[i] -= times * count[i]
		}
		out = append(out, filling{times, count})
	}
}
