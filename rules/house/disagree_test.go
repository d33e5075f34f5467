package house_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// Old wiring or old fill in one place belies a house that is said to have no old
// part, and a pipe of the shape that passes nowhere is asked about.
func TestOldPartsAndPipesThatAreDenied(t *testing.T) {
	const head = "version = 1\nold = false\n[site]\nzone = \"5A\"\n"
	told := func(text string) string { return strings.Join(fixture.Read(t, head+text).Disagree(), "\n") }
	require.Empty(t, told("[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nknob_and_tube = false\n"))
	require.Contains(t, told("[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nknob_and_tube = true\n"), "no part of the house is old")
	require.Contains(t, told("[[place]]\nid = \"a\"\nkind = \"attic\"\nvermiculite = true\n"), "no part of the house is old")
	a := fixture.Read(t, head+"[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nknob_and_tube = true\n")
	require.False(t, a.Value(house.Top, nil, "old").Known)
	const roof = "[shape]\nchimney = \"metal\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\n"
	require.Contains(t, told(roof+"flue_through = false\n"), "no place beside it")
	require.Empty(t, told(roof+"flue_through = true\n"))
	require.Empty(t, told(roof))
}
