package candidate_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

// The fill of an attic that was never listed as a place is asked about where it
// may have run down.
func TestFillOfAnAtticThatIsNoPlaceIsAsked(t *testing.T) {
	asks := func(head string) int {
		p := plan.Make(fixture.Read(t, "version = 1\nstage = \"framed\"\n"+head+"[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nknob_and_tube = false\n"))
		return len(p.Places[len(p.Places)-1].Asks())
	}
	require.Equal(t, 1, asks("old = true\n[shape]\nabove = \"attic\"\n"))
	require.Zero(t, asks("old = false\n[shape]\nabove = \"attic\"\n"))
	require.Zero(t, asks("old = true\n[shape]\nabove = \"heated\"\n"))
	require.Zero(t, asks("old = true\n[shape]\nabove = \"attic\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nvermiculite = false\n"))
}
