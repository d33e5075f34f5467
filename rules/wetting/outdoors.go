package wetting

import (
	"fmt"
	"math"
)

// Hour is the weather of an hour, of standard time at the place.
type Hour struct {
	TempC      float64
	DewC       float64 // dew point over water, as stations tell it
	DiffuseWM2 float64 // sun from the sky, on level ground
	DirectWM2  float64 // sun from its direction, on a plane that faces it
	WindMS     float64
	Cloud      float64 // share of the sky that is covered, 0 to 1
}

// Weather is hour by hour from the first of January on.
type Weather struct {
	LatDeg, LonDeg float64 // north and east
	ZoneH          float64 // standard time, hours ahead of Greenwich
	Hours          []Hour
}

// Surface is a face of the house: what it looks at, and how it takes up sun.
type Surface struct {
	AzimuthDeg float64 // from north by east: 180 looks south
	TiltDeg    float64 // 0 a flat roof, 90 a wall
	Absorbs    float64 // share of the sun taken up, 0 to 1
	Emits      float64 // share of what black would give to the sky, 0 to 1
}

// Films and the ground, from memory of common practice: outside 8 + 2 to 4 W for
// each m/s of wind, of which about 4 are radiation to surroundings as warm as
// the air. Vapor follows the heat that air takes (Lewis).
const (
	filmWM2K       = 8.0
	filmPerMS      = 3.0
	radiantWM2K    = 4.0
	groundReflects = 0.2
	stefan         = 5.67e-8 // W/(m2 K4)
	lewisKG        = 1 / (airDensity * airHeat * vaporGas * 283)
)

func (w *Weather) check() error {
	for _, v := range []struct {
		what      string
		x, lo, hi float64
	}{
		{"latitude", w.LatDeg, -90, 90},
		{"longitude", w.LonDeg, -180, 180},
		{"hours ahead of Greenwich", w.ZoneH, -14, 14},
	} {
		if err := need(ErrClimate, v.what, v.x, v.lo, v.hi); err != nil {
			return err
		}
	}
	if n := len(w.Hours); n == 0 || n > maxHours {
		return fmt.Errorf("%w: %d hours; want 1 to %d", ErrClimate, n, maxHours)
	}
	for i := range w.Hours {
		h := &w.Hours[i]
		if err := h.check(); err != nil {
			return fmt.Errorf("hour %d: %w", i, err)
		}
	}
	return nil
}

func (h *Hour) check() error {
	const coldestC, hottestC, driestC, dampestC, mostSun, mostWind = -70, 60, -80, 45, 1400, 100
	switch {
	case !within(h.TempC, coldestC, hottestC):
		return need(ErrClimate, "temperature C", h.TempC, coldestC, hottestC)
	case !within(h.DewC, driestC, dampestC):
		return need(ErrClimate, "dew point C", h.DewC, driestC, dampestC)
	case !within(h.DiffuseWM2, 0, mostSun):
		return need(ErrClimate, "diffuse sun W/m2", h.DiffuseWM2, 0, mostSun)
	case !within(h.DirectWM2, 0, mostSun):
		return need(ErrClimate, "direct sun W/m2", h.DirectWM2, 0, mostSun)
	case !within(h.WindMS, 0, mostWind):
		return need(ErrClimate, "wind m/s", h.WindMS, 0, mostWind)
	case !within(h.Cloud, 0, 1):
		return need(ErrClimate, "share of cloud", h.Cloud, 0, 1)
	}
	return nil
}

// Outside is what a surface meets hour by hour: outdoor air, sun, sky and wind.
// Vapor pressure is held to saturation over ice. ErrClimate.
func (w *Weather) Outside(f Surface) ([]Edge, error) {
	if err := w.check(); err != nil {
		return nil, err
	}
	for _, v := range []struct {
		what      string
		x, lo, hi float64
	}{
		{"azimuth", f.AzimuthDeg, -360, 360},
		{"tilt", f.TiltDeg, 0, 180},
		{"share of sun taken up", f.Absorbs, 0, 1},
		{"share of heat given to the sky", f.Emits, 0, 1},
	} {
		if err := need(ErrClimate, v.what, v.x, v.lo, v.hi); err != nil {
			return nil, err
		}
	}
	out := make([]Edge, len(w.Hours))
	look := f.look()
	for i := range w.Hours {
		h := &w.Hours[i]
		e := &out[i]
		wind := filmWM2K - radiantWM2K + filmPerMS*h.WindMS
		*e = Edge{
			AirC: h.TempC, VaporPa: min(overWater(h.DewC), saturation(h.TempC)), WindMS: h.WindMS,
			HeatWM2K: wind + radiantWM2K, VaporKG: wind * lewisKG,
			AbsorbedWM2: -f.Emits * look.open * h.toSky(),
		}
		if h.DiffuseWM2+h.DirectWM2 > 0 {
			e.AbsorbedWM2 += f.Absorbs * look.sun(h, w.sunAt(i))
		}
	}
	return out, nil
}

// Sheltered is what a face meets that sees neither sun nor sky nor wind: the
// underside of a floor over a vented crawl space.
func (w *Weather) Sheltered() ([]Edge, error) {
	out, err := w.Outside(Surface{TiltDeg: 180})
	for i := range out {
		out[i].HeatWM2K, out[i].VaporKG = filmWM2K, (filmWM2K-radiantWM2K)*lewisKG
	}
	return out, err
}

// overWater is the vapor pressure in Pa at a dew point over water (ISO 13788,
// the branch above 0 C, which meteorology uses below as well).
func overWater(dewC float64) float64 { return 610.5 * math.Exp(17.269*dewC/(237.3+dewC)) }

// toSky is the heat a black level surface as warm as the air loses to the sky,
// W/m2: clear sky after Berdahl and Martin 1984, cloud after Unsworth and
// Monteith 1975, both from memory.
func (h *Hour) toSky() float64 {
	d := h.DewC / 100
	clear := 0.711 + d*(0.56+0.73*d)
	sky := (1-0.84*h.Cloud)*clear + 0.84*h.Cloud
	k := h.TempC + zeroK
	return stefan * k * k * k * k * (1 - sky)
}

// look is the geometry of a surface.
type look struct {
	sky, ground     float64 // shares of the half sphere
	open            float64 // share of the loss to the sky: that near the horizon is warm (Walton 1983, memory)
	north, east, up float64 // where it points
}

func (f Surface) look() look {
	tilt, az := f.TiltDeg*degree, f.AzimuthDeg*degree
	sky := (1 + math.Cos(tilt)) / 2
	return look{
		sky: sky, ground: 1 - sky, open: sky * math.Sqrt(sky),
		north: math.Sin(tilt) * math.Cos(az), east: math.Sin(tilt) * math.Sin(az), up: math.Cos(tilt),
	}
}

// sun is the sun on the surface in W/m2, from its direction, from an even sky
// and off the ground.
func (l look) sun(h *Hour, s sunPosition) float64 {
	facing := max(0, l.north*s.north+l.east*s.east+l.up*s.up)
	level := h.DiffuseWM2 + h.DirectWM2*max(0, s.up)
	if s.up <= 0 {
		facing = 0
	}
	return h.DirectWM2*facing + h.DiffuseWM2*l.sky + groundReflects*level*l.ground
}

const degree = math.Pi / 180

// sunPosition is where the sun stands, as a vector of length 1.
type sunPosition struct{ north, east, up float64 }

// sunAt is the sun in the middle of hour i (Spencer 1971, from memory).
func (w *Weather) sunAt(i int) sunPosition {
	const hoursOfYear = 8760.0
	g := 2 * math.Pi * (float64(i) + 0.5) / hoursOfYear
	s1, c1 := math.Sincos(g)
	s2, c2 := 2*s1*c1, c1*c1-s1*s1
	s3, c3 := s1*c2+c1*s2, c1*c2-s1*s2
	decl := 0.006918 - 0.399912*c1 + 0.070257*s1 - 0.006758*c2 + 0.000907*s2 - 0.002697*c3 + 0.00148*s3
	minutes := 229.18 * (0.000075 + 0.001868*c1 - 0.032077*s1 - 0.014615*c2 - 0.04089*s2)
	hour := float64(i%dayH) + 0.5 + minutes/60 + (w.LonDeg-15*w.ZoneH)/15
	sinH, cosH := math.Sincos((hour - 12) * 15 * degree)
	sinL, cosL := math.Sincos(w.LatDeg * degree)
	sinD, cosD := math.Sincos(decl)
	return sunPosition{
		north: cosL*sinD - sinL*cosD*cosH,
		east:  -cosD * sinH,
		up:    sinL*sinD + cosL*cosD*cosH,
	}
}
