package pages_test

import (
	"strconv"
	"testing"

	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func golden(t *testing.T, name, got string) {
	t.Helper()
	fixture.Golden(t, "../../testdata/golden", name, got)
}

// One demo house in each form, as a person reads it. That the others say the
// same in theirs is held by the tests of what every form must say.
func TestGoldenReports(t *testing.T) {
	for _, g := range []struct {
		house, form string
		width       int
	}{
		{"house-in-the-snow", "text", 78},
		{"house-in-the-snow", "csv", 78},
		{"house-by-the-water", "text", 40},
		{"house-on-stilts", "markdown", 78},
		{"house-on-stilts", "json", 78},
	} {
		o := planned.Options(t)
		o.Width = g.width
		form := g.form
		if form == "text" {
			form += strconv.Itoa(g.width)
		}
		golden(t, g.house+"."+form, planned.Forms(t, demoPlan(t, g.house+".toml"), o)[g.form])
	}
}
