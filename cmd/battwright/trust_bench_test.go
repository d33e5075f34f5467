package main

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/demo"
)

// manyPlaces is the demo house with its places again and again.
func manyPlaces(t testing.TB, n int) house.Answered {
	t.Helper()
	c, err := loadCatalog("")
	require.NoError(t, err)
	l := house.NewList(c)
	h, err := house.Read(l, demo.Default, demo.Text(demo.Default))
	require.NoError(t, err)
	first := h.Clone().Places
	h.Places = nil
	for i := range n {
		p := first[i%len(first)]
		p.ID = fmt.Sprintf("%s-%d", p.ID, i)
		p.Answers = p.Answers.Clone()
		h.Places = append(h.Places, p)
	}
	return house.Answered{List: l, House: h}
}

func BenchmarkLoad(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := loadCatalog(""); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadHouse(b *testing.B) {
	a := manyPlaces(b, 1)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := house.Read(a.List, demo.Default, demo.Text(demo.Default)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAssess12(b *testing.B) {
	a := manyPlaces(b, 12)
	b.ReportAllocs()
	for b.Loop() {
		plan.Assess(a)
	}
}

func BenchmarkWeigh12(b *testing.B) {
	a := manyPlaces(b, 12)
	assessed, prefs := plan.Assess(a), plan.PreferencesOf(a, nil)
	b.ReportAllocs()
	for b.Loop() {
		assessed.Weigh(prefs)
	}
}

// BenchmarkWeigh12NoBudget is the same where the money is not bounded.
func BenchmarkWeigh12NoBudget(b *testing.B) {
	a := manyPlaces(b, 12)
	assessed, prefs := plan.Assess(a), plan.PreferencesOf(a, nil)
	prefs.HasBudget = false
	b.ReportAllocs()
	for b.Loop() {
		assessed.Weigh(prefs)
	}
}

func BenchmarkShares12(b *testing.B) {
	a := manyPlaces(b, 12)
	p := plan.Make(a)
	b.ReportAllocs()
	for b.Loop() {
		for _, place := range p.Places {
			place.SureOf(5)
		}
	}
}

func BenchmarkOrder12(b *testing.B) {
	a := manyPlaces(b, 12)
	p := plan.Make(a)
	b.ReportAllocs()
	for b.Loop() {
		order.Make(p, a)
	}
}

func BenchmarkText12(b *testing.B) {
	a := manyPlaces(b, 12)
	p, o := plan.Make(a), pages.Options{Catalog: a.List.Catalog()}
	b.ReportAllocs()
	for b.Loop() {
		print.Text(pages.PlanPage(p, o), 0)
	}
}

// BenchmarkGrowth reports how the time grows with the number of places, as
// the slope of the line through 1, 10, 100 and 1,000 places on logarithmic
// axes: 1 is linear. Twelve times the time for ten times the places is 1.08.
func BenchmarkGrowth(b *testing.B) {
	prefs := func(a house.Answered, budget bool) plan.Preferences {
		p := plan.PreferencesOf(a, nil)
		p.HasBudget = budget && p.HasBudget
		return p
	}
	for _, c := range []struct {
		name string
		work func(house.Answered) func()
	}{
		{"assess", func(a house.Answered) func() { return func() { plan.Assess(a) } }},
		{"weigh", func(a house.Answered) func() {
			assessed := plan.Assess(a)
			return func() { assessed.Weigh(prefs(a, false)) }
		}},
		{"weigh-budget", func(a house.Answered) func() {
			assessed := plan.Assess(a)
			return func() { assessed.Weigh(prefs(a, true)) }
		}},
	} {
		b.Run(c.name, func(b *testing.B) {
			var x, y []float64
			worst := 0.0
			for b.Loop() {
				x, y, worst = nil, nil, 0
				for _, n := range []int{1, 10, 100, 1000} {
					took := best(c.work(manyPlaces(b, n)))
					if len(y) > 0 {
						worst = max(worst, took.Seconds()/math.Exp(y[len(y)-1]))
					}
					x, y = append(x, math.Log(float64(n))), append(y, math.Log(took.Seconds()))
					b.ReportMetric(took.Seconds()*1e6, fmt.Sprintf("us/%d-places", n))
				}
			}
			b.ReportMetric(slope(x, y), "slope")
			b.ReportMetric(worst, "times-for-10x")
		})
	}
}

// best is the least of some runs: what the work takes on a machine that does
// nothing else.
func best(work func()) time.Duration {
	least := time.Duration(math.MaxInt64)
	for began, n := time.Now(), 0; n < 3 || n < 50 && time.Since(began) < 200*time.Millisecond; n++ {
		at := time.Now()
		work()
		least = min(least, time.Since(at))
	}
	return least
}

// slope is that of the least squares line.
func slope(x, y []float64) float64 {
	var mx, my, up, down float64
	for i := range x {
		mx, my = mx+x[i]/float64(len(x)), my+y[i]/float64(len(y))
	}
	for i := range x {
		up, down = up+(x[i]-mx)*(y[i]-my), down+(x[i]-mx)*(x[i]-mx)
	}
	return up / down
}
