package candidate

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// A plastic sheet that the builder typed is neither planned nor priced where
// the code bars it on the room side (IRC R702.7, read).
func TestPlasticIsLeftOutWhereItIsBarred(t *testing.T) {
	for zone, sheet := range map[string]string{"2A": "", "6A": "polyethylene"} {
		r := assess(t, fixture.Catalog(t), "zone = \""+zone+"\"", "kind = \"exterior-wall\"\nretarder = \"polyethylene\"")
		for _, c := range r.Candidates {
			require.Equal(t, sheet, c.Facing.Sheet, zone)
		}
	}
}
