package plan_test

import (
	"testing"

	"battwright/rules"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

type ruleHit = rules.Hit

func BenchmarkAssess(b *testing.B) {
	a := fixture.Demo(b, demo.Default)
	b.ReportAllocs()
	for b.Loop() {
		_ = plan.Assess(a)
	}
}

func BenchmarkUpdate(b *testing.B) {
	a := fixture.Demo(b, demo.Default)
	assessed := plan.Assess(a)
	b.ReportAllocs()
	for b.Loop() {
		_ = assessed.Update(a, "street-wall")
	}
}

func BenchmarkWeigh(b *testing.B) {
	a := fixture.Demo(b, demo.Default)
	assessed, prefs := plan.Assess(a), plan.PreferencesOf(a, nil)
	b.ReportAllocs()
	for b.Loop() {
		_ = assessed.Weigh(prefs)
	}
}

func BenchmarkSure(b *testing.B) {
	p := plan.Make(fixture.Demo(b, demo.Default))
	b.ReportAllocs()
	for b.Loop() {
		for _, place := range p.Places {
			_ = place.SureOf(5)
		}
	}
}
