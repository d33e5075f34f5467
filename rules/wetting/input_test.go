package wetting

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/moisture"
)

// What cannot be is told, with its kind, before anything is worked out.
func TestImpossibleInput(t *testing.T) {
	nan := math.NaN()
	good := func() (Section, []Edge, []Edge, Course) {
		room, out := harshClimate(2)
		return harsh(), room, out, Course{Runs: 1, StepH: 1}
	}
	sec, room, out, course := good()
	_, err := Run(sec, room, out, course)
	require.NoError(t, err)
	wood := *harsh().Layers[0].Of
	material := func(change func(*Material)) func(*Section) {
		return func(s *Section) {
			m := wood
			change(&m)
			s.Layers[0].Of = &m
		}
	}
	for name, c := range map[string]struct {
		kind   error
		change func(*Section)
	}{
		"no layers":           {ErrSection, func(s *Section) { s.Layers = nil }},
		"sheets alone":        {ErrSection, func(s *Section) { *s = Section{Layers: s.Layers[1:2]} }},
		"nothing":             {ErrSection, func(s *Section) { s.Layers[0] = Layer{} }},
		"two kinds":           {ErrSection, func(s *Section) { s.Layers[0].Air = s.Layers[5].Air }},
		"thick sheet":         {ErrSection, func(s *Section) { s.Layers[1].ThickM = 0.1 }},
		"thin layer":          {ErrSection, func(s *Section) { s.Layers[0].ThickM = 0 }},
		"NaN thickness":       {ErrSection, func(s *Section) { s.Layers[0].ThickM = nan }},
		"cells":               {ErrSection, func(s *Section) { s.Layers[0].Cells = -1 }},
		"pieces":              {ErrSection, func(s *Section) { s.Fine = 99 }},
		"start C":             {ErrSection, func(s *Section) { s.StartC = nan }},
		"start RH":            {ErrSection, func(s *Section) { s.StartRH = 1.1 }},
		"permeance":           {ErrSection, func(s *Section) { s.Layers[1].Sheet = flat(-1) }},
		"falling permeance":   {ErrSection, func(s *Section) { s.Layers[1].Sheet = Curve{{0.5, 1e-9}, {0.4, 1e-9}} }},
		"leak into a sheet":   {ErrSection, func(s *Section) { s.Leaks[0].Layer = 1 }},
		"leak nowhere":        {ErrSection, func(s *Section) { s.Leaks[0].Layer = 99 }},
		"leak":                {ErrSection, func(s *Section) { s.Leaks[0].M3M2H = -1 }},
		"plane":               {ErrSection, func(s *Section) { s.Watch[0].Plane = 8 }},
		"class":               {ErrSection, func(s *Section) { s.Watch[0].Class = 0 }},
		"deep skin":           {ErrSection, func(s *Section) { s.Skins[0].DepthM = 1 }},
		"skin of air":         {ErrSection, func(s *Section) { s.Skins[0].Layer = 5 }},
		"two skins":           {ErrSection, func(s *Section) { s.Skins = append(s.Skins, s.Skins[0]) }},
		"faces of air":        {ErrSection, func(s *Section) { s.Layers[5].Air = &Air{} }},
		"wind in air":         {ErrSection, func(s *Section) { s.Layers[5].Air = &Air{FaceWM2K: 1, FaceKG: 1e-8, PerHourPerMS: nan} }},
		"density":             {ErrMaterial, material(func(m *Material) { m.DensityKGM3 = 0 })},
		"full":                {ErrMaterial, material(func(m *Material) { m.FullKGM3 = 1 })},
		"no sorption":         {ErrMaterial, material(func(m *Material) { m.Sorption = nil })},
		"falling sorption":    {ErrMaterial, material(func(m *Material) { m.Sorption = Curve{{0.5, 9}, {1, 3}} })},
		"sorption ends early": {ErrMaterial, material(func(m *Material) { m.Sorption = Curve{{0.5, 9}} })},
		"water in dry air":    {ErrMaterial, material(func(m *Material) { m.Sorption = Curve{{0, 9}, {1, 10}} })},
		"vapor":               {ErrMaterial, material(func(m *Material) { m.Vapor = flat(nan) })},
		"liquid":              {ErrMaterial, material(func(m *Material) { m.Liquid = flat(0) })},
	} {
		sec, room, out, course := good()
		c.change(&sec)
		_, err := Run(sec, room, out, course)
		require.ErrorIs(t, err, c.kind, name)
	}
	for name, c := range map[string]struct {
		kind   error
		change func(room, out *[]Edge, course *Course)
	}{
		"hours":          {ErrClimate, func(room, out *[]Edge, _ *Course) { *room = (*room)[:24] }},
		"half a day":     {ErrClimate, func(room, out *[]Edge, _ *Course) { *room, *out = (*room)[:12], (*out)[:12] }},
		"no hours":       {ErrClimate, func(room, out *[]Edge, _ *Course) { *room, *out = nil, nil }},
		"air":            {ErrClimate, func(room, _ *[]Edge, _ *Course) { (*room)[3].AirC = nan }},
		"vapor pressure": {ErrClimate, func(room, _ *[]Edge, _ *Course) { (*room)[3].VaporPa = -1 }},
		"sun":            {ErrClimate, func(_, out *[]Edge, _ *Course) { (*out)[3].AbsorbedWM2 = 1e6 }},
		"sun and film":   {ErrClimate, func(_, out *[]Edge, _ *Course) { (*out)[3].AbsorbedWM2, (*out)[3].HeatWM2K = 1000, 0.1 }},
		"film":           {ErrClimate, func(_, out *[]Edge, _ *Course) { (*out)[3].HeatWM2K = 0 }},
		"vapor film":     {ErrClimate, func(_, out *[]Edge, _ *Course) { (*out)[3].VaporKG = 0 }},
		"wind":           {ErrClimate, func(_, out *[]Edge, _ *Course) { (*out)[3].WindMS = -1 }},
		"runs":           {ErrStep, func(_, _ *[]Edge, c *Course) { c.Runs = 0 }},
		"step":           {ErrStep, func(_, _ *[]Edge, c *Course) { c.StepH = 0.7 }},
		"long step":      {ErrStep, func(_, _ *[]Edge, c *Course) { c.StepH = 5 }},
		"no step":        {ErrStep, func(_, _ *[]Edge, c *Course) { c.StepH = 0 }},
		"coarse step":    {ErrStep, func(_, _ *[]Edge, c *Course) { c.CoarseH = nan }},
	} {
		sec, room, out, course := good()
		c.change(&room, &out, &course)
		_, err := Run(sec, room, out, course)
		require.ErrorIs(t, err, c.kind, name)
	}
}

// The empty course is that of a verdict: two years, the first coarsely.
func TestEmptyCourse(t *testing.T) {
	room, out := harshClimate(30)
	a, err := Run(harsh(), room, out, Course{})
	require.NoError(t, err)
	b, err := Run(harsh(), room, out, Course{Runs: 2, StepH: 1, CoarseH: 3})
	require.NoError(t, err)
	require.Equal(t, b, a)
	require.Len(t, a.Planes, 4)
	require.Len(t, a.Planes[0].Days, 30)
	require.Len(t, a.Skins[0].Days, 30)
	last := a.Planes[2].Days[29]
	require.LessOrEqual(t, last.Mold, a.Planes[2].Mold)
	require.InDelta(t, 0.5, last.RH, 0.5)
}

// The worst month is the highest mean of 30 days that ends in the judged run.
func TestWorstMonth(t *testing.T) {
	days := make([]float64, 100)
	for i := range days {
		if i >= 30 && i < 60 {
			days[i] = 1
		}
	}
	at := func(i int) float64 { return days[i] }
	require.InDelta(t, 1, worstMonth(100, 50, at), 1e-12)
	require.InDelta(t, 0.5, worstMonth(100, 74, at), 1e-12)
	require.InDelta(t, 0, worstMonth(100, 95, at), 1e-12)
	require.InDelta(t, 0.0, worstMonth(20, 0, at), 1e-12)
	require.InDelta(t, 10.0/30, worstMonth(40, 39, at), 1e-12)
}

// A room follows the day that ends, is heated, cooled and capped as its house.
func TestRoom(t *testing.T) {
	w := Weather{Hours: make([]Hour, 72)}
	for i := range w.Hours {
		w.Hours[i] = Hour{TempC: 30, DewC: 26}
		if i >= 48 {
			w.Hours[i] = Hour{TempC: 0, DewC: -5}
		}
	}
	in := moisture.Indoor{Class: moisture.Usual, HeatingC: 21, Cooled: true, CoolingC: 24, CoolAboveC: 21, MaxRHCooled: 0.55, MaxRH: 0.7}
	room, err := w.Room(in)
	require.NoError(t, err)
	require.InDelta(t, 24, room[47].AirC, 1e-9)
	require.InDelta(t, 0.55*saturation(24), room[47].VaporPa, 1e-6)
	require.InDelta(t, 24, room[50].AirC, 1e-9, "the day was warm")
	require.InDelta(t, 21, room[71].AirC, 1e-9)
	// 4 g/m3 over the outdoor air (ideal gas).
	require.InDelta(t, overWater(-5)+0.004*461.5*294.15, room[71].VaporPa, 1e-6)
	_, err = w.Room(moisture.Indoor{HeatingC: 99})
	require.ErrorIs(t, err, moisture.ErrTemperature)
	_, err = (&Weather{}).Room(in)
	require.ErrorIs(t, err, ErrClimate)
}

func TestSoil(t *testing.T) {
	soil := Soil(8760, 8, 6, 220, 20)
	require.InDelta(t, 14, soil[220*24].AirC, 0.01)
	require.InDelta(t, 2, soil[37*24].AirC, 0.01)
	require.InDelta(t, saturation(14), soil[220*24].VaporPa, 0.5)
	require.Empty(t, Soil(-1, 8, 6, 220, 20))
}

// A dehumidifier that runs from May to September holds the air down in those months
// and in no other: what is said of it is what is worked out.
func TestRoomDriedInSummer(t *testing.T) {
	w := Weather{LatDeg: 42, Hours: make([]Hour, 365*dayH)}
	for i := range w.Hours {
		w.Hours[i] = Hour{TempC: 18, DewC: 16}
	}
	in := moisture.Indoor{Class: moisture.Usual, HeatingC: 21, MaxRH: 0.7, MaxRHCooled: 0.55}
	open, err := w.Room(in)
	require.NoError(t, err)
	in.DriedRH = 0.55
	dried, err := w.Room(in)
	require.NoError(t, err)
	for i := range open {
		if day := i / dayH; day < 31+28+31+30 || day >= 365-31-30-31 { // before May, from October on
			require.Equal(t, open[i], dried[i], day)
			continue
		}
		require.InDelta(t, 0.55*saturation(dried[i].AirC), dried[i].VaporPa, 1e-9)
		require.Greater(t, open[i].VaporPa, dried[i].VaporPa)
	}
}
