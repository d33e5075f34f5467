package takeoff

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// dealSlots puts the slots themselves in place of the lengths of a cutting
// plan. Slots of one length may hold different strips, so a pattern can split.
func dealSlots(plan CutPlan, slots []Slot) []StockCut {
	waiting := map[int][]int{} // length in ticks -> slots not yet dealt
	left := make([]int, len(slots))
	for i, s := range slots {
		left[i] = s.Count
		tick := tickOf(s.LengthIn, plan.StockIn)
		waiting[tick] = append(waiting[tick], i)
	}
	counts := map[string]int{}
	var keys []string
	for _, pat := range plan.Patterns {
		for range pat.Count {
			key := dealOne(pat, plan.StockIn, waiting, left)
			if counts[key] == 0 {
				keys = append(keys, key)
			}
			counts[key]++
		}
	}
	out := make([]StockCut, len(keys))
	for i, key := range keys {
		out[i] = stockCut(plan.StockIn, key, slots, counts[key])
	}
	slices.SortStableFunc(out, func(a, b StockCut) int { return cmp.Compare(b.Count, a.Count) })
	return out
}

// dealOne takes the slots for one stock piece; the key lists their numbers.
func dealOne(pat Pattern, stockIn float64, waiting map[int][]int, left []int) string {
	var key strings.Builder
	for _, c := range pat.Cuts {
		tick := tickOf(c.LengthIn, stockIn)
		for range c.Count {
			queue := waiting[tick]
			for len(queue) > 1 && left[queue[0]] == 0 {
				queue = queue[1:]
			}
			waiting[tick] = queue
			left[queue[0]]--
			key.WriteString(strconv.Itoa(queue[0]))
			key.WriteByte(' ')
		}
	}
	return key.String()
}

func stockCut(stockIn float64, key string, slots []Slot, times int) StockCut {
	c := StockCut{Count: times, OffcutIn: stockIn}
	last := -1
	for _, f := range strings.Fields(key) {
		i, _ := strconv.Atoi(f)
		c.OffcutIn -= slots[i].LengthIn
		if i == last {
			c.Slots[len(c.Slots)-1].Count++
			continue
		}
		s := slots[i]
		s.Count = 1
		c.Slots = append(c.Slots, s)
		last = i
	}
	c.OffcutIn = max(0, c.OffcutIn)
	return c
}

// cover counts the pieces anew out of the cutting patterns and holds them
// against the bays; ErrUncovered when a bay would be left without its piece.
func (r *Order) cover(l Layout) error {
	cut := map[[2]float64]int{}
	face := 0.0
	for _, s := range r.Patterns {
		for _, slot := range s.Slots {
			for _, q := range slot.Pieces {
				n := q.Count * slot.Count * s.Count
				cut[[2]float64{q.WidthIn, q.LengthIn}] += n
				face += ft2(q.WidthIn*q.LengthIn) * float64(n)
			}
		}
	}
	for _, q := range r.Pieces {
		if cut[[2]float64{q.WidthIn, q.LengthIn}] < q.Count {
			return wrapf(ErrUncovered, "%v x %v in: %d wanted, %d cut", q.WidthIn, q.LengthIn, q.Count,
				cut[[2]float64{q.WidthIn, q.LengthIn}])
		}
	}
	if face < l.ClearFt2*(1-1e-9) {
		return wrapf(ErrUncovered, "bays %.2f ft2, pieces %.2f ft2", l.ClearFt2, face)
	}
	return nil
}
