package heat

// WoodRPerIn is the R of an inch of light softwood framing across the grain,
// the handbook convention behind 4.38 for a 2x4 and 6.88 for a 2x6. Heavier
// wood is nearer 1.13.
const WoodRPerIn = 1.25

// WoodR is the R of framing depthIn inches deep. Error: ErrOutOfRange.
func WoodR(depthIn float64) (float64, error) {
	if err := amounts(named{"framing depth", depthIn}); err != nil {
		return 0, err
	}
	return depthIn * WoodRPerIn, nil
}
