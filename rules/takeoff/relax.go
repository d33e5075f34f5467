package takeoff

import "math"

// relaxed is the linear relaxation: fillings used a fraction of a time, and
// the lower bound it proves (0 when it was not solved).
type relaxed struct {
	column [][]int
	times  []float64
	bound  int
}

const (
	maxSizes   = 150       // sizes the dense tables are made for
	maxTable   = 4_000_000 // sizes x stock
	maxRounds  = 800       // columns generated at most
	valueScale = 1_000_000_000
)

// relax solves the relaxation by column generation: start with one size per
// stock piece, then add the filling worth most at the current values of the
// pieces until none is worth more than the stock piece it takes.
func relax(p problem) relaxed {
	m := len(p.size)
	if m > maxSizes || m*p.stock > maxTable {
		return relaxed{}
	}
	t := newTableau(p)
	k := newKnapsack(p)
	bound := 0
	for range maxRounds {
		value := t.values()
		most, column := k.solve(value)
		bound = max(bound, p.boundFrom(value, most))
		// A part in a million of one stock piece is rounding, not gain.
		if most <= valueScale+valueScale/1_000_000 || !t.enter(column) {
			break
		}
	}
	return relaxed{t.column, t.times, bound}
}

// boundFrom turns any values of the pieces into a bound: if no stock piece can
// hold more than most, the demand's worth divided by it is how many are needed
// (dual feasibility). Whole numbers, so rounding cannot overstate it.
func (p problem) boundFrom(value []int, most int) int {
	if most <= 0 {
		return 0
	}
	worth := 0
	for i, v := range value {
		worth += max(0, v) * p.need[i]
	}
	return ceilDiv(worth, most)
}

// tableau is a revised simplex over columns that all cost one stock piece.
// Products are rounded on their own (float64(...)) so that machines which fuse
// multiply and add give the same plan.
type tableau struct {
	inverse [][]float64 // of the basis
	column  [][]int     // basis
	times   []float64   // how often each basic column is used
}

func newTableau(p problem) *tableau {
	m := len(p.size)
	t := &tableau{inverse: make([][]float64, m), column: make([][]int, m), times: make([]float64, m)}
	for i, l := range p.size {
		n := min(p.need[i], p.stock/l)
		t.inverse[i] = make([]float64, m)
		t.inverse[i][i] = 1 / float64(n)
		t.column[i] = make([]int, m)
		t.column[i][i] = n
		t.times[i] = float64(p.need[i]) / float64(n)
	}
	return t
}

// values are the dual prices in billionths of a stock piece, none negative.
func (t *tableau) values() []int {
	value := make([]int, len(t.times))
	for j := range value {
		sum := 0.0
		for i := range t.inverse {
			sum += t.inverse[i][j]
		}
		value[j] = max(0, int(math.Round(float64(sum*valueScale))))
	}
	return value
}

// enter brings a column into the basis; false when nothing can leave.
func (t *tableau) enter(column []int) bool {
	m := len(t.times)
	d := make([]float64, m)
	for i := range d {
		for j, n := range column {
			d[i] += float64(t.inverse[i][j] * float64(n))
		}
	}
	out := -1
	for i := range d {
		// Cross products instead of ratios; ties go to the first row.
		if d[i] > 1e-9 && (out < 0 || float64(t.times[i]*d[out]) < float64(t.times[out]*d[i])-1e-12) {
			out = i
		}
	}
	if out < 0 {
		return false
	}
	t.pivot(out, d)
	t.column[out] = column
	return true
}

func (t *tableau) pivot(out int, d []float64) {
	for j := range t.inverse[out] {
		t.inverse[out][j] /= d[out]
	}
	t.times[out] /= d[out]
	for i := range d {
		if i == out || d[i] == 0 {
			continue
		}
		for j, v := range t.inverse[out] {
			t.inverse[i][j] -= float64(d[i] * v)
		}
		t.times[i] = max(0, t.times[i]-float64(d[i]*t.times[out]))
	}
}
