package order

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/testdata/demo"
)

func BenchmarkOrderOfTheDemoHouse(b *testing.B) {
	l := questions(b)
	h, err := house.Read(l, demo.Default, demo.Text(demo.Default))
	require.NoError(b, err)
	a := house.Answered{List: l, House: h}
	p := plan.Make(a)
	b.ReportAllocs()
	for b.Loop() {
		Make(p, a)
	}
}
