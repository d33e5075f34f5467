package pages_test

import (
	"encoding/csv"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// What must be settled before work begins stands on the list to find out, beside
// the money, and in the rows for a machine.
func TestWhatHoldsWorkStandsOnListMoneyAndRows(t *testing.T) {
	o := planned.Options(t)
	p := plan.Make(fixture.OfPlaces(t, "zone = \"6A\"",
		"id = \"a\"\nkind = \"attic\"\nlabel = \"Top\"\nnon_ic_lights = true\nflue_through = false\nbath_fan_outside = true\nvents_ok = true",
		"id = \"c\"\nkind = \"chimney\"\nlabel = \"Stack\"\nchimney = \"masonry-inside\"\ngap_in = 1\nframing.size = \"2x6\""))
	require.True(t, p.Places[1].Stopped())
	says := func(name, want string, rows ...string) {
		require.True(t, slices.ContainsFunc(rows, func(s string) bool { return strings.Contains(s, want) }), "%s: %q is not in %q", name, want, rows)
	}
	texts := func(i int) (money, open []string) {
		for _, r := range pages.MoneyPage(p, o).Blocks[i].Rows {
			money = append(money, r.Label+": "+r.Text)
		}
		for _, r := range pages.FindOutPage(p, nil, o).Blocks[i].Rows {
			open = append(open, r.Text)
		}
		return money, open
	}
	money, open := texts(0)
	says("money", "Stack: STOP: ", money...)
	says("money", "Top: BEFORE YOU BEGIN: ", money...)
	says("open", "Stack: STOP: ", open...)
	says("open", "Top: BEFORE YOU BEGIN: ", open...)
	table, err := pages.CSV(p, o)
	require.NoError(t, err)
	require.Contains(t, table, "BEFORE YOU BEGIN: fits")
	no, err := pages.CSV(plan.Make(fixture.Read(t, "version = 1\n[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nknob_and_tube = false\n")), o)
	require.NoError(t, err)
	require.Contains(t, no, "FIND OUT FIRST: ", "without a climate zone no row just fits")
}

// The picture of a place has every layer that the plan requires there.
func TestPictureHasWhatThePlanRequires(t *testing.T) {
	for site, row := range map[string][2]string{
		"zone = \"6A\"": {"kind = \"rim-joist\"", "unfaced foam cut to each bay"},
		"state = \"FL\"\ncounty = \"Miami-Dade\"\ncooled = true": {"kind = \"crawl-space\"\nvented = true\nground_cover = true\ndampness = \"dry\"", "the layer under the joists"},
	} {
		p := plan.Make(fixture.OfPlaces(t, site, "id = \"p\"\n"+row[0])).Places[0]
		require.NotNil(t, p.Choice, site)
		var names []string
		for _, l := range p.Choice.Stack(p.Surface, fixture.Catalog(t), p.Target) {
			names = append(names, l.Name)
		}
		require.Contains(t, names, row[1])
	}
}

// The rows of an order add up to its last one, work included.
func TestOrderRowsAddUp(t *testing.T) {
	for _, name := range demo.Names() {
		a := fixture.Demo(t, name)
		made := order.Make(plan.Make(a), a)
		text, err := pages.OrderCSV(made, planned.Options(t))
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		require.NoError(t, err)
		column, sum := slices.Index(rows[0], "typical_usd"), 0.0
		for _, r := range rows[1 : len(rows)-1] {
			if usd, err := strconv.ParseFloat(r[column], 64); err == nil {
				sum += usd
			}
		}
		last := rows[len(rows)-1]
		require.Equal(t, "all together", last[0])
		total, err := strconv.ParseFloat(last[column], 64)
		require.NoError(t, err)
		require.InDelta(t, total, sum, 0.05, name)
	}
}
