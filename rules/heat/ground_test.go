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

func TestBelowGradeFloorTable(t *testing.T) {
	p := figures(t)
	g := p.Ground
	require.Len(t, g.Floor.Rows, 7)
	for _, row := range g.Floor.Rows {
		require.Len(t, row.U, len(g.Floor.WidthFt))
		for i, want := range row.U {
			u, err := GroundFloorU(g.SoilK, row.DepthFt, g.Floor.WidthFt[i], g.OtherR)
			require.NoError(t, err)
			require.InDelta(t, want, u, g.Floor.Within, "%v ft, %v ft wide: %s", row.DepthFt, g.Floor.WidthFt[i], p.source(t, g.Floor.Source))
		}
	}
}

func TestOlderTableFootByFoot(t *testing.T) {
	p := figures(t)
	old := p.Ground.FootByFoot
	require.Len(t, old.Rows, 7)
	for _, row := range old.Rows {
		path, err := GroundPathFt(row.FromFt + 0.5)
		require.NoError(t, err)
		require.InDelta(t, row.PathFt, path, old.PathWithinFt, p.source(t, old.Source))
		for i, want := range row.U {
			u, err := GroundPathU(p.Ground.SoilK, row.PathFt, old.OtherR+old.InsulationR[i])
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
		path, err := GroundPathFt(z + 0.5)
		require.NoError(t, err)
		local, err := GroundPathU(soil, path, wall)
		require.NoError(t, err)
		require.InEpsilon(t, local, strip, 0.01)
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
	_, err := GroundFloorU(0.8, 0, 20, 0)
	require.ErrorIs(t, err, ErrNoResistance)
	_, err = GroundFloorU(0.8, 1, 0, 1)
	require.ErrorIs(t, err, ErrOutOfRange)
	_, err = GroundFloorU(0.8, nan, 20, 1)
	require.ErrorIs(t, err, ErrOutOfRange)
	_, err = GroundPathU(0.8, 0, 0)
	require.ErrorIs(t, err, ErrNoResistance)
	_, err = GroundPathU(-1, 1, 1)
	require.ErrorIs(t, err, ErrOutOfRange)
	_, err = GroundPathU(1, inf, 1)
	require.ErrorIs(t, err, ErrOutOfRange)
	_, err = GroundPathFt(nan)
	require.ErrorIs(t, err, ErrOutOfRange)
}
