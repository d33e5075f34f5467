package moisture

// DeltaAir is the vapour permeability of still air in kg/(m.s.Pa), the
// constant of ISO 13788 (from memory).
const DeltaAir = 2.0e-10

// MaxSdM is the largest sd accepted, in metres. A metal sheet is some
// thousands of metres; this stands for "nothing passes".
const MaxSdM = 1e6

const (
	gPerKg    = 1000.0
	secPerDay = 86400.0
)

// NetRate is the rate in kg/(m2.s) at which water collects at a plane held
// at planePa, when inPa is sdInM metres of air away on one side and outPa is
// sdOutM away on the other; negative while the plane dries. It is what
// arrives less what leaves (DIN 4108-3 period method, read in course notes).
// Both distances must be above 0: the caller sees to it.
func NetRate(inPa, sdInM, planePa, outPa, sdOutM float64) float64 {
	return DeltaAir * ((inPa-planePa)/sdInM - (planePa-outPa)/sdOutM)
}
