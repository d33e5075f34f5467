package rank

import (
	"fmt"
	"slices"
)

// DefaultMaxPieces is the cap on pieces for Shares: several times what twenty
// random options under five priorities need, and well under a second.
const DefaultMaxPieces = 500_000

// Share says in how much of a region of weightings an option wins.
type Share struct {
	ID string
	// Share is 0 to 1; over all options of an answer they add up to 1.
	Share float64
	// Central is the mean of the weightings by which the option wins, the
	// preferences it typically suits; nil if it wins by none.
	Central []float64
}

// Shares gives, exactly but for float rounding, the share of the region in
// which each option of the winner's tier wins, in the order given (first-rank
// acceptability; central weights: Lahdelma, Hokkanen & Salminen, EJOR 106,
// 1998). It is no probability of being right: it says how much hangs on the
// weights alone. Options that cannot be told apart in the region split their
// share evenly.
//
// Work grows fast with options and priorities, so it stops with ErrPieces after
// maxPieces pieces (DefaultMaxPieces when 0 or less) rather than give an
// estimate. ErrNoContender, ErrLength, and as Rank.
func Shares(options []Option, region Region, maxPieces int) ([]Share, error) {
	tier, n, err := contenders(options)
	if err != nil {
		return nil, err
	}
	if n != region.n {
		return nil, fmt.Errorf("%w: region of %d priorities for %d", ErrLength, region.n, n)
	}
	if maxPieces <= 0 {
		maxPieces = DefaultMaxPieces
	}
	out := make([]Share, len(tier))
	for i, o := range tier {
		out[i] = Share{ID: o.ID, Central: make([]float64, n)}
	}
	left := maxPieces
	for _, simplex := range region.simplices {
		left, err = addSimplex(out, tier, simplex, 1/float64(len(region.simplices)), left)
		if err != nil {
			return nil, piecesError(err, maxPieces)
		}
	}
	finish(out)
	return out, nil
}

// addSimplex adds one simplex's volumes, and volume times centre, to out.
func addSimplex(out []Share, tier []Option, simplex [][]float64, volume float64, left int) (int, error) {
	at := scoresAt(tier, simplex)
	alive, twins := survivors(at)
	for _, a := range alive {
		c := newClipper(simplex, at, a, alive, len(out[a].Central))
		c.pieces = left
		if err := c.clip(0, volume); err != nil {
			return 0, err
		}
		left = c.pieces
		same := twins[a]
		for _, i := range same {
			out[i].Share += c.volume / float64(len(same))
			for k, x := range c.centre {
				out[i].Central[k] += x / float64(len(same))
			}
		}
	}
	return left, nil
}

// scoresAt gives every option's score, 0 to 1, at every corner.
func scoresAt(tier []Option, simplex [][]float64) [][]float64 {
	at := make([][]float64, len(tier))
	for i, o := range tier {
		at[i] = make([]float64, len(simplex))
		for v, corner := range simplex {
			for k, w := range corner {
				at[i][v] += w * o.Values[k]
			}
		}
	}
	return at
}

// survivors groups options that are alike at every corner, one of them standing
// for all of its twins, and drops those that another matches at every corner
// and beats at one: a score is linear, so they win nowhere inside either, and
// each option left out makes far fewer pieces.
func survivors(at [][]float64) (alive []int, twins map[int][]int) {
	twins = make(map[int][]int, len(at))
	var distinct []int
	for i := range at {
		lead := slices.IndexFunc(distinct, func(j int) bool {
			worse, better := against(at[i], at[j])
			return !worse && !better
		})
		if lead < 0 {
			lead = len(distinct)
			distinct = append(distinct, i)
		}
		twins[distinct[lead]] = append(twins[distinct[lead]], i)
	}
	for _, i := range distinct {
		beaten := slices.ContainsFunc(distinct, func(j int) bool {
			worse, better := against(at[i], at[j])
			return worse && !better
		})
		if !beaten {
			alive = append(alive, i)
		}
	}
	return alive, twins
}

// against says whether a lies under b anywhere, and over it anywhere.
func against(a, b []float64) (worse, better bool) {
	for v := range a {
		d := settle(a[v] - b[v])
		worse, better = worse || d < 0, better || d > 0
	}
	return worse, better
}

// newClipper prepares the simplex for option a against the others alive.
func newClipper(simplex, at [][]float64, a int, alive []int, n int) *clipper {
	c := &clipper{centre: make([]float64, n)}
	for v, corner := range simplex {
		vert := newVertex(n, len(alive)-1)
		copy(vert.w, corner)
		r := 0
		for _, b := range alive {
			if b != a {
				vert.d[r] = settle(at[a][v] - at[b][v])
				r++
			}
		}
		c.verts = append(c.verts, vert)
	}
	return c
}

// finish turns volume times centre into the centre. The shares are left as
// measured: that they add up to 1 is the proof that no piece was lost.
func finish(out []Share) {
	for i, s := range out {
		if s.Share == 0 {
			out[i].Central = nil
			continue
		}
		for k := range s.Central {
			s.Central[k] /= s.Share
		}
	}
}
