package heat

import "fmt"

// PlaneTemps gives the temperatures at the planes of a stack of layers listed
// from inside to outside, films included, in steady state: the inside air
// first, then after each layer, the outside air last (one more than layers).
// The drop over each layer is its share of the total R. Any one temperature
// scale, the same out as in.
//
// Errors: ErrOutOfRange, ErrNoResistance.
func PlaneTemps(layersR []float64, inside, outside float64) ([]float64, error) {
	total, err := SeriesR(layersR)
	if err != nil {
		return nil, err
	}
	if err := temperature("inside temperature", inside); err != nil {
		return nil, err
	}
	if err := temperature("outside temperature", outside); err != nil {
		return nil, err
	}
	if total < leastR {
		return nil, fmt.Errorf("%w: %d layers", ErrNoResistance, len(layersR))
	}
	planes := make([]float64, 1, len(layersR)+1)
	planes[0] = inside
	passed := 0.0
	for _, r := range layersR {
		passed += r
		planes = append(planes, inside+(outside-inside)*(passed/total))
	}
	return planes, nil
}
