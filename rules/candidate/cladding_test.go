package candidate

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// Cladding fixed straight on is one layer more that vapor must pass; behind
// vented cladding the sheathing meets outdoor air, as ISO 13788 takes an air
// layer that is well ventilated (memory).
func TestVentedCladdingIsNoLayerOfTheDampCheck(t *testing.T) {
	c := fixture.Catalog(t)
	layers := func(cladding string) map[string][]string {
		out := map[string][]string{}
		keys := "kind = \"exterior-wall\"\nframing.size = \"2x6\"\nci_r = 0\nsheathing = \"osb\"\ncladding = \"" + cladding + "\""
		for _, a := range assess(t, c, "state = \"VT\"\ncounty = \"Chittenden\"", keys).Candidates {
			require.True(t, a.Damp.Checked)
			out[a.Layers[0].Product.ID] = a.Damp.Layers
		}
		return out
	}
	direct := layers("direct")
	require.NotEmpty(t, direct)
	for id, vented := range layers("vented") {
		require.Len(t, direct[id], len(vented)+1, id)
		require.Equal(t, vented, direct[id][:len(vented)], id)
	}
}
