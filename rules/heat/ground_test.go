package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBelowGradeWallTable(t *testing.T) {
	p := figures(t)
	g := p.Ground
	require.Len(t, g.Wall.Rows, 8)
	for _, row := range g.Wall.Rows {
		require.Len(t, row.U, len(g.Wall.InsulationR))
		for i, want := range row.U {
			u, err := GroundWallU(g.SoilK, 0, row.DepthFt, g.OtherR+g.Wall.InsulationR[i])
			require.NoError(t, err)
			require.InDelta(t, want, u, g.Wall.Within, "%v ft, R-%v: %s", row.DepthFt, g.Wall.InsulationR[i], p.source(t, g.Wall.Source))
		}
	}
}

// The older handbooks had the U foot by foot, from the length of the way
// through the soil to the middle of each foot.
func TestOlderTableFootByFoot(t *testing.T) {
	p := figures(t)
	old := p.Ground.FootByFoot
	require.Len(t, old.Rows, 7)
	for _, row := range old.Rows {
		for i, want := range row.U {
			u, err := GroundWallU(p.Ground.SoilK, row.FromFt, row.FromFt+1, old.OtherR+old.InsulationR[i])
			require.NoError(t, err)
			require.InDelta(t, want, u, old.Within, "from %v ft, R-%v: %s", row.FromFt, old.InsulationR[i], p.source(t, old.Source))
		}
	}
}

// A state code's own table, read, made independently of the handbook.
func TestSecondCodeAgrees(t *testing.T) {
	p := figures(t)
	s := p.Ground.SecondCode
	for _, row := range s.Rows {
		for i, want := range row.U {
			u, err := GroundWallU(p.Ground.SoilK, 0, s.DepthFt[i], p.Ground.OtherR+row.InsulationR)
			require.NoError(t, err)
			require.InDelta(t, want, u, s.Within, "R-%v %s, %v ft: %s", row.InsulationR, row.Side, s.DepthFt[i], p.source(t, s.Source))
		}
	}
}

// The mean over a thin strip must tend to the U of the quarter circle through
// its middle: two forms, one physics. And strips must add up to the wall.
func TestWallStripsAddUp(t *testing.T) {
	const soil, wall = 0.8, 6.47
	sum := 0.0
	for z := 0.0; z < 8; z++ {
		strip, err := GroundWallU(soil, z, z+1, wall)
		require.NoError(t, err)
		path := math.Pi / 2 * (z + 0.5)
		require.InEpsilon(t, 1/(wall+path/soil), strip, 0.01)
		sum += strip
	}
	all, err := GroundWallU(soil, 0, 8, wall)
	require.NoError(t, err)
	require.InEpsilon(t, all, sum/8, 1e-12)
}

func TestGroundRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		soil, top, bottom, r float64
		want                 error
	}{
		{0.8, 4, 4, 5, ErrDepths},
		{0.8, 5, 4, 5, ErrDepths},
		{0.8, 0, 4, 0, ErrNoResistance},
		{0, 0, 4, 5, ErrOutOfRange},
		{nan, 0, 4, 5, ErrOutOfRange},
		{0.8, -1, 4, 5, ErrOutOfRange},
		{0.8, 0, inf, 5, ErrOutOfRange},
		{0.8, 0, 4, nan, ErrOutOfRange},
	} {
		_, err := GroundWallU(c.soil, c.top, c.bottom, c.r)
		require.ErrorIs(t, err, c.want, "%+v", c)
	}
}
