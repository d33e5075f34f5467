package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// Packages that are there already are used, whatever price was typed for more of them,
// and a price of one kind of face drives no other kind out.
func TestPackagesThatAreThereAreUsed(t *testing.T) {
	const quote = "[[quote]]\nproduct = \"fg-38\"\nfacing = \"none\"\nusd = 99\nper = \"package\"\nwidth_in = 24\nlength_in = 48\npieces = 6\nhave = 14\n"
	p := plan.Make(fixture.Read(t, demo.Text(demo.Default)+quote))
	have := 0
	for _, l := range p.Bill.Lines {
		have += l.Have
	}
	require.Equal(t, 14, have)

	free := plan.Make(fixture.Demo(t, demo.Default))
	faced := plan.Make(fixture.Read(t, demo.Text(demo.Default)+"[[quote]]\nproduct = \"fg-38\"\nfacing = \"kraft\"\nusd = 999\nper = \"package\"\nwidth_in = 24\nlength_in = 48\npieces = 6\n"))
	require.Equal(t, "none", free.Places[0].Choice.Facing.OnBlanket)
	require.Equal(t, free.Places[0].Choice.Layers, faced.Places[0].Choice.Layers)
}
