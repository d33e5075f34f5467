package heat

import (
	"fmt"
	"math"
)

// Below grade the way through the soil to the open air is longer the deeper
// one goes, so U falls with depth. soilK is the conductivity of the soil in
// Btu/(h.ft.F), 0.3 to 1.4 in practice, 0.8 where nothing better is known;
// depths are in feet. The temperature difference that belongs to
// these U runs from inside air to the ground surface at its coldest (its yearly
// mean less half its yearly swing), not to the design temperature of the air.

// GroundWallU is the mean U of a wall from topFt to bottomFt below grade.
// wallR is everything between soil and inside air, film included. Soil is
// taken along quarter circles to the surface:
//
//	U = 2k/(pi(z2-z1)) ln[(z2+2kR/pi)/(z1+2kR/pi)]
//
// (ASHRAE Handbook of Fundamentals, chapter 17, since 2009).
//
// Errors: ErrOutOfRange, ErrDepths, ErrNoResistance for a bare wall from grade
// without any R.
func GroundWallU(soilK, topFt, bottomFt, wallR float64) (float64, error) {
	if err := positive(named{"soil conductivity", soilK}); err != nil {
		return 0, err
	}
	err := amounts(named{"upper depth", topFt}, named{"lower depth", bottomFt}, named{"wall R", wallR})
	if err != nil {
		return 0, err
	}
	if bottomFt <= topFt {
		return 0, fmt.Errorf("%w: %v to %v ft", ErrDepths, topFt, bottomFt)
	}
	// The wall counts as that much more soil in front of it.
	start := topFt + 2*soilK*wallR/math.Pi
	if start < leastR {
		return 0, fmt.Errorf("%w: bare wall at grade", ErrNoResistance)
	}
	height := bottomFt - topFt
	return 2 * soilK / (math.Pi * height) * math.Log1p(height/start), nil
}
