package order

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/takeoff"
	"battwright/testdata/fixture"
)

// The sources and marks of these figures stand beside them in
// testdata/published/order.json.

func TestNetAreaOfAPublishedWall(t *testing.T) {
	for _, c := range readPublished(t).NetAreas {
		o, p, a := made(t, wall(fmt.Sprintf("lengths_ft = [%g]\nheight_ft = %g\nopenings = [%q, %q]", c.LengthFt, c.HeightFt, c.Openings[0], c.Openings[1])))
		require.InDelta(t, c.NetFt2, a.NetAreaFt2(a.House.Place("wall")), 1e-9, c.ID)
		require.InDelta(t, c.NetFt2, p.Places[0].Surface.AreaFt2, 1e-9, c.ID)
		require.Empty(t, o.Places[0].Problem)
		require.Equal(t, takeoff.ByBay, o.Places[0].How)
	}
}

func TestBaysOfAPlainWall(t *testing.T) {
	for _, c := range readPublished(t).Bays {
		o, _, _ := made(t, wall(fmt.Sprintf("lengths_ft = [%v]\nheight_ft = 8\nopenings = []\nframing.spacing_in = %g\nframing.size = \"2x4\"", c.LengthIn/12, c.SpacingIn)))
		var got []float64
		for _, b := range o.Places[0].Layers[0].Bays {
			for range b.Count {
				got = append(got, b.WidthIn)
			}
		}
		slices.Sort(got)
		want := slices.Clone(c.ClearIn)
		slices.Sort(want)
		require.InDeltaSlice(t, want, got, 1.0/64, c.ID)
	}
}

// An area counted by module gives the pieces of the published method, and the
// spare and the packages follow from them.
func TestAreaByModule(t *testing.T) {
	for _, c := range readPublished(t).ByModule {
		o, _, _ := made(t, wall(fmt.Sprintf("length_ft = %g\nheight_ft = %g\nopenings_ft2 = %g\nframing.size = \"2x4\"\nframing.spacing_in = %g", c.LengthFt, c.HeightFt, c.OpeningsFt2, c.SpacingIn)))
		require.Equal(t, takeoff.ByModule, o.Places[0].How, c.ID)
		require.Len(t, o.Lines, 1)
		l := o.Lines[0]
		require.Equal(t, 15.0, l.WidthIn)
		require.Equal(t, c.Pieces, l.Stock, c.ID)
		if c.WithSpare > 0 {
			require.Equal(t, (c.WithSpare+l.PerPackage-1)/l.PerPackage, l.Packages, c.ID)
		}
	}
}

func TestCoverageOfAPackage(t *testing.T) {
	for _, c := range readPublished(t).Coverage {
		q := house.Quote{Pieces: c.Pieces, WidthIn: c.WidthIn, LengthIn: c.LengthIn}
		require.InDelta(t, c.Ft2, q.PackageFt2(), 0.005)
		o, _, _ := made(t, wall("length_ft = 20\nheight_ft = 4\nopenings = []\nframing.size = \"2x4\"")+
			fmt.Sprintf("[[quote]]\nproduct = \"fg-13\"\npieces = %d\nwidth_in = %g\nlength_in = %g\n", c.Pieces, c.WidthIn, c.LengthIn))
		require.InDelta(t, c.Ft2, o.Lines[0].PackageFt2, 0.005)
		require.True(t, o.Lines[0].Label)
		require.Equal(t, c.Pieces, o.Lines[0].PerPackage)
	}
}

// The figures of practice are those that were collected, with their marks.
func TestFiguresOfPractice(t *testing.T) {
	c := fixture.Catalog(t)
	pub := readPublished(t)
	for _, f := range pub.Figures {
		got := c.Figure(f.ID)
		require.Equal(t, f.ID, got.ID)
		require.InDelta(t, f.Low, got.Range().Low, 1e-9, f.ID)
		require.InDelta(t, f.High, got.Range().High, 1e-9, f.ID)
		require.True(t, got.Value >= f.Low && got.Value <= f.High, f.ID)
	}
	crawl := c.Figure("hours-crawl").Value
	require.True(t, crawl > pub.CrawlFactor.Low && crawl < pub.CrawlFactor.High)
	for _, s := range pub.Studs {
		at := slices.IndexFunc(c.Studs(), func(x catalog.Stud) bool { return x.WallFt == s.WallFt })
		require.GreaterOrEqual(t, at, 0)
		got := c.Studs()[at]
		require.InDelta(t, s.BattIn, got.BattIn, 1e-9)
		if s.StudIn > 0 {
			require.InDelta(t, s.StudIn, got.StudIn, 1e-9)
		}
		require.InDelta(t, takeoff.FitLengthIn, got.BattIn-got.StudIn, 1e-9)
		require.False(t, math.IsNaN(got.StudIn))
	}
}
