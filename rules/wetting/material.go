package wetting

import "fmt"

// Point is one point of a Curve.
type Point struct{ X, Y float64 }

// Curve is a quantity by points of rising X: straight between them, level
// beyond them.
type Curve []Point

// at is the value at x.
func (c Curve) at(x float64) float64 {
	if x <= c[0].X {
		return c[0].Y
	}
	for i := 1; i < len(c); i++ {
		if a, b := c[i-1], c[i]; x <= b.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return c[len(c)-1].Y
}

// flat is the curve of a quantity that stays as it is.
func flat(y float64) Curve { return Curve{{0, y}} }

// check wants rising X in lowX to highX and Y in lowY to highY.
func (c Curve) check(kind error, what string, highX, lowY, highY float64) error {
	if len(c) == 0 || len(c) > maxPoints {
		return fmt.Errorf("%w: %s has %d points; want 1 to %d", kind, what, len(c), maxPoints)
	}
	last := -1.0
	for _, p := range c {
		if !within(p.X, 0, highX) {
			return need(kind, what+" at", p.X, 0, highX)
		}
		if p.X <= last {
			return fmt.Errorf("%w: %s does not rise at %v", kind, what, p.X)
		}
		if err := need(kind, what, p.Y, lowY, highY); err != nil {
			return err
		}
		last = p.X
	}
	return nil
}

// Limits of what is taken for a material. They are far outside of what is
// built with and only keep impossible input out.
const (
	maxPoints  = 2000
	maxWater   = 1500.0 // kg/m3
	minVapor   = 1e-16  // kg/(m s Pa)
	maxVapor   = 1e-8
	minPerm    = 1e-18 // kg/(m2 s Pa)
	maxPerm    = 1e-5
	maxLiquid  = 1e-3 // m2/s
	minDensity = 0.5  // kg/m3
	maxDensity = 20000
)

// Material is what a layer with a thickness is made of.
type Material struct {
	DensityKGM3   float64
	HeatJKGK      float64 // specific heat, dry
	LambdaWMK     float64 // conductivity, dry
	LambdaPerKGM3 float64 // what it gains for each kg/m3 of water
	Sorption      Curve   // RH 0 to 1 to water in kg/m3, rising; (0, 0) is understood, 1 must be there
	Vapor         Curve   // RH 0 to 1 to vapor permeability in kg/(m s Pa)
	Liquid        Curve   // water in kg/m3 to diffusivity in m2/s, geometric between the points; none: no liquid flow
	FullKGM3      float64 // the most water it holds; what comes after runs off
}

func (m *Material) check() error {
	if m == nil {
		return fmt.Errorf("%w: none given", ErrMaterial)
	}
	for _, v := range []struct {
		what         string
		x, low, high float64
	}{
		{"density kg/m3", m.DensityKGM3, minDensity, maxDensity},
		{"specific heat J/(kg K)", m.HeatJKGK, 50, 10000},
		{"conductivity W/(m K)", m.LambdaWMK, 1e-3, 500},
		{"conductivity for each kg/m3", m.LambdaPerKGM3, 0, 1},
		{"water when full kg/m3", m.FullKGM3, 1e-6, maxWater},
	} {
		if err := need(ErrMaterial, v.what, v.x, v.low, v.high); err != nil {
			return err
		}
	}
	if err := m.checkSorption(); err != nil {
		return err
	}
	if err := m.Vapor.check(ErrMaterial, "vapor permeability", 1, minVapor, maxVapor); err != nil {
		return err
	}
	if len(m.Liquid) == 0 {
		return nil
	}
	return m.Liquid.check(ErrMaterial, "liquid diffusivity", maxWater, 1e-30, maxLiquid)
}

func (m *Material) checkSorption() error {
	if err := m.Sorption.check(ErrMaterial, "sorption", 1, 0, maxWater); err != nil {
		return err
	}
	last := 0.0
	for _, p := range m.Sorption {
		if p.X == 0 && p.Y > 0 {
			return fmt.Errorf("%w: sorption is %v kg/m3 in air without vapor", ErrMaterial, p.Y)
		}
		if p.Y < last {
			return fmt.Errorf("%w: sorption falls at RH %v", ErrMaterial, p.X)
		}
		last = p.Y
	}
	if end := m.Sorption[len(m.Sorption)-1]; end.X != 1 || end.Y > m.FullKGM3 || end.Y == 0 {
		return fmt.Errorf("%w: sorption must end at RH 1 above 0 and not above %v kg/m3 (full)", ErrMaterial, m.FullKGM3)
	}
	return nil
}

// waterAt is the water in kg/m3 at a relative humidity of 0 to 1.
func (m *Material) waterAt(rh float64) float64 {
	first := m.Sorption[0]
	if rh < first.X {
		return first.Y * rh / first.X
	}
	return m.Sorption.at(rh)
}
