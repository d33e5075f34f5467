package units

// Unit factors, one definition each. Exact by definition unless said.
const (
	MmPerInch   = 25.4
	InchPerFoot = 12.0
	MPerFoot    = 0.3048
	M2PerFt2    = MPerFoot * MPerFoot
	M3PerFt3    = MPerFoot * MPerFoot * MPerFoot
	KgPerLb     = 0.45359237
	MJPerMMBtu  = 1055.05585262

	// RIPPerRSI is h.ft2.F/Btu per m2K/W (NBC Canada note, read: 5.678263).
	RIPPerRSI = 5.678263
	// NgPerPerm is ng/(s.m2.Pa) per US perm (inHg at 0 C).
	NgPerPerm = 57.2135
)

// FToC converts a temperature.
func FToC(f float64) float64 { return (f - 32) / 1.8 }

// CToF converts a temperature.
func CToF(c float64) float64 { return c*1.8 + 32 }
