package rank_test

import (
	"math/big"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

// exactShares measures the shares of one simplex in fractions, without any
// rounding: an oracle for the float answer. corners and values are fractions.
// It keeps no cut corners: no option is dropped first, none stands for another.
func exactShares(corners, values [][]*big.Rat) (shares []*big.Rat, centres [][]*big.Rat) {
	for a := range values {
		total, centre := new(big.Rat), zeros(len(corners[0]))
		lead := func(w []*big.Rat, b int) *big.Rat {
			sum := new(big.Rat)
			for k := range w {
				d := new(big.Rat).Sub(values[a][k], values[b][k])
				sum.Add(sum, d.Mul(d, w[k]))
			}
			return sum
		}
		var cut func(verts [][]*big.Rat, b int, volume *big.Rat)
		cut = func(verts [][]*big.Rat, b int, volume *big.Rat) {
			if b == len(values) {
				total.Add(total, volume)
				for _, v := range verts {
					for k := range v {
						x := new(big.Rat).Mul(v[k], volume)
						centre[k].Add(centre[k], x.Quo(x, big.NewRat(int64(len(verts)), 1)))
					}
				}
				return
			}
			// The first corner ahead and the first behind, rather than the
			// extreme ones: the pieces differ from those of the code under test.
			p, n := -1, -1
			for i, v := range verts {
				switch s := lead(v, b).Sign(); {
				case s > 0 && p < 0:
					p = i
				case s < 0 && n < 0:
					n = i
				}
			}
			switch {
			case n < 0:
				cut(verts, b+1, volume)
				return
			case p < 0:
				return
			}
			dp, dn := lead(verts[p], b), lead(verts[n], b)
			t := new(big.Rat).Quo(dp, new(big.Rat).Sub(dp, dn))
			rest := new(big.Rat).Sub(big.NewRat(1, 1), t)
			q := make([]*big.Rat, len(verts[p]))
			for k := range q {
				x, y := new(big.Rat).Mul(rest, verts[p][k]), new(big.Rat).Mul(t, verts[n][k])
				q[k] = x.Add(x, y)
			}
			cut(with(verts, n, q), b, new(big.Rat).Mul(volume, t))
			cut(with(verts, p, q), b, new(big.Rat).Mul(volume, rest))
		}
		cut(corners, 0, big.NewRat(1, 1))
		shares, centres = append(shares, total), append(centres, centre)
	}
	return shares, centres
}

func with(verts [][]*big.Rat, i int, v []*big.Rat) [][]*big.Rat {
	out := append([][]*big.Rat(nil), verts...)
	out[i] = v
	return out
}

func zeros(n int) []*big.Rat {
	out := make([]*big.Rat, n)
	for k := range out {
		out[k] = new(big.Rat)
	}
	return out
}

// unitCorners spans all weightings, orderCorners those that fall from first to last.
func unitCorners(n int) [][]*big.Rat {
	var out [][]*big.Rat
	for k := range n {
		c := zeros(n)
		c[k].SetInt64(1)
		out = append(out, c)
	}
	return out
}

func orderCorners(n int) [][]*big.Rat {
	var out [][]*big.Rat
	for k := range n {
		c := zeros(n)
		for j := range k + 1 {
			c[j].SetFrac64(1, int64(k+1))
		}
		out = append(out, c)
	}
	return out
}

func exactCase(t *testing.T, p published) [][]*big.Rat {
	t.Helper()
	var values [][]*big.Rat
	for _, row := range p.WorkedCase.Values {
		var v []*big.Rat
		for _, s := range row {
			v = append(v, rat(t, s))
		}
		values = append(values, v)
	}
	return values
}

// The worked case in fractions: the oracle reproduces the recomputed shares to
// the last digit, they add up to exactly 1, and their centres to exactly the
// centre of the region, which is (1/5, ..) and the rank-order-centroid row.
func TestWorkedCaseSharesInFractions(t *testing.T) {
	p := load(t)
	values, roc := exactCase(t, p), zeros(5)
	for _, row := range p.CentroidWeights {
		if row.Priorities == 5 {
			for k, s := range row.Weights {
				roc[k] = rat(t, s)
			}
		}
	}
	fifth := zeros(5)
	for k := range fifth {
		fifth[k].SetFrac64(1, 5)
	}
	for _, c := range []struct {
		corners [][]*big.Rat
		rows    []shareRow
		centre  []*big.Rat
	}{{unitCorners(5), p.WorkedCase.SharesAny, fifth}, {orderCorners(5), p.WorkedCase.SharesInOrder, roc}} {
		shares, centres := exactShares(c.corners, values)
		sum, centre := new(big.Rat), zeros(5)
		for a, s := range shares {
			require.Zero(t, s.Cmp(rat(t, c.rows[a].Share)), "option %d: %s", a, s)
			sum.Add(sum, s)
			for k := range centre {
				centre[k].Add(centre[k], centres[a][k])
			}
		}
		require.Equal(t, "1/1", sum.String())
		for k := range centre {
			require.Zero(t, centre[k].Cmp(c.centre[k]), "priority %d: %s", k, centre[k])
		}
	}
}

// Random problems in whole hundredths: floats against fractions.
func TestSharesAgainstFractions(t *testing.T) {
	rng := seeded(12)
	for i := range 24 {
		n, m := 2+rng.IntN(3), 2+rng.IntN(3)
		values, floats := make([][]*big.Rat, m), make([][]float64, m)
		for a := range values {
			for range n {
				x := rng.Int64N(101)
				values[a] = append(values[a], big.NewRat(x, 100))
				floats[a] = append(floats[a], float64(x)/100)
			}
		}
		region, err := rank.AnyWeights(n)
		corners := unitCorners(n)
		if i%2 == 1 {
			levels := make([]float64, n)
			for k := range levels {
				levels[k] = float64(n - k)
			}
			region, err = rank.InOrder(levels)
			corners = orderCorners(n)
		}
		require.NoError(t, err)
		got, err := rank.Shares(asOptions(floats), region, 0)
		require.NoError(t, err)
		want, centres := exactShares(corners, values)
		for a, s := range got {
			exact, _ := want[a].Float64()
			require.InDelta(t, exact, s.Share, 1e-12)
			for k := range s.Central {
				x, _ := new(big.Rat).Quo(centres[a][k], want[a]).Float64()
				require.InDelta(t, x, s.Central[k], 1e-9)
			}
			require.Equal(t, want[a].Sign() == 0, s.Central == nil)
		}
	}
}
