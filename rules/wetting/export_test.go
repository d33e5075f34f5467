package wetting

import "testing"

// At is a plane after an hour, and the first layer of air of the section.
type At struct{ TempC, RH, AirC, AirRH float64 }

// RunWatched goes once through the hours and tells the first watched plane
// after each: what tests compare with measured hours.
func RunWatched(sec Section, room, out []Edge, seen func(hour int, at At)) error {
	if err := sec.check(); err != nil {
		return err
	}
	s := newSolver(&sec)
	at := s.spotOf(&sec, sec.Watch[0].Plane)
	for h := range out {
		if err := s.step(secPerHour, &room[h], &out[h]); err != nil {
			return err
		}
		var now At
		now.TempC, now.RH = s.at(at, &room[h], &out[h])
		for i := range s.cells {
			if c := &s.cells[i]; c.air != nil {
				now.AirC, now.AirRH = c.t, c.phi
				break
			}
		}
		seen(h, now)
	}
	return nil
}

// Passes is how often the balance of a step was solved in a run.
func Passes(sec Section, room, out []Edge, stepH float64) (passes, cells int, err error) {
	if err := sec.check(); err != nil {
		return 0, 0, err
	}
	r := newRunner(&sec, len(out)/dayH)
	err = r.through(room, out, stepH)
	return r.s.passes, len(r.s.cells), err
}

// SunHeight is the sine of the height of the sun in an hour.
func SunHeight(w *Weather, i int) float64 { return w.sunAt(i).up }

// RoomAir is an hour of a room of that temperature and relative humidity, 0 to 1.
func RoomAir(tC, rh float64) Edge {
	return Edge{AirC: tC, VaporPa: rh * saturation(tC), HeatWM2K: roomFilmWM2K, VaporKG: roomFilmKG}
}

// RunEN is the benchmark of EN 15026 as the benchmarks compare with it.
func RunEN(b testing.TB) { runEN(b, 73, 20, 86400, func(int, *solver) {}) }
