package units

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A small amount somebody typed keeps its cents: half a dollar is not shown as
// one.
func TestSmallMoneyKeepsItsCents(t *testing.T) {
	for c, want := range map[Cents]string{50: "$0.50", 100: "$1", 999: "$9.99", -50: "-$0.50", 1000: "$10", 1049: "$10", 0: "$0"} {
		require.Equal(t, want, US.Money(c))
		require.Equal(t, want, US.MoneyOf(c, Same(c)))
	}
}

// A length that is known roughly has no decimals in SI (0.3048 m to the foot).
func TestRoughLengthsAreWholeMeters(t *testing.T) {
	require.Equal(t, "73 m", SI.FeetAbout(240), "73.152")
	require.Equal(t, "9 m", SI.FeetAbout(30), "9.144")
	require.Equal(t, "240 ft", US.FeetAbout(240))
}
