package candidate

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// IECC R402.2.1 (memory): the next lower R itself serves where it runs uncrushed
// over the whole ceiling and the top of the outside wall, and only there.
func TestTheLowerRServesAtFullHeight(t *testing.T) {
	c := fixture.Catalog(t)
	for _, row := range []struct {
		say    string
		counts float64
		short  float64 // of the heel, in
		by     string
		serves bool
	}{
		{"exactly the R that serves", 38, 0, "code", true},
		{"a little more", 45, 0, "code", true},
		{"a little less", 37.5, 0, "code", false},
		{"squeezed at the eave", 45, 0.25, "code", false},
		{"a figure of the builder", 45, 0, "you", false},
	} {
		h := Heat{CountedR: row.counts, ShortByR: 49 - row.counts, EaveShortIn: row.short}
		fullHeight(&h, Site{Edition: "irc-2018"}, c, Target{CavityR: 49, By: row.by})
		require.Equal(t, row.serves, h.MeetsTarget, row.say)
		require.Equal(t, row.serves, h.FullHeightR == 38, row.say)
		require.Equal(t, row.serves, h.ShortByR == 0, row.say)
	}
}
