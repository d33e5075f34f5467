package heat

import (
	"fmt"
	"math"
)

// Below grade the way through the soil to the open air is longer the deeper
// one goes, so U falls with depth. soilK is the conductivity of the soil in
// Btu/(h.ft.F), 0.3 to 1.4 in practice, 0.8 where nothing better is known;
// depths and widths are in feet. The temperature difference that belongs to
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

// GroundFloorU is the mean U of a floor depthFt below grade whose shorter side
// is widthFt; floorR is everything between soil and inside air.
//
//	U = 2k/(pi w) ln[(w/2+z/2+kR/pi)/(z/2+kR/pi)]
//
// (same handbook). Errors: ErrOutOfRange, ErrNoResistance.
func GroundFloorU(soilK, depthFt, widthFt, floorR float64) (float64, error) {
	err := positive(named{"soil conductivity", soilK}, named{"floor width", widthFt})
	if err != nil {
		return 0, err
	}
	if err := amounts(named{"floor depth", depthFt}, named{"floor R", floorR}); err != nil {
		return 0, err
	}
	start := depthFt/2 + soilK*floorR/math.Pi
	if start < leastR {
		return 0, fmt.Errorf("%w: bare floor at grade", ErrNoResistance)
	}
	return 2 * soilK / (math.Pi * widthFt) * math.Log1p(widthFt/2/start), nil
}

// GroundPathFt is the length of the quarter circle through the soil from a
// point depthFt below grade to the surface. Error: ErrOutOfRange.
func GroundPathFt(depthFt float64) (float64, error) {
	if err := amounts(named{"depth", depthFt}); err != nil {
		return 0, err
	}
	return math.Pi / 2 * depthFt, nil
}

// GroundPathU is the U at one depth by the older way, foot by foot: the length
// of the soil path over its conductivity, behind the wall. Use it for the
// strip of wall in the middle of which the path starts.
//
// Errors: ErrOutOfRange, ErrNoResistance.
func GroundPathU(soilK, pathFt, wallR float64) (float64, error) {
	if err := positive(named{"soil conductivity", soilK}); err != nil {
		return 0, err
	}
	if err := amounts(named{"soil path", pathFt}, named{"wall R", wallR}); err != nil {
		return 0, err
	}
	r := wallR + pathFt/soilK
	if r < leastR {
		return 0, fmt.Errorf("%w: no soil and no wall", ErrNoResistance)
	}
	return 1 / r, nil
}
