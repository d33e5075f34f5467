package rank

import "slices"

// Drawn gives every weighting that the shares at these levels rest on.
func Drawn(levels []float64) [][]float64 {
	d := newDrawer(levels)
	out := make([][]float64, draws)
	for i := range out {
		out[i] = slices.Clone(d.next())
	}
	return out
}
