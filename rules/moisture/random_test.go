package moisture

import (
	"math"
	"math/rand/v2"
)

// The random assemblies and climates of the property tests. Every test seeds
// its own source, so a failure comes back.

func seeded(n uint64) *rand.Rand { return rand.New(rand.NewPCG(n, 20)) }

func uniform(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// logBetween spreads over the decades, as vapour resistances do.
func logBetween(r *rand.Rand, lo, hi float64) float64 {
	return math.Exp(uniform(r, math.Log(lo), math.Log(hi)))
}

// anyLayers has 1 to 5 layers, some of them sheets without R, some without
// vapour resistance, some that open when wet.
func anyLayers(r *rand.Rand, opening bool) []Layer {
	layers := make([]Layer, 1+r.IntN(5))
	for i := range layers {
		l := Layer{RM2KW: uniform(r, 0, 2), SdM: logBetween(r, 0.02, 20), Sensitive: r.IntN(2) == 0}
		switch r.IntN(6) {
		case 0:
			l.RM2KW = 0
		case 1:
			if i > 0 { // one layer has to hold something back
				l.SdM = 0
			}
		}
		if opening && l.SdM > 0 && r.IntN(3) == 0 {
			l.SdDryingM = l.SdM * uniform(r, 0.1, 1)
		}
		layers[i] = l
	}
	return layers
}

// anyMonths is a year with a summer and a winter, some irregularity, and a
// room damper than outdoors.
func anyMonths(r *rand.Rand) [Months]Month {
	var air Series
	mean, swing := uniform(r, -5, 22), uniform(r, 2, 18)
	for m := range Months {
		air.TempC[m] = mean - swing*math.Cos(2*math.Pi*float64(m)/Months) + uniform(r, -2, 2)
		air.Pa[m] = uniform(r, 0.5, 1) * satPa(air.TempC[m])
	}
	in := kept()
	in.Class = Class(uniform(r, 2, 8))
	in.Cooled = r.IntN(2) == 0
	room, err := in.Months(air)
	if err != nil {
		panic(err) // the ranges above are all valid
	}
	return Join(room, air)
}
