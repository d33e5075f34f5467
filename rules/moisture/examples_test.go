package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

func siLayers(rows []layerRow) []Layer {
	out := make([]Layer, 0, len(rows))
	for _, l := range rows {
		out = append(out, Layer{Name: l.Name, RM2KW: l.R + ip(l.RIP), SdM: l.Sd, Sensitive: true})
	}
	return out
}

// same is a year that does not change.
func same(m Month) (months [Months]Month) {
	for i := range months {
		months[i] = m
	}
	return months
}

// rate is what a plane collects in a year that does not change, kg/(m2.s).
func rate(p Plane, m Month) float64 { return p.GainGM2[0] / gPerKg / (m.Days * secPerDay) }

// satAt is the saturation pressure at interface i, Pa.
func satAt(r Result, i int) float64 { return r.Interfaces[i].Pa[0] / r.Interfaces[i].RH[0] }

// Table period_wall (textbook example of DIN 4108-3, read): a winter that does not change, then a drying period.
func TestPeriodWall(t *testing.T) {
	e := published(t).PeriodWall
	m := Month{OutC: e.OutC, OutPa: e.OutPa, InC: e.InC, InPa: e.InPa, Days: 90}
	r := year(t, siLayers(e.Layers), e.Rsi, e.Rse, same(m), Options{Limits: limits})
	heat := (e.InC - r.Interfaces[0].TempC[0]) / e.Rsi
	require.InDelta(t, e.TotalR, (e.InC-e.OutC)/heat, 0.0005)
	require.InDelta(t, e.HeatWM2, heat, 0.0005)
	for i := range e.FaceC {
		require.InDelta(t, e.FaceC[i], r.Interfaces[i].TempC[0], 0.051, "face %d", i)
		require.InEpsilon(t, e.FaceSatPa[i], satAt(r, i), 0.003, "face %d", i)
	}
	require.Len(t, r.Planes, 1)
	plane := r.Planes[0]
	require.Equal(t, e.PlaneInner, plane.Inner)
	require.Equal(t, e.PlaneInner+1, plane.Outer)
	require.InDelta(t, 1, plane.Share, 1e-9)
	require.InEpsilon(t, e.Rate, rate(plane, m), 0.01) // the source reads a rounded pressure table
	require.InEpsilon(t, e.Condensed, rate(plane, m)*e.Seconds, 0.01)

	var inSd float64
	for _, l := range e.Layers[:e.PlaneInner+1] {
		inSd += l.Sd
	}
	outSd := e.TotalSd - inSd
	planePa := r.Interfaces[e.PlaneInner+1].Pa[0]
	require.InEpsilon(t, NetRate(e.InPa, inSd, planePa, e.OutPa, outSd), rate(plane, m), 1e-9)
	drying := -NetRate(e.SummerPa, inSd, e.SummerPlanePa, e.SummerPa, outSd)
	require.InEpsilon(t, e.Drying, drying, 0.001)
	require.InEpsilon(t, e.Dried, drying*e.Seconds, 0.001)
}

// The same wall through the yearly method: 3 winter months wet it by what the
// period method says, 3 summer months dry it, and the rest is neutral.
func TestPeriodWallThroughTheYear(t *testing.T) {
	e := published(t).PeriodWall
	l := math.Log(e.SummerPlanePa / satRefPa) // the plane is at saturation there
	summerC := waterShiftC * l / (waterFactor - l)
	var months [Months]Month
	for m := range months {
		months[m] = Month{OutC: summerC, OutPa: e.SummerPa, InC: summerC, InPa: e.SummerPa, Days: 30}
		if m < 3 {
			months[m] = Month{OutC: e.OutC, OutPa: e.OutPa, InC: e.InC, InPa: e.InPa, Days: 30}
		}
	}
	r := year(t, siLayers(e.Layers), e.Rsi, e.Rse, months, Options{Limits: limits})
	require.InEpsilon(t, e.Condensed*gPerKg, r.PeakGM2, 0.01)
	require.Equal(t, 3, r.PeakMonth)
	require.Equal(t, 5, r.ClearMonth, "0.27 of 0.66 kg/m2 takes 37 of 90 days")
	require.InEpsilon(t, -e.Dried*gPerKg/3, r.Planes[0].GainGM2[3], 0.002)
}

type frameWallIP struct {
	InF           float64 `json:"in_f"`
	InRH          float64 `json:"in_rh"`
	OutF          float64 `json:"out_f"`
	OutRH         float64 `json:"out_rh"`
	Layers        []layerRow
	RetarderAfter int       `json:"retarder_after"`
	TotalRIP      float64   `json:"total_r_ip"`
	FaceF         []float64 `json:"face_f"`
	SatInHg       float64   `json:"sheathing_sat_inhg"`
	Rows          []struct {
		Retarder  float64 `json:"retarder_perm"`
		Condenses bool
		Net       float64 `json:"net_gr_ft2_h"`
		Flow      float64 `json:"flow_gr_ft2_h"`
		Relative  float64
	}
}

// Table frame_wall_ip (US handbook example, from memory), in its own units; the air films are layers there.
func TestFrameWallInUSUnits(t *testing.T) {
	const (
		paPerInHg   = 3386.389
		grFt2hPerSI = 1 / (0.6975 / gPerKg / 3600) // 1 grain/(ft2 h) = 0.6975 g/(m2 h)
		sheathing   = 3                            // its inner face, films and all, without retarder
	)
	e := published(t).FrameWallIP
	inC, outC := units.FToC(e.InF), units.FToC(e.OutF)
	m := Month{InC: inC, OutC: outC, InPa: e.InRH * satPa(inC), OutPa: e.OutRH * satPa(outC), Days: 1}
	for _, row := range e.Rows {
		layers, face := []Layer{}, sheathing
		for i, l := range e.Layers {
			layers = append(layers, Layer{Name: l.Name, RM2KW: ip(l.RIP), SdM: units.SdMPerPerm / l.Perm, Sensitive: true})
			if i == e.RetarderAfter && row.Retarder > 0 {
				layers = append(layers, Layer{Name: "retarder", SdM: units.SdMPerPerm / row.Retarder})
				face++
			}
		}
		r := year(t, layers, 0, 0, same(m), Options{Limits: limits})
		faces, last := r.Interfaces, len(layers)
		heat := (inC - faces[1].TempC[0]) / layers[0].RM2KW
		require.InDelta(t, e.TotalRIP, (inC-outC)/heat*units.RIPPerRSI, 0.01)
		require.InEpsilon(t, e.SatInHg, satAt(r, face)/paPerInHg, 0.006) // printed from water over ice
		if row.Retarder == 0 {
			for i, want := range e.FaceF {
				require.InDelta(t, want, units.CToF(faces[i+1].TempC[0]), 0.06)
			}
		}
		require.Equal(t, row.Condenses, len(r.Planes) > 0, "%v perm", row.Retarder)
		if row.Net > 0 {
			require.Len(t, r.Planes, 1)
			require.InEpsilon(t, row.Net, rate(r.Planes[0], m)*grFt2hPerSI, row.Relative)
		}
		if row.Flow > 0 {
			in := DeltaAir * (faces[0].Pa[0] - faces[1].Pa[0]) / layers[0].SdM
			out := DeltaAir * (faces[last-1].Pa[0] - faces[last].Pa[0]) / layers[last-1].SdM
			require.InEpsilon(t, row.Flow, in*grFt2hPerSI, row.Relative)
			require.InEpsilon(t, in, out, 1e-6, "what enters leaves")
		}
	}
}
