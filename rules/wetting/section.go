package wetting

import (
	"fmt"
	"math"
	"slices"
)

// Layer is one layer of a section: a material with a thickness, a sheet
// without one, or air.
type Layer struct {
	Of     *Material // nil for a sheet or air; layers next to each other of the same material pass liquid
	Sheet  Curve     // RH 0 to 1 to permeance in kg/(m2 s Pa)
	Air    *Air
	ThickM float64 // 0 for a sheet
	Cells  int     // equal cells it is cut into; 0: fine at its faces, coarse between them
}

// Air is a layer of air. Each of its faces hands over heat and vapor; moving
// air is changed with the air outdoors.
type Air struct {
	FaceWM2K     float64 // heat, each face
	FaceKG       float64 // vapor, each face, kg/(m2 s Pa)
	PerHour      float64 // air changes an hour
	PerHourPerMS float64 // and more of them for each m/s of wind
}

// Leak is air of the room that comes through holes. Where it meets a material
// it brings vapor there while the room has the higher vapor pressure, and never
// dries or warms: the unkind half of what leaks do. A layer of air it both
// wets and dries, warms and cools.
type Leak struct {
	Layer int     // at the room side of this layer
	M3M2H float64 // cubic meters an hour for each square meter
}

// Watch is a plane that is watched for mold. Plane k is the room side of layer
// k; the last is the outer face.
type Watch struct {
	Plane int
	Class Class
}

// Skin is the part of a layer whose water is watched: so deep from its room
// side, or from its outer side. One for each layer.
type Skin struct {
	Layer  int
	DepthM float64
	Outer  bool
}

// Section is a cut through a wall, floor or roof, from the room outwards.
type Section struct {
	Layers  []Layer
	Leaks   []Leak
	Watch   []Watch
	Skins   []Skin
	StartC  float64 // everything begins at this temperature
	StartRH float64 // and in balance with this humidity, 0 to 1
	Fine    int     // each cell is cut into so many; 0 and 1: not cut
}

// Limits of a section.
const (
	maxLayers = 80
	maxCells  = 400
	maxThickM = 50.0
	minThickM = 1e-4
)

func (sec *Section) check() error {
	if n := len(sec.Layers); n == 0 || n > maxLayers {
		return fmt.Errorf("%w: %d layers; want 1 to %d", ErrSection, n, maxLayers)
	}
	cells := 0
	for i := range sec.Layers {
		if err := sec.Layers[i].Check(); err != nil {
			return fmt.Errorf("layer %d: %w", i, err)
		}
		if sec.Layers[i].ThickM > 0 {
			cells++
		}
	}
	if cells == 0 {
		return fmt.Errorf("%w: no layer has a thickness", ErrSection)
	}
	if err := need(ErrSection, "pieces of a cell", float64(sec.Fine), 0, 16); err != nil {
		return err
	}
	if err := need(ErrSection, "start C", sec.StartC, -60, 90); err != nil {
		return err
	}
	if err := need(ErrSection, "start RH", sec.StartRH, 0, 1); err != nil {
		return err
	}
	return sec.checkMarks()
}

// Check says what is impossible about a layer: ErrSection, ErrMaterial.
func (l *Layer) Check() error {
	kinds := 0
	for _, is := range []bool{l.Of != nil, len(l.Sheet) > 0, l.Air != nil} {
		if is {
			kinds++
		}
	}
	if kinds != 1 {
		return fmt.Errorf("%w: a layer is a material, a sheet or air, one of them", ErrSection)
	}
	if err := need(ErrSection, "cells", float64(l.Cells), 0, maxCells); err != nil {
		return err
	}
	if len(l.Sheet) > 0 {
		if l.ThickM != 0 {
			return fmt.Errorf("%w: a sheet has no thickness", ErrSection)
		}
		return l.Sheet.check(ErrSection, "permeance", 1, minPerm, maxPerm)
	}
	if err := need(ErrSection, "thickness m", l.ThickM, minThickM, maxThickM); err != nil {
		return err
	}
	if l.Of != nil {
		return l.Of.check()
	}
	return l.Air.check()
}

func (a *Air) check() error {
	for _, v := range []struct {
		what      string
		x, lo, hi float64
	}{
		{"heat of an air face W/(m2 K)", a.FaceWM2K, 0.01, 1000},
		{"vapor of an air face", a.FaceKG, minPerm, maxPerm},
		{"air changes an hour", a.PerHour, 0, 1e5},
		{"air changes for each m/s", a.PerHourPerMS, 0, 1e5},
	} {
		if err := need(ErrSection, v.what, v.x, v.lo, v.hi); err != nil {
			return err
		}
	}
	return nil
}

// solid is the layer if it has a thickness.
func (sec *Section) solid(i int) (*Layer, error) {
	if i < 0 || i >= len(sec.Layers) || sec.Layers[i].ThickM == 0 {
		return nil, fmt.Errorf("%w: there is no layer %d with a thickness", ErrSection, i)
	}
	return &sec.Layers[i], nil
}

func (sec *Section) checkMarks() error {
	if len(sec.Leaks) > maxLayers || len(sec.Watch) > maxLayers || len(sec.Skins) > maxLayers {
		return fmt.Errorf("%w: more than %d leaks, planes or skins", ErrSection, maxLayers)
	}
	for _, k := range sec.Leaks {
		if _, err := sec.solid(k.Layer); err != nil {
			return err
		}
		if err := need(ErrSection, "leak m3/(m2 h)", k.M3M2H, 0, 100); err != nil {
			return err
		}
	}
	for _, w := range sec.Watch {
		if w.Plane < 0 || w.Plane > len(sec.Layers) {
			return fmt.Errorf("%w: there is no plane %d", ErrSection, w.Plane)
		}
		if !w.Class.valid() {
			return fmt.Errorf("%w: plane %d has no mold class", ErrSection, w.Plane)
		}
	}
	for i, k := range sec.Skins {
		l, err := sec.solid(k.Layer)
		if err != nil {
			return err
		}
		if s := sec.skinOf(k.Layer); s != &sec.Skins[i] {
			return fmt.Errorf("%w: layer %d has two skins", ErrSection, k.Layer)
		}
		if l.Of == nil || l.Cells != 0 {
			return fmt.Errorf("%w: a skin belongs to a material that is not cut by hand", ErrSection)
		}
		if err := need(ErrSection, "depth of a skin m", k.DepthM, minThickM, l.ThickM); err != nil {
			return err
		}
	}
	return nil
}

// skinOf is the skin of layer i, nil if none.
func (sec *Section) skinOf(i int) *Skin {
	for k := range sec.Skins {
		if sec.Skins[k].Layer == i {
			return &sec.Skins[k]
		}
	}
	return nil
}

// Shares of a layer that its cells take. Thin layers are halved; thick ones are
// fine at both faces, where condensate gathers and swings end.
const thinM = 0.02

var gradedShares = [...]float64{0.05, 0.2, 0.5, 0.2, 0.05}

// cut gives the thickness of the cells of layer i in m.
func (sec *Section) cut(i int) []float64 {
	l, out := &sec.Layers[i], []float64{}
	skin := sec.skinOf(i)
	switch {
	case l.Air != nil:
		return []float64{l.ThickM}
	case l.Cells > 0:
		for range l.Cells {
			out = append(out, l.ThickM/float64(l.Cells))
		}
	case skin != nil:
		out = append(out, skin.DepthM/3, skin.DepthM*2/3)
		if rest := l.ThickM - skin.DepthM; rest > minThickM {
			out = append(out, rest/2, rest/2)
		}
		if skin.Outer {
			slices.Reverse(out)
		}
	case l.ThickM <= thinM:
		out = append(out, l.ThickM)
	default:
		for _, share := range gradedShares {
			out = append(out, l.ThickM*share)
		}
	}
	if sec.Fine < 2 {
		return out
	}
	fine := make([]float64, 0, len(out)*sec.Fine)
	for _, d := range out {
		for range sec.Fine {
			fine = append(fine, d/float64(sec.Fine))
		}
	}
	return fine
}

// airMaterial stands for a layer of air: its faces are written as the
// permeability and conductivity of half its thickness. The vapor it holds is
// that at 20 C, its fog at most fogKGM3.
func airMaterial(a *Air, thickM float64) *Material {
	const holds, fogKGM3 = 0.0173, 0.05 // kg/m3
	return &Material{
		DensityKGM3: airDensity, HeatJKGK: airHeat,
		LambdaWMK: a.FaceWM2K * thickM / 2,
		Sorption:  Curve{{1, holds}},
		Vapor:     flat(a.FaceKG * thickM / 2),
		FullKGM3:  holds + fogKGM3,
	}
}

// Constants of physics: those of EN 15026, from memory, which agree with the
// inputs of its benchmark as read.
const (
	latentJKG  = 2.5e6  // heat of evaporation
	waterJKGK  = 4186.0 // specific heat of water
	vaporGas   = 461.5  // gas constant of vapor, J/(kg K)
	zeroK      = 273.15 // 0 C
	airDensity = 1.2    // kg/m3
	airHeat    = 1000.0 // J/(kg K)
	secPerHour = 3600.0
)

// Edge is what a face of the section meets for an hour. Films may be infinite:
// the face is then held at the temperature and humidity of the air, and a
// capillary material drinks there.
type Edge struct {
	AirC        float64
	VaporPa     float64
	AbsorbedWM2 float64 // sun taken up less what goes to the sky
	HeatWM2K    float64 // film, heat
	VaporKG     float64 // film, vapor, kg/(m2 s Pa)
	WindMS      float64 // moves the air of vented layers; outdoors only
}

func (e *Edge) check(i int) error {
	film := func(x, low, high float64) bool { return within(x, low, high) || math.IsInf(x, 1) }
	switch {
	case !within(e.AirC, -75, 110):
		return fmt.Errorf("%w: hour %d: air of %v C; want -75 to 110", ErrClimate, i, e.AirC)
	case !within(e.VaporPa, 0, 2e4):
		return fmt.Errorf("%w: hour %d: vapor pressure %v Pa; want 0 to 20000", ErrClimate, i, e.VaporPa)
	case !within(e.AbsorbedWM2, -400, 1500):
		return fmt.Errorf("%w: hour %d: %v W/m2 on the face; want -400 to 1500", ErrClimate, i, e.AbsorbedWM2)
	case !film(e.HeatWM2K, 0.05, 1000):
		return fmt.Errorf("%w: hour %d: film of %v W/(m2 K); want 0.05 to 1000", ErrClimate, i, e.HeatWM2K)
	case !film(e.VaporKG, minPerm, maxPerm):
		return fmt.Errorf("%w: hour %d: film of %v kg/(m2 s Pa); want %v to %v", ErrClimate, i, e.VaporKG, minPerm, maxPerm)
	case !within(e.AirC+e.AbsorbedWM2/e.HeatWM2K, -95, 200):
		return fmt.Errorf("%w: hour %d: %v W/m2 on a face with a film of %v W/(m2 K)", ErrClimate, i, e.AbsorbedWM2, e.HeatWM2K)
	case !within(e.WindMS, 0, 100):
		return fmt.Errorf("%w: hour %d: wind %v m/s; want 0 to 100", ErrClimate, i, e.WindMS)
	}
	return nil
}
