package strict

import (
	"testing"
	"testing/quick"

	"github.com/stretchr/testify/require"
)

func TestNearest(t *testing.T) {
	known := []string{"area_ft2", "spacing_in", "size", "fire", "cost", "label", "length_ft", "width_ft", "existing_r", "ci_r", "id"}
	for word, want := range map[string]string{
		"area_ft":   "area_ft2",
		"aera_ft2":  "area_ft2",
		"Area_ft2":  "area_ft2",
		"area-ft2":  "area_ft2",
		"area":      "area_ft2",
		"spacing":   "spacing_in",
		"lenght_ft": "length_ft",
		"szie":      "size",
		"frie":      "fire",
		"ID":        "id",
		"x":         "",
		"xy":        "",
		"":          "",
		"roof":      "",
		"cat":       "",
		"labels":    "label",
	} {
		require.Equal(t, want, Nearest(word, known), "%q", word)
	}
	require.Empty(t, Nearest("width", []string{"width_ft", "width_in"}), "two could be meant")
	require.Equal(t, "cast", Nearest("cust", []string{"cast", "cost"}), "the first of equals")
	require.Empty(t, Nearest("area_ft2", nil))
}

// Worked values of the optimal string alignment distance: the first two are
// the usual textbook pairs (memory), the rest follow from the definition.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		d    int
	}{
		{"kitten", "sitting", 3}, {"ca", "abc", 3}, {"ab", "ba", 1}, {"", "abc", 3}, {"abc", "", 3}, {"wool", "wool", 0}, {"batt", "bat", 1}, {"flaw", "lawn", 2},
	} {
		require.Equal(t, c.d, Distance(c.a, c.b), "%s %s", c.a, c.b)
	}
	bounds := func(a, b string) bool {
		x, y := head2([]rune(a)), head2([]rune(b))
		d := Distance(string(x), string(y))
		return d == Distance(string(y), string(x)) && d >= max(len(x)-len(y), len(y)-len(x)) && d <= max(len(x), len(y)) &&
			(d == 0) == (string(x) == string(y))
	}
	require.NoError(t, quick.Check(bounds, &quick.Config{MaxCount: 300}))
}

func head2(r []rune) []rune { return r[:min(len(r), 20)] }
