package units

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Slopes of roofs as builders write them. 6 in 12 is 26.57 degrees, 12 in 12 is 45
// degrees and 100 % (arithmetic).
func TestParsePitch(t *testing.T) {
	for text, want := range map[string]float64{
		"6": 6, "6/12": 6, "6:12": 6, "6 / 12": 6, "6 in 12": 6, "6 on 12": 6, "6 over 12": 6, `6"/12"`: 6, `6 in 12"`: 6, "6 in": 6, "6in12": 6,
		"1/12": 1, "4 1/2 in 12": 4.5, "4.5:12": 4.5, "4-1/2/12": 4.5, "1/4 in 12": 0.25, "0": 0, "0/12": 0, "12/12": 12, "24": 24,
		"45 degrees": 12, "45deg": 12, "45\u00b0": 12, "26.565 degrees": 6, "50 %": 6, "100%": 12, "0 degrees": 0,
	} {
		got, err := ParsePitch(text)
		require.NoError(t, err, text)
		require.InDelta(t, want, got, 1e-3, text)
	}
	for _, text := range []string{"", "steep", "1/3", "6/10", "6:10", "6/", "/12", "-6/12", "90 degrees", "12 in 6", "in 12"} {
		_, err := ParsePitch(text)
		require.Error(t, err, text)
	}
}

func TestPitchInBothSystems(t *testing.T) {
	require.Equal(t, "4 1/2 in 12", US.Pitch(4.5))
	require.Equal(t, "27 degrees", SI.Pitch(6))
	require.InDelta(t, 45, PitchDeg(12), 1e-9)
	require.InDelta(t, math.Atan2(6, 12)*180/math.Pi, PitchDeg(6), 1e-9)
	require.Zero(t, PitchDeg(0))
	for _, rise := range []float64{0, 4, 12} {
		require.InDelta(t, rise, PitchOf(PitchDeg(rise)), 1e-9)
	}
}
