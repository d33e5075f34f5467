package takeoff

// Product is one size of blanket as it is sold.
type Product struct {
	WidthIn     float64 // 2 to 120 in
	LengthIn    float64 // of a batt or of a whole roll, 6 to 2,400 in
	ThicknessIn float64 // label thickness, 0 when it does not matter
	PerPackage  int     // batts in a package; 1 for a roll
	FitWidthIn  float64 // cut wider than the bay by this; 0 cuts it exact
	FitLengthIn float64 // cut longer than the bay by this; 0 cuts it exact
	PressIn     float64 // up to this much wider than its bay it goes in uncut; 0: PressInIn
}

// FrictionFit returns the product cut a little large, as blankets that hold
// themselves are.
func (p Product) FrictionFit() Product {
	p.FitWidthIn, p.FitLengthIn = FitWidthIn, FitLengthIn
	return p
}

func (p Product) check() error {
	for _, s := range []struct {
		name      string
		in        float64
		low, high float64
	}{
		{"product width", p.WidthIn, 2, 120},
		{"product length", p.LengthIn, 6, 2400},
		{"product thickness", p.ThicknessIn, 0, 36},
		{"width fit", p.FitWidthIn, 0, 2},
		{"length fit", p.FitLengthIn, 0, 2},
		{"press", p.PressIn, 0, 2},
	} {
		if err := sizeBetween(s.name, s.in, s.low, s.high); err != nil {
			return err
		}
	}
	return countBetween("pieces per package", p.PerPackage, 1, 1000)
}
