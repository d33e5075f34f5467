package moisture

// Verdict is what a year of vapour means for an assembly, mildest first.
type Verdict int

const (
	// NoBuildUp: no water collects at a judged plane.
	NoBuildUp Verdict = iota
	// BuildsUpAndDries: water collects, stays under the peak limit, and is
	// gone within the year without a damp warm month.
	BuildsUpAndDries
	// MoldRisk: more than the peak limit collects, or a judged plane is damper
	// than the mold limit in months warm enough for mold.
	MoldRisk
	// StaysWet: a judged plane gains more in a year than it loses.
	StaysWet
)

// String names the verdict for logs and test failures, not for people.
func (v Verdict) String() string {
	switch v {
	case NoBuildUp:
		return "no build-up"
	case BuildsUpAndDries:
		return "builds up and dries"
	case MoldRisk:
		return "mold risk"
	case StaysWet:
		return "stays wet"
	}
	return "unknown"
}

// Limits say where one verdict ends and the next begins. They are judgements,
// not physics, so they have no default here and come with the data.
//
// Standards put the limit of what may collect anywhere from 200 g/m2, where it
// runs off a face that takes no water up (advice to ISO 13788, from memory),
// over 500 g/m2 at such faces, mineral fiber among them, to 1000 g/m2 where
// the layers soak it up (DIN 4108-3, read). The lowest is the safest for
// planes of unknown materials.
type Limits struct {
	PeakGM2    float64 // water held at all judged planes together, g/m2
	TraceGM2   float64 // up to this is called none, g/m2
	MoldRH     float64 // monthly mean relative humidity, share 0 to 1
	MoldAboveC float64 // months in which the plane is no warmer do not count, C
	// MoldMonths is how many months of the year it takes; 0 counts as 1.
	MoldMonths int
}

func (l Limits) check() error {
	if !within(l.PeakGM2, 0, 1e6) {
		return refuse(ErrLimit, "peak g/m2", l.PeakGM2)
	}
	if !within(l.TraceGM2, 0, 1e6) {
		return refuse(ErrLimit, "trace g/m2", l.TraceGM2)
	}
	if !within(l.MoldRH, 0, 1) {
		return refuse(ErrLimit, "mold RH", l.MoldRH)
	}
	if !within(l.MoldAboveC, MinTempC, MaxTempC) {
		return refuse(ErrLimit, "mold C", l.MoldAboveC)
	}
	if l.MoldMonths < 0 || l.MoldMonths > Months {
		return refuse(ErrLimit, "mold months", float64(l.MoldMonths))
	}
	return nil
}

// Options steer a run.
type Options struct {
	Limits Limits
	// OutsideAir says that the outside series is open air. Months in which a
	// plane is no damper than that air then do not count towards mold: no
	// choice of insulation can change them. Leave it false against soil.
	OutsideAir bool
	// StartMonth, 0 = January to 11, is where counting starts. It changes
	// nothing in the result and is there to show that.
	StartMonth int
}

// Plane is a place inside the assembly that held water in the year.
type Plane struct {
	Inner, Outer int     // layers that meet there; equal inside a layer
	Share        float64 // how far through Inner it lies, 0 to 1 (1 = its outer face)
	Judged       bool
	GainGM2      [Months]float64 // collected in the month, negative while drying
	HeldGM2      [Months]float64 // held at the end of the month
	PeakGM2      float64         // most held at a month's end
	PeakMonth    int             // 1 to 12
	ClearMonth   int             // 1 to 12: first month after the peak that ends dry; 0 never
	// RemainderGM2 is what every year adds to the plane for good; 0 when it
	// dries. While it is above 0, HeldGM2 counts from the driest month of one
	// year, since the true amount grows without end.
	RemainderGM2 float64
}

// Interface is a face of a layer: number 0 the inside surface, number i
// between layer i-1 and layer i, the last one the outside surface.
type Interface struct {
	Judged bool // inside the assembly and touched by a sensitive layer
	TempC  [Months]float64
	Pa     [Months]float64 // mean over the month
	RH     [Months]float64 // share, 0 to 1, of saturation at TempC
}

// Spot is the worst month of the worst judged interface. Month 1 to 12, 0
// when there is none.
type Spot struct {
	RH        float64
	Month     int
	Interface int
}

// Result of a year. Amounts are of the year that repeats itself.
type Result struct {
	Verdict Verdict

	// Judged planes together.
	PeakGM2      float64
	PeakMonth    int // 1 to 12, 0 when nothing is held
	ClearMonth   int // 1 to 12, 0 when nothing is held or some plane always holds water
	RemainderGM2 float64
	// TotalPeakGM2 counts the planes that are not judged too.
	TotalPeakGM2 float64

	Worst      Spot // dampest month at a judged interface
	WorstWarm  Spot // the same among months that count towards mold
	MoldMonths int  // months in which some judged interface is over the mold limit

	Planes        []Plane // from the room outwards
	Wettest       int     // index into Planes of the highest peak, -1 when none
	WettestJudged int     // the same among judged planes
	Interfaces    []Interface

	// What was taken down or seen on the way, by month.
	InCapped, OutCapped         [Months]bool // pressure given above saturation
	InSurfaceWet, OutSurfaceWet [Months]bool // dew on the surface itself, not in the balance

	Years   int  // years walked until the year repeated itself
	Settled bool // false: it did not within the years allowed
}
