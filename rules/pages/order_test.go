package pages_test

import (
	"encoding/csv"
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/strict"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func orderOf(t *testing.T, text string) (order.Order, plan.Plan, pages.Options) {
	t.Helper()
	a := fixture.Read(t, text)
	p := plan.Make(a)
	opts := planned.Options(t)
	opts.Width = 78
	return order.Make(p, a), p, opts
}

func orderOutputs(t *testing.T, o order.Order, p plan.Plan, opts pages.Options) map[string]string {
	t.Helper()
	j, err := pages.OrderJSON(o, p, opts, false)
	require.NoError(t, err)
	c, err := pages.OrderCSV(o, opts)
	require.NoError(t, err)
	return map[string]string{
		"text": print.Text(pages.OrderPage(o, p, opts), opts.Width), "markdown": print.Markdown(pages.OrderPage(o, p, opts)), "json": string(j), "csv": c,
		"ask": print.Text(pages.AskPage(o, p, opts), opts.Width), "ask-markdown": print.Markdown(pages.AskPage(o, p, opts)),
	}
}

// The order of one demo house in each form, as a person reads it.
func TestGoldenOrders(t *testing.T) {
	for _, g := range []struct{ house, form, name string }{
		{"house-in-the-snow", "text", "text78"},
		{"house-in-the-snow", "markdown", "markdown"},
		{"house-in-the-snow", "csv", "csv"},
		{"house-by-the-water", "json", "json"},
		{"house-by-the-water", "ask", "ask78"},
	} {
		o, p, opts := orderOf(t, demo.Text(g.house+".toml"))
		golden(t, "order-"+g.house+"."+g.name, orderOutputs(t, o, p, opts)[g.form])
	}
	o, p, opts := orderOf(t, demo.Text("house-in-the-snow.toml"))
	opts.Width = 40
	golden(t, "order-house-in-the-snow.ask40", print.Text(pages.AskPage(o, p, opts), opts.Width))
}

// quotedDemo is the demo house after the stores answered.
const quotes = `
[[quote]]
product = "fg-13"
usd = 58.4
per = "package"
pieces = 11
width_in = 15
length_in = 93
have = 6
[[quote]]
product = "fg-38"
usd = 1.6
per = "ft2"
[[quote]]
product = "fg-38c"
usd = 1.9
per = "ft2"
[[quote]]
product = "fg-30"
usd = 1.25
per = "ft2"
[[quote]]
product = "fg-25"
usd = 61
per = "package"
coverage_ft2 = 53.33
`

func TestGoldenOrderWithPrices(t *testing.T) {
	o, p, opts := orderOf(t, demo.Text(demo.Default)+quotes)
	text := print.Text(pages.OrderPage(o, p, opts), opts.Width)
	golden(t, "order-house-in-the-snow-quoted.text78", text)
	require.Contains(t, text, "Your prices replace ours in 5 of 8 places.")
	require.Contains(t, spaced(text), "is enough 9 times in 10")
	require.Contains(t, print.Text(pages.PlanPage(p, opts), opts.Width), "at your own price")
	require.NotContains(t, pages.MoneyText(p, units.US), "Rough prices, area times")
}

// What must not be missing, in every form that a person carries.
func TestOrderSaysWhatMatters(t *testing.T) {
	o, p, opts := orderOf(t, demo.Text(demo.Default))
	out := orderOutputs(t, o, p, opts)
	for _, form := range []string{"text", "markdown"} {
		one := strings.Join(strings.Fields(out[form]), " ")
		for _, want := range []string{
			"NOT MEASURED", "R-5 board, outside the studs", "get a quote", "THE LABEL DECIDES", "Keep it dry", "Counted bay by bay", "Counted by area", "stays EMPTY",
			"N95 respirators", "No odds before your own prices", "NOT IN IT", "low, ", "typical, ", "Licensed", "2025",
		} {
			require.Contains(t, strings.ToLower(one), strings.ToLower(want), form)
		}
		require.NotRegexp(t, `(?i)code met|guarantee|\bstays dry\b`, one)
	}
	require.GreaterOrEqual(t, strings.Count(out["ask"], "____"), 60)
	var v map[string]any
	require.NoError(t, json.Unmarshal([]byte(out["json"]), &v))
	require.NotContains(t, out["json"], "null")
	rows, err := csv.NewReader(strings.NewReader(out["csv"])).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 15)
}

// No line is wider than asked, whatever the width, the names and the prices,
// and nothing passes that a terminal or a spreadsheet would obey.
func TestOrderPagesAreCleanAndFit(t *testing.T) {
	o, p, opts := orderOf(t, demo.Text(demo.Default)+quotes)
	rng := rand.New(rand.NewPCG(61, 62))
	for range 40 {
		name := nasty[rng.IntN(len(nasty))]
		o.Places[rng.IntN(len(o.Places))].Label = name
		p.Name = name
		o.Lines[rng.IntN(len(o.Lines))].Places = []string{name, "wall"}
		o.Goods[rng.IntN(len(o.Goods))].Places = []string{name}
		opts.Width, opts.System = 40+rng.IntN(81), units.System(rng.IntN(2))
		out := orderOutputs(t, o, p, opts)
		for form, text := range out {
			for _, l := range strings.Split(text, "\n") {
				if form == "text" || form == "ask" {
					require.LessOrEqual(t, utf8.RuneCountInString(l), opts.Width, "%s: %q", form, l)
				}
				clean, changed := strict.CleanText(l)
				require.False(t, changed && form != "json", "%s: %q", form, clean)
			}
		}
		rows, err := csv.NewReader(strings.NewReader(out["csv"])).ReadAll()
		require.NoError(t, err)
		for _, r := range rows {
			for _, cell := range r {
				require.False(t, cell != "" && strings.ContainsRune("=+-@", rune(cell[0])), "%q", cell)
			}
		}
	}
}

// The plan's JSON holds the order of each place when the order was made.
func TestPlanJSONHasTheOrder(t *testing.T) {
	o, p, opts := orderOf(t, demo.Text(demo.Default))
	opts.Order = &o
	b, err := pages.JSON(p, opts, false)
	require.NoError(t, err)
	var v struct {
		Places []struct {
			ID    string
			Order []struct {
				Product  string
				WidthIn  float64 `json:"width_in"`
				LengthIn float64 `json:"length_in"`
				Pieces   int
				Packages int
				Spare    *int `json:"spare_pieces"`
				From     []string
			}
		}
	}
	require.NoError(t, json.Unmarshal(b, &v))
	require.Len(t, v.Places, len(o.Places))
	for i, place := range v.Places {
		require.Len(t, place.Order, len(o.Places[i].Layers))
		for j, l := range place.Order {
			require.Equal(t, o.Places[i].Layers[j].Product.ID, l.Product)
			require.Equal(t, o.Places[i].Layers[j].Stock, l.Pieces)
			require.NotNil(t, l.Spare)
			require.NotEmpty(t, l.From)
			require.Positive(t, l.WidthIn*l.LengthIn*float64(l.Packages))
		}
	}
}
