package pages_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"

	"battwright/rules/pages"
)

// A vent area that is rounded up is the least that serves (IRC R806.2 and R408.1: a
// part in 150 of the floor), not about so much.
func TestVentAreaIsALeast(t *testing.T) {
	a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"4B\"\n[[place]]\nkind = \"attic\"\nvents_ok = false\narea_ft2 = 912\n[[place]]\nkind = \"crawl-space\"\nvented = true\narea_ft2 = 912\n")
	text := spaced(planned.Printed(t, planned.Job(a).Plan))
	require.Contains(t, text, "open vents: at least 7 ft2")
	require.Contains(t, text, "needs at least 7 ft2 of open vents")
}

// What is about equal is not said to be clear, and a sentence of the glance begins
// as one.
func TestWordsOfThePlanAgree(t *testing.T) {
	o, near := planned.Options(t), 0
	for _, zone := range []string{"3A", "4B", "6A", "7"} {
		for _, size := range []string{"2x4", "2x6", "2x8", "2x10"} {
			j := planned.Job(fixture.OfPlaces(t, "zone = \""+zone+"\"", "kind = \"exterior-wall\"\nframing.size = \""+size+"\"", "kind = \"crawl-space\"\nvented = true\nframing.size = \""+size+"\"", "kind = \"sloped-ceiling\"\nframing.size = \""+size+"\""))
			for _, p := range j.Plan.Places {
				if text := pages.SureText(p, o); strings.Contains(text, "about equal") {
					near++
					require.True(t, strings.HasPrefix(text, "Close call: about equal"), text)
				}
			}
		}
	}
	require.Positive(t, near)
	idle := planned.Job(fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"1A\"\n[[place]]\nkind = \"basement-wall\"\nknob_and_tube = \"unknown\"\n")).Plan.Places[0]
	text := pages.Glance(idle, o)
	require.True(t, strings.HasPrefix(text, plan.AskHead), text)
	require.NotRegexp(t, regexp.MustCompile(`[.?] [a-z]`), text)
}

// The test of a damp wall needs the bare wall: board that is said to be on it comes
// off there first (practice).
func TestDampWallBehindBoardIsTested(t *testing.T) {
	a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5B\"\n[[place]]\nkind = \"basement-wall\"\ndampness = \"damp\"\nfoam_r = 5\n")
	require.Contains(t, spaced(planned.Printed(t, planned.Job(a).Plan)), "for two days; where board is on it, take a piece off first")
}
