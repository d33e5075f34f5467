package budget

import (
	"math/big"
)

// An exact distribution of a sum, to check the grid against. Every density
// made of straight pieces is a sum of terms weight x (x - at)^(power-1) /
// (power-1)! right of `at`; adding independent prices multiplies such sums
// term by term (weights times, places and powers plus). All in fractions.
type term struct {
	weight *big.Rat
	at     int64
	power  int
}

// lawUniform is flat on 0 to 1 times unit.
func lawUniform(unit int64) []term {
	h := big.NewRat(1, unit)
	return []term{{h, 0, 1}, {new(big.Rat).Neg(h), unit, 1}}
}

// lawTriangle takes modes at an end too: there the density jumps.
func lawTriangle(low, mode, high int64) []term {
	w := high - low
	if w == 0 {
		return []term{{big.NewRat(1, 1), low, 0}}
	}
	var terms []term
	add := func(num, den int64, at int64, power int) {
		terms = append(terms, term{big.NewRat(num, 1).Quo(big.NewRat(num, 1), big.NewRat(den, 1)), at, power})
	}
	if mode > low {
		add(2, w*(mode-low), low, 2)
		add(-2, w*(mode-low), mode, 2)
	} else {
		add(2, w, low, 1)
	}
	if mode < high {
		add(-2, w*(high-mode), mode, 2)
		add(2, w*(high-mode), high, 2)
	} else {
		add(-2, w, high, 1)
	}
	return terms
}

// exactShare is P(sum of the laws <= x).
func exactShare(laws [][]term, x int64) *big.Rat {
	type key struct {
		at    int64
		power int
	}
	sum := map[key]*big.Rat{{0, 0}: big.NewRat(1, 1)}
	for _, law := range laws {
		next := map[key]*big.Rat{}
		for k, weight := range sum {
			for _, t := range law {
				nk := key{k.at + t.at, k.power + t.power}
				part := new(big.Rat).Mul(weight, t.weight)
				if old, ok := next[nk]; ok {
					part.Add(part, old)
				}
				next[nk] = part
			}
		}
		sum = next
	}
	total := new(big.Rat)
	for k, weight := range sum {
		if x < k.at {
			continue
		}
		part := new(big.Rat).Set(weight)
		for n := range k.power {
			part.Mul(part, big.NewRat(x-k.at, int64(n)+1))
		}
		total.Add(total, part)
	}
	return total
}
