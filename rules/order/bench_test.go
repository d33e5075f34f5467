package order

import (
	"testing"

	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

func BenchmarkOrderOfTheDemoHouse(b *testing.B) {
	a := fixture.Demo(b, demo.Default)
	p := plan.Make(a)
	b.ReportAllocs()
	for b.Loop() {
		Make(p, a)
	}
}
