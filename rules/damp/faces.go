package damp

import (
	"fmt"
	"math"
	"sync"

	"battwright/rules/catalog"
	"battwright/rules/moisture"
	"battwright/rules/wetting"
)

// kept works each thing out once, whoever asks, and keeps it.
type kept[T any] struct {
	mu  sync.Mutex
	all map[string]func() (T, error)
}

func (k *kept[T]) of(key string, work func() (T, error)) (T, error) {
	k.mu.Lock()
	if k.all == nil {
		k.all = map[string]func() (T, error){}
	}
	once, ok := k.all[key]
	if !ok {
		once = sync.OnceValues(work)
		k.all[key] = once
	}
	k.mu.Unlock()
	return once()
}

// face is what an outer face meets, with a name.
type face struct {
	name string
	at   string // key
	out  []wetting.Edge
}

// Azimuths of walls and slopes.
const (
	north = 0.0
	west  = 270.0
)

// sides are where the sunniest wall or slope may look, warmest guess first.
var sides = []float64{180, 135, 225, 90, west, north}

func (j *Judge) station(at catalog.Climate) (wetting.Weather, error) {
	return j.stations.of(at.ID, func() (wetting.Weather, error) { return j.c.Hours(at) })
}

func (j *Judge) outside(at catalog.Climate, f wetting.Surface) (face, error) {
	key := fmt.Sprintf("%s %+v", at.ID, f)
	return j.faces.of(key, func() (face, error) {
		w, err := j.station(at)
		if err != nil {
			return face{}, err
		}
		out, err := w.Outside(f)
		return face{"", key, out}, err
	})
}

// sunniest is where a wall or slope gets the most sun in a year.
func (j *Judge) sunniest(at catalog.Climate, f wetting.Surface) (float64, error) {
	return j.sunny.of(fmt.Sprintf("%s %+v", at.ID, f), func() (float64, error) {
		best, most := sides[0], math.Inf(-1)
		for _, azimuth := range sides {
			f.AzimuthDeg = azimuth
			x, err := j.outside(at, f)
			if err != nil {
				return 0, err
			}
			sum := 0.0
			for i := range x.out {
				sum += x.out[i].AbsorbedWM2
			}
			if sum > most {
				best, most = azimuth, sum
			}
		}
		return best, nil
	})
}

// facesOf are what the outer face of a section meets.
func (j *Judge) facesOf(h House, sec *catalog.DampSection, pitchDeg *float64) ([]face, error) {
	l := j.layers
	switch sec.Faces {
	case catalog.FacesSheltered:
		key := h.Climate.ID + " sheltered"
		x, err := j.faces.of(key, func() (face, error) {
			w, err := j.station(h.Climate)
			if err != nil {
				return face{}, err
			}
			out, err := w.Sheltered()
			return face{"underside", key, out}, err
		})
		return []face{x}, err
	case catalog.FacesSoil:
		x, err := j.soil(h)
		return []face{x}, err
	case catalog.FacesWalls:
		return j.turned(h, wetting.Surface{TiltDeg: 90, Absorbs: l.AbsorbsSiding, Emits: l.Emits}, "wall", north, west)
	}
	var out []face
	pitches := []float64{l.LowPitchDeg, l.HighPitchDeg}
	if pitchDeg != nil {
		pitches = []float64{*pitchDeg}
	}
	for _, deg := range pitches {
		more, err := j.turned(h, wetting.Surface{TiltDeg: deg, Absorbs: l.AbsorbsRoof, Emits: l.Emits}, fmt.Sprintf("slope of %.0f degrees", deg), north)
		if err != nil {
			return nil, err
		}
		out = append(out, more...)
	}
	return out, nil
}

// turned are a surface that looks to each of these, and to the most sun.
func (j *Judge) turned(h House, f wetting.Surface, name string, azimuths ...float64) ([]face, error) {
	sunny, err := j.sunniest(h.Climate, f)
	if err != nil {
		return nil, err
	}
	words := map[float64]string{north: "north ", west: "west "}
	if words[sunny] == "" {
		words[sunny] = "sunny "
		azimuths = append(azimuths, sunny)
	}
	var out []face
	for _, azimuth := range azimuths {
		f.AzimuthDeg = azimuth
		x, err := j.outside(h.Climate, f)
		if err != nil {
			return nil, err
		}
		x.name = words[azimuth] + name
		out = append(out, x)
	}
	return out, nil
}

// soil is the earth beside a wall: about the yearly mean of the air, its swing a
// share of the air's, a month behind it.
func (j *Judge) soil(h House) (face, error) {
	key := fmt.Sprintf("%s soil %g", h.Climate.ID, h.SoilAtShare)
	return j.faces.of(key, func() (face, error) {
		w, err := j.station(h.Climate)
		if err != nil {
			return face{}, err
		}
		const months, daysOfMonth = 12, 365.0 / 12
		mean, low, high, warmest := 0.0, math.Inf(1), math.Inf(-1), 0
		for m, t := range h.Climate.MeanC {
			mean += t / months
			low = min(low, t)
			if t > high {
				high, warmest = t, m
			}
		}
		day := (float64(warmest) + 1.5) * daysOfMonth
		return face{"in the soil", key, wetting.Soil(len(w.Hours), mean, (high-low)/2*h.SoilAtShare, day, j.layers.SoilFilmWM2K)}, nil
	})
}

// room is the air of the rooms.
func (j *Judge) room(h House, in moisture.Indoor) ([]wetting.Edge, error) {
	return j.rooms.of(roomKey(h, in), func() ([]wetting.Edge, error) {
		w, err := j.station(h.Climate)
		if err != nil {
			return nil, err
		}
		return w.Room(in)
	})
}

func roomKey(h House, in moisture.Indoor) string { return fmt.Sprintf("%s %+v", h.Climate.ID, in) }
