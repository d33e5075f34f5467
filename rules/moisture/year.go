package moisture

import "math"

const (
	// maxYears bounds the search for the year that repeats itself. One or two
	// are the rule; it takes more only when water moves between planes.
	maxYears = 60
	// sameKgM2 is when two years count as the same; growKgM2 is the yearly
	// gain from which a plane counts as never drying (0.001 g/m2).
	sameKgM2 = 1e-9
	growKgM2 = 1e-6
)

// Year runs the monthly method of ISO 13788:2012 clause 6 for an assembly
// (layers from the room outwards) and repeats the year until it is the same
// as the one before or keeps growing. rsi and rse are the surface resistances
// in m2K/W, 0 to 5; for a ventilated cavity leave out what lies beyond it.
// Days, temperatures and pressures are checked; pressure above saturation is
// capped and reported.
//
// Errors wrap ErrLayer, ErrResistance, ErrTooMany, ErrTemperature,
// ErrPressure, ErrMonth or ErrLimit.
func Year(layers []Layer, rsi, rse float64, months [Months]Month, opts Options) (Result, error) {
	var w Workspace
	return w.Year(layers, rsi, rse, months, opts)
}

// Year is the package function Year in a workspace of its own.
func (w *Workspace) Year(layers []Layer, rsi, rse float64, months [Months]Month, opts Options) (Result, error) {
	if err := opts.Limits.check(); err != nil {
		return Result{}, err
	}
	if opts.StartMonth < 0 || opts.StartMonth >= Months {
		return Result{}, refuse(ErrMonth, "start", float64(opts.StartMonth))
	}
	if err := w.grid.cut(layers, rsi, rse); err != nil {
		return Result{}, err
	}
	if err := w.prepare(&months); err != nil {
		return Result{}, err
	}
	years, settled := w.settle(opts.StartMonth)
	begin := w.held
	w.walk(opts.StartMonth, true)
	return w.report(&months, &begin, years, settled, opts), nil
}

// settle repeats the year, starting dry, until it changes no more.
func (w *Workspace) settle(start int) (years int, settled bool) {
	w.held = [maxPoints]float64{}
	w.gain = [Months][maxPoints]float64{}
	for years = 1; years <= maxYears; years++ {
		w.was = w.gain
		w.walk(start, false)
		if w.repeats() {
			return years, true
		}
	}
	return maxYears, false
}

func (w *Workspace) walk(start int, record bool) {
	for i := range Months {
		w.month((start+i)%Months, record)
	}
}

// repeats tells whether this year was like the last and every plane ended it
// no drier than it began. Gains that are the same while a plane runs down
// would not stay the same.
func (w *Workspace) repeats() bool {
	for k := range w.grid.last + 1 {
		var net float64
		for m := range Months {
			net += w.gain[m][k]
			if math.Abs(w.gain[m][k]-w.was[m][k]) > sameKgM2 {
				return false
			}
		}
		if net < -sameKgM2 {
			return false
		}
	}
	return true
}
