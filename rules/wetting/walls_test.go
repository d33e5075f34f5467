package wetting_test

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/moisture"
	"battwright/rules/wetting"
)

// What the tests below build walls of is what ships: the materials of
// data/damp.toml and the packed years.

func base(t testing.TB) *catalog.Catalog {
	t.Helper()
	c, err := catalog.Load(data.Files, nil)
	require.NoError(t, err)
	return c
}

func weatherOf(t testing.TB, c *catalog.Catalog, id string) wetting.Weather {
	t.Helper()
	for _, at := range c.Climates() {
		if at.ID == id {
			w, err := c.Hours(at)
			require.NoError(t, err)
			return w
		}
	}
	t.Fatalf("no climate %s", id)
	return wetting.Weather{}
}

// sectionOf builds a section from its layers, told from the room outwards: a
// name and millimeters. "!" before a name: its room side is watched for mold.
// "~": its inner 4.5 mm are watched for water and the leak comes out there; "_":
// its outer 4.5 mm are watched.
func sectionOf(t testing.TB, c *catalog.Catalog, text string, leak float64) wetting.Section {
	t.Helper()
	l := c.DampLayers()
	sec := wetting.Section{StartC: l.StartC, StartRH: l.StartRH}
	for i, part := range strings.Split(text, ",") {
		part = strings.TrimSpace(part)
		mark := strings.TrimLeft(part, "!~_")
		marks := part[:len(part)-len(mark)]
		name, mm, _ := strings.Cut(mark, " ")
		thick := 0.0
		if mm != "" {
			v, err := strconv.ParseFloat(mm, 64)
			require.NoError(t, err)
			thick = v / 1000
		}
		layer, err := l.Of(name, thick)
		require.NoError(t, err)
		sec.Layers = append(sec.Layers, layer)
		if strings.Contains(marks, "!") {
			sec.Watch = append(sec.Watch, wetting.Watch{Plane: i, Class: wetting.Sensitive})
		}
		if strings.ContainsAny(marks, "~_") {
			sec.Skins = append(sec.Skins, wetting.Skin{Layer: i, DepthM: min(l.SkinMM/1000, thick), Outer: strings.Contains(marks, "_")})
		}
		if strings.Contains(marks, "~") {
			sec.Leaks = append(sec.Leaks, wetting.Leak{Layer: i, M3M2H: leak})
		}
	}
	return sec
}

// Faces of a house.
func north(l *catalog.Layers) wetting.Surface { return wall(l, 0) }

func wall(l *catalog.Layers, azimuth float64) wetting.Surface {
	return wetting.Surface{AzimuthDeg: azimuth, TiltDeg: 90, Absorbs: l.AbsorbsSiding, Emits: l.Emits}
}

// usual is a house as the program assumes it where nobody says otherwise.
func usual(cooled bool) moisture.Indoor {
	return moisture.Indoor{Class: moisture.Usual, HeatingC: 21, Cooled: cooled, CoolingC: 24, CoolAboveC: 21, MaxRHCooled: 0.55, MaxRH: 0.7}
}

const (
	latexWall = "!paint, gypsum 12.5, !fiberglass 140, !~osb 11, wrap, behind-siding 10, softwood 13"
	kraftWall = "paint, gypsum 12.5, kraft, !fiberglass 140, !~osb 11, wrap, behind-siding 10, softwood 13"
	polyWall  = "paint, gypsum 12.5, polyethylene, !fiberglass 140, !~osb 11, wrap, behind-siding 10, softwood 13"
)

// BenchmarkWallYear is a year of a wall in steps of an hour beside the benchmark
// of EN 15026 in the same process: a ratio that no machine changes much.
func BenchmarkWallYear(b *testing.B) {
	c := base(b)
	w := weatherOf(b, c, "chicago-il")
	out, err := w.Outside(north(c.DampLayers()))
	require.NoError(b, err)
	room, err := w.Room(usual(false))
	require.NoError(b, err)
	sec := sectionOf(b, c, kraftWall, 0.03)
	var wallS, enS time.Duration
	for b.Loop() {
		start := time.Now()
		wetting.RunEN(b)
		enS += time.Since(start)
		start = time.Now()
		_, err := wetting.Run(sec, room, out, wetting.Course{Runs: 1, StepH: 1})
		require.NoError(b, err)
		wallS += time.Since(start)
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(wallS.Seconds()*1000/float64(b.N), "ms/year")
	b.ReportMetric(wallS.Seconds()/enS.Seconds(), "year/EN")
	passes, cells, err := wetting.Passes(sec, room, out, 1)
	require.NoError(b, err)
	b.ReportMetric(float64(passes)/8760, "passes/step")
	b.ReportMetric(float64(cells), "cells")
}

func BenchmarkOutside(b *testing.B) {
	c := base(b)
	w := weatherOf(b, c, "chicago-il")
	for b.Loop() {
		_, err := w.Outside(north(c.DampLayers()))
		require.NoError(b, err)
	}
}
