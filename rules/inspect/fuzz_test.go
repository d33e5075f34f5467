package inspect_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/testdata/fixture"
)

// Whatever stands in an offer: no panic, every problem with a line of the
// file or none, every figure finite.
func FuzzReadOffer(f *testing.F) {
	for _, name := range []string{"full", "bold", "metric"} {
		f.Add(fixture.File(f, "offers/"+name+".toml"))
	}
	f.Add("[[part]]\nplace = \"attic\"\nr = 1e308\nthickness_in = 0.25\nmaterial = \"cotton\"")
	f.Add("[[part]]\nplace = \"attic\"\nr = \"RSI 9999999\"\n[[part]]\nplace=\"attic\"")
	j := alder(f)
	f.Fuzz(func(t *testing.T, text string) {
		o, problems := inspect.ReadOffer(j, "offer.toml", text)
		for _, p := range problems {
			require.GreaterOrEqual(t, p.Line, 0)
			require.NotEmpty(t, p.Error())
		}
		r := inspect.JudgeOffer(j, o)
		for _, p := range r.Places {
			if p.Offered != nil {
				require.False(t, math.IsNaN(p.Offered.Heat.AssemblyR) || math.IsInf(p.Offered.Heat.AssemblyR, 0))
				require.GreaterOrEqual(t, p.Offered.Heat.DeliveredR, 0.0)
			}
		}
	})
}

// Whatever stands in a file of finished work: no panic, finite figures, and it
// can be written and read again without a problem.
func FuzzReadFound(f *testing.F) {
	for _, name := range []string{"mixed", "chimney-stop"} {
		f.Add(fixture.File(f, "finished/"+name+".toml"))
	}
	f.Add("[[place]]\nid = \"attic\"\nlabel_r = [0.1, 99]\nlabel_thickness_in = [0, 0]\nthickness_in = [0, 60]\nvoid_pct = 100\nsqueezed_pct = 100")
	f.Add("[[place]]\nid = \"rim\"\ngaps = \"2400 x 2400\"\nlooked_ft2 = 1\nsqueezed_pct = 50\nsqueezed_to_in = 60")
	j := alder(f)
	l := inspect.FoundList(fixture.Catalog(f))
	f.Fuzz(func(t *testing.T, text string) {
		h, notes, _ := inspect.ReadFound(l, j, "finished.toml", text)
		r := inspect.JudgeFound(j, h, notes)
		for _, p := range r.Places {
			require.False(t, math.IsNaN(p.GradedR) || p.GradedR < 0)
			require.False(t, math.IsNaN(p.LostHeat.High) || math.IsInf(p.LostHeat.High, 0))
			require.InDelta(t, 0.5, p.Measured.Fit.Void, 0.5)
		}
		_, _, problems := inspect.ReadFound(l, j, "again.toml", inspect.WriteFound(l, h))
		require.Empty(t, problems)
	})
}
