package tui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// sourcesShown are the screens with titles of sources, which are names of
// documents.
var sourcesShown = []string{"read-here"}

// No screen has a figure in US units when SI is shown, and none shows a figure
// in braces, in either.
func TestEveryScreenFollowsTheUnits(t *testing.T) {
	for _, s := range stops {
		for _, system := range []units.System{units.US, units.SI} {
			p := at(t, s, Config{Mono: true, System: system}, 120, 200)
			require.NotContains(t, p.view(), "{", s.name)
			if system == units.SI && !contains(sourcesShown, s.name) && !typesInUS(s.name) {
				require.Empty(t, fixture.LeftInUS(p.view()), s.name)
			}
		}
	}
}

// typesInUS: there a person has typed a figure in US units.
func typesInUS(name string) bool { return name == "house-number" }

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
