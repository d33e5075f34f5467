package wetting

import (
	"math"

	"battwright/rules/moisture"
)

// Films inside: heat and vapor at a face of a room (EN 15026, from memory).
const (
	roomFilmWM2K = 8.0
	roomFilmKG   = 2e-8
)

// The days of the year, from 0, on which a dehumidifier runs: May to September.
const firstDriedDay, lastDriedDay = 120, 272

// Room is a room hour by hour in a house kept like that. It follows the mean of
// the outdoor air over the day that ends, as a house does. ErrClimate, and the
// errors of moisture.Indoor.
func (w *Weather) Room(in moisture.Indoor) ([]Edge, error) {
	if err := w.check(); err != nil {
		return nil, err
	}
	n := len(w.Hours)
	out := make([]Edge, n)
	var tC, pa float64
	add := func(i int, share float64) {
		h := &w.Hours[((i%n)+n)%n]
		tC += share * h.TempC
		pa += share * overWater(h.DewC)
	}
	for i := -dayH; i < 0; i++ {
		add(i, 1.0/dayH)
	}
	dried := in.Dried()
	for i := range out {
		add(i, 1.0/dayH)
		add(i-dayH, -1.0/dayH)
		kept := in
		if day := i / dayH; day >= firstDriedDay && day <= lastDriedDay {
			kept = dried
		}
		roomC, roomPa, err := kept.At(tC, pa)
		if err != nil {
			return nil, err
		}
		out[i] = Edge{AirC: roomC, VaporPa: roomPa, HeatWM2K: roomFilmWM2K, VaporKG: roomFilmKG}
	}
	return out, nil
}

// Soil is what the outer face of a wall below grade meets: wet earth whose
// temperature swings once a year about its mean. filmWM2K is how well the earth
// holds the face to it, warmestDay the day of the year it is warmest.
func Soil(hours int, meanC, swingC, warmestDay, filmWM2K float64) []Edge {
	out := make([]Edge, max(0, hours))
	for i := range out {
		t := meanC + swingC*math.Cos(2*math.Pi*(float64(i)/dayH-warmestDay)/365)
		out[i] = Edge{AirC: t, VaporPa: saturation(t), HeatWM2K: filmWM2K, VaporKG: math.Inf(1)}
	}
	return out
}
