package takeoff

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

func plainWall(heightIn float64, lengthsIn ...float64) Wall {
	return Wall{LengthsIn: lengthsIn, HeightIn: heightIn, DepthIn: 5.5, SpacingIn: 16}
}

func TestPublishedBays(t *testing.T) {
	p := load(t)
	for _, row := range p.Bays {
		name := p.name(t, row.From)
		w, err := plainWall(97.125, row.LengthIn).checked()
		require.NoError(t, err, name)
		runs, err := w.placeOpenings()
		require.NoError(t, err, name)
		var got []float64
		for _, b := range w.runBays(runs[0]) {
			got = append(got, b.WidthIn)
			require.InDelta(t, 92.625, b.HeightIn, 1e-9, name)
		}
		require.InDeltaSlice(t, row.ClearIn, got, 1e-9, name)

		l, err := plainWall(97.125, row.LengthIn).Layout()
		require.NoError(t, err, name)
		require.Equal(t, len(row.ClearIn), l.BayCount(), name)
	}
}

func TestPublishedNetArea(t *testing.T) {
	p := load(t)
	e := p.NetArea
	name := p.name(t, e.From)
	w := plainWall(e.HeightFt*units.InchPerFoot, FeetIn(e.LengthFt)...)
	for _, o := range e.Openings {
		in := FeetIn(o[0], o[1])
		w.Openings = append(w.Openings, Opening{in[0], in[1], 1})
	}
	l, err := w.Layout()
	require.NoError(t, err, name)
	require.InDelta(t, e.GrossFt2, l.GrossFt2, 1e-9, name)
	require.InDelta(t, e.OpeningsFt2, l.OpeningsFt2, 1e-9, name)
	require.InDelta(t, e.NetFt2, l.NetFt2, 1e-9, name)
	require.Less(t, l.ClearFt2, l.NetFt2, name)
}

func TestPublishedRolls(t *testing.T) {
	p := load(t)
	e := p.Rolls
	name := p.name(t, e.From)
	roll := Product{WidthIn: e.RollIn, LengthIn: FeetIn(e.RollFt)[0], PerPackage: 1}
	count, err := Area{Ft2: e.WallFt * e.HeightFt, SpacingIn: e.SpacingIn, How: ByModule}.Count(roll)
	require.NoError(t, err, name)
	perFt, err := ModuleFt2PerFt(e.SpacingIn)
	require.NoError(t, err, name)
	require.InDelta(t, e.LinearFt, e.WallFt*e.HeightFt/perFt, 1e-9, name)
	require.Equal(t, e.Rolls, count, name)

	// The same wall bay by bay, as precut studs stand in it.
	l, err := plainWall(97.125, FeetIn(e.WallFt)...).Layout()
	require.NoError(t, err, name)
	require.InDelta(t, e.ByBay, float64(l.BayCount())/4, 1e-9, name)
	o, err := TakeOff(l, roll.FrictionFit(), 0)
	require.NoError(t, err, name)
	require.Equal(t, e.Rolls, o.Packages, name)
	require.Zero(t, o.Plan.Gap, name)
}

func TestPublishedLoft(t *testing.T) {
	p := load(t)
	e := p.Loft
	name := p.name(t, e.From)
	cm := func(v float64) float64 { return v * 10 / units.MmPerInch }
	roll := Product{WidthIn: cm(e.RollCm[0]), LengthIn: cm(e.RollCm[1]), PerPackage: 1}
	l := Layout{Bays: []Bay{{KindFull, roll.WidthIn, cm(e.RunCm), e.Joists + 1}}}
	o, err := TakeOff(l, roll, 0)
	require.NoError(t, err, name)
	require.Equal(t, e.StrictRolls, o.Packages, name)
	require.Len(t, o.Joints, 1, name)
	require.Equal(t, 1, o.Joints[0].Whole, name)
	require.InDelta(t, cm(e.RunCm-e.RollCm[1]), o.Joints[0].RemnantIn, 1e-9, name)

	// The course rounds 20.25 rolls down; with its offer both cost the same.
	cost := func(rolls int) int {
		return rolls/e.Gets*e.Pays*e.Price + rolls%e.Gets*e.Price
	}
	require.Equal(t, e.PublishedRolls, o.Packages-1, name)
	require.Equal(t, e.Insulation, cost(e.PublishedRolls), name)
	require.Equal(t, e.Insulation, cost(o.Packages), name)
	require.Equal(t, e.Total, cost(o.Packages)+e.Gear, name)

	// By the room's size the spaces are wider than the roll, which is refused.
	wide := (e.LengthCm - float64(e.Joists)*e.JoistCm) / float64(e.Joists+1)
	l.Bays[0].WidthIn = cm(wide)
	_, err = TakeOff(l, roll, 0)
	require.ErrorIs(t, err, ErrTooWide, name)
}

func TestPublishedGable(t *testing.T) {
	p := load(t)
	e := p.Gable
	name := p.name(t, e.From)
	in := FeetIn(e.WallFt, e.HeightFt)
	l, err := plainWall(in[1], in[0]).Layout()
	require.NoError(t, err, name)
	require.InDelta(t, e.WallFt2, l.GrossFt2, 1e-9, name)
	require.InDelta(t, e.TotalFt2, e.GableFt2+l.GrossFt2, 1e-9, name)
	require.Equal(t, e.Sheets, ceilInt((e.GableFt2+l.GrossFt2)/e.SheetFt2), name)
}

func TestPublishedModuleAndCoverage(t *testing.T) {
	p := load(t)
	for _, row := range p.Module {
		got, err := ModuleFt2PerFt(row.SpacingIn)
		require.NoError(t, err)
		require.InDelta(t, row.Ft2PerFt, got, row.Tolerance, p.name(t, row.From))
	}
	for _, row := range p.Coverage {
		name := p.name(t, row.From)
		b := Product{WidthIn: row.BattIn[0], LengthIn: row.BattIn[1], PerPackage: row.Pieces}
		require.InDelta(t, row.BlanketFt2, ft2(b.WidthIn*b.LengthIn)*float64(b.PerPackage), 0.005, name)
		perFt, err := ModuleFt2PerFt(row.ModuleIn)
		require.NoError(t, err, name)
		require.InDelta(t, row.ModuleFt2, perFt*b.LengthIn/12*float64(b.PerPackage), 0.005, name)
	}
	for _, row := range p.TradeWidths.ForSpacing {
		name := p.name(t, p.TradeWidths.From)
		w := plainWall(97.125, 480)
		w.SpacingIn = row[0]
		l, err := w.Layout()
		require.NoError(t, err, name)
		got, err := PickWidth(l, p.TradeWidths.BattIn)
		require.NoError(t, err, name)
		require.InDelta(t, row[1], got, 1e-9, name)
	}
}

func TestThreeConventions(t *testing.T) {
	p := load(t)
	e := p.ThreeWays
	name := p.name(t, e.From)
	b := Product{WidthIn: e.BattIn[0], LengthIn: e.BattIn[1], PerPackage: 1}
	share := e.StudHeightIn / e.WallHeightIn * (e.SpacingIn - StudIn) / e.SpacingIn
	require.InDelta(t, e.ClearShare, share, 0.0005, name)
	for _, way := range []struct {
		a    Area
		want int
	}{
		{Area{Ft2: e.GrossFt2, SpacingIn: e.SpacingIn, BayIn: FeetIn(e.BayFt)[0], How: ByModule}, e.GrossModule},
		{Area{Ft2: e.NetFt2, SpacingIn: e.SpacingIn, BayIn: FeetIn(e.BayFt)[0], How: ByModule}, e.NetModule},
		{Area{Ft2: e.NetFt2, Share: share, How: ByClearShare}, e.NetShare},
	} {
		got, err := way.a.Count(b)
		require.NoError(t, err, name)
		require.Equal(t, way.want, got, name)
	}
	packs, _, err := Packages(e.NetModule, e.Spare, 1)
	require.NoError(t, err, name)
	require.Equal(t, e.NetSpare, packs, name)
}
