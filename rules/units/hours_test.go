package units_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// Whole hours, the slow end rounded up, and a word that fits a single one.
func TestHoursText(t *testing.T) {
	for _, x := range []struct {
		low, high float64
		want      string
	}{
		{0.2, 0.7, "about an hour"}, {1, 1, "about an hour"}, {1.6, 1.9, "about 2 hours"}, {0.4, 3.1, "1 to 4 hours"}, {4, 7, "4 to 7 hours"}, {2.4, 7, "2 to 7 hours"},
	} {
		require.Equal(t, x.want, units.HoursText(x.low, x.high))
	}
}
