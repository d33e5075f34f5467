package heat

import "fmt"

// MaxPaths is how many combined paths an assembly may have: four bridged
// layers of eight parts each, more than any wall drawn by hand.
const MaxPaths = 4096

// Path is one straight way through an assembly: the share of the area it takes
// (0 to 1) and the R of everything it passes, films included.
type Path struct {
	Share  float64
	Layers []float64
}

// ParallelU is the transmittance of paths side by side, U = sum(share/R).
// Never average R itself by area: that overstates a framed wall.
//
// Errors: ErrOutOfRange, ErrShares, ErrNoResistance.
func ParallelU(paths []Path) (float64, error) {
	u, sum := 0.0, 0.0
	for i, p := range paths {
		if !(p.Share >= 0 && p.Share <= 1) {
			return 0, fmt.Errorf("path %d: %w: one is %v", i+1, ErrShares, p.Share)
		}
		sum += p.Share
		r, err := SeriesR(p.Layers)
		if err != nil {
			return 0, fmt.Errorf("path %d: %w", i+1, err)
		}
		if p.Share == 0 {
			continue
		}
		if r < leastR {
			return 0, fmt.Errorf("path %d: %w", i+1, ErrNoResistance)
		}
		u += p.Share / r
	}
	return u, whole(sum)
}

// ParallelR is 1/ParallelU.
func ParallelR(paths []Path) (float64, error) {
	u, err := ParallelU(paths)
	if err != nil {
		return 0, err
	}
	return 1 / u, nil
}

// SeriesR is the sum of resistances one behind the other.
func SeriesR(layersR []float64) (float64, error) {
	r := 0.0
	for _, l := range layersR {
		if err := amounts(named{"R", l}); err != nil {
			return 0, err
		}
		r += l
	}
	return r, within("R in all", r, 0, limit)
}

// Paths lists the combined paths of an assembly, bridged layers lying across
// each other. Parts that take no area are left out.
//
// Errors: ErrOutOfRange, ErrShares, ErrTooManyPaths.
func Paths(layers []Layer) ([]Path, error) {
	if err := checkLayers(layers); err != nil {
		return nil, err
	}
	paths := []Path{{Share: 1}}
	for _, l := range layers {
		next := make([]Path, 0, len(paths)*len(l))
		for _, before := range paths {
			for _, p := range l {
				if p.Share == 0 {
					continue
				}
				rs := append(append(make([]float64, 0, len(layers)), before.Layers...), p.R)
				next = append(next, Path{Share: before.Share * p.Share, Layers: rs})
			}
		}
		paths = next
	}
	return paths, nil
}

// Surface is an area in ft2 with its transmittance, such as the opaque part of
// a wall or its windows.
type Surface struct{ AreaFt2, U float64 }

// TotalUA adds up area times U, Btu/(h.F), and gives the mean U over the whole
// area. Errors: ErrOutOfRange, also when there is no area.
func TotalUA(surfaces []Surface) (ua, meanU float64, err error) {
	area := 0.0
	for _, s := range surfaces {
		if err := amounts(named{"area", s.AreaFt2}, named{"U", s.U}); err != nil {
			return 0, 0, err
		}
		area += s.AreaFt2
		ua += s.AreaFt2 * s.U
	}
	if err := positive(named{"area in all", area}); err != nil {
		return 0, 0, err
	}
	return ua, ua / area, nil
}
