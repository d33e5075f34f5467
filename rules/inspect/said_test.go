package inspect_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A basement wall must be able to dry toward the room: an offer with plastic
// there is told so (PNNL Building America page on retarders of foundation
// walls, read).
func TestNoPlasticOnABasementWall(t *testing.T) {
	j := alder(t)
	const part = "[[part]]\nplace = \"basement\"\nmaterial = \"fiberglass\"\nr = 13\nthickness_in = 3.5\nfacing = \"none\"\n"
	require.Contains(t, ids(at(t, offered(t, j, part+"sheet = \"polyethylene\"\n"), "basement").Findings), "basement-sheet")
	require.NotContains(t, ids(at(t, offered(t, j, part), "basement").Findings), "basement-sheet")
}
