package rank

// Dominated names, in the order given, the options that some other usable
// option equals or beats under every priority and beats under at least one,
// without falling short of a target that they meet. No weighting prefers such
// an option. Excluded options neither dominate nor are named. ErrEmpty, ErrID,
// ErrLength, ErrValue.
func Dominated(options []Option) ([]string, error) {
	if _, err := checkOptions(options); err != nil {
		return nil, err
	}
	var ids []string
	for _, b := range options {
		for _, a := range options {
			if !a.Excluded && !b.Excluded && tier(a) <= tier(b) && dominates(a.Values, b.Values) {
				ids = append(ids, b.ID)
				break
			}
		}
	}
	return ids, nil
}

func dominates(a, b []float64) bool {
	better := false
	for k := range a {
		if a[k] < b[k] {
			return false
		}
		better = better || a[k] > b[k]
	}
	return better
}
