package budget

import "math"

// cells is how finely the spread of a total is divided. The work grows with
// its square: some milliseconds for any number of lines.
const cells = 2048

// grid is the distribution of a sum of prices, measured from its low end,
// taken as straight between grid points. Spreading each price over grid points
// keeps its mean and widens it a little, the more the more lines there are;
// mean and sd are those of the grid, so that a reader can undo the widening.
type grid struct {
	step     float64
	share    []float64
	mean, sd float64
}

func newGrid(lines []triangle, step float64) grid {
	g := grid{step: step, share: convolve(lines, step)}
	for k := range cells {
		g.mean += (g.share[k+1] - g.share[k]) * (float64(k) + 0.5)
	}
	variance := 1.0 / 12 // of a cell, evenly filled
	for k := range cells {
		off := float64(k) + 0.5 - g.mean
		variance += (g.share[k+1] - g.share[k]) * off * off
	}
	g.mean *= step
	g.sd = math.Sqrt(variance) * step
	return g
}

// at reads the distribution, 0 and 1 beyond the ends.
func (g grid) at(x float64) float64 {
	at := x / g.step
	if at <= 0 {
		return 0
	}
	if at >= cells {
		return 1
	}
	k := int(at)
	return g.share[k] + (at-float64(k))*(g.share[k+1]-g.share[k])
}

// convolve gives the distribution of the sum at 0, step, 2 step ...
func convolve(lines []triangle, step float64) []float64 {
	now, next := make([]float64, cells+1), make([]float64, cells+1)
	for j := range now {
		now[j] = lines[0].share(float64(j) * step)
	}
	full := reachOf(lines[0], step) // from here on the distribution is 1
	for _, l := range lines[1:] {
		w := weights(l, step)
		full += len(w) - 1
		for j := range next {
			next[j] = 1
			if j < full {
				next[j] = average(now, w, j)
			}
		}
		now, next = next, now
	}
	now[cells] = 1
	return now
}

func average(share, w []float64, j int) float64 {
	sum := 0.0
	for k := range min(len(w), j+1) {
		sum += w[k] * share[j-k]
	}
	return min(sum, 1)
}

// weights spreads one price over the grid so that averaging a function that
// is straight between grid points comes out exact: the integral of the density
// times a tent of one step either side, which is a second difference of area.
func weights(l triangle, step float64) []float64 {
	w := make([]float64, reachOf(l, step)+1)
	before, here := 0.0, 0.0
	for k := range w {
		after := l.area(float64(k+1) * step)
		w[k] = max(0, (after-2*here+before)/step)
		before, here = here, after
	}
	return w
}

func reachOf(l triangle, step float64) int {
	return min(int(math.Ceil(l.width/step)), cells)
}
