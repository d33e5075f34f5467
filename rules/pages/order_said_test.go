package pages_test

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func ordered(t *testing.T, text string) (plan.Plan, order.Order) {
	t.Helper()
	o, p, _ := orderOf(t, text)
	return p, o
}

// block is the rows of the blocks of one kind, a line each.
func block(o order.Order, opts pages.Options, id string) string {
	var rows []string
	for _, b := range pages.OrderBlocks(o, opts) {
		if b.ID == id {
			for _, r := range b.Rows {
				rows = append(rows, r.Text)
			}
		}
	}
	return strings.Join(rows, "\n")
}

const twoWalls = `version = 1
drawings = false
old = false
[site]
state = "VT"
county = "Chittenden"
[[place]]
id = "gables"
kind = "exterior-wall"
label = "Gable ends"
pin = "fiberglass"
lengths_ft = [24, 24]
height_ft = 8
openings = []
framing.size = "2x6"
area_ft2 = 528
[[place]]
id = "wide"
kind = "exterior-wall"
label = "Wide wall"
lengths_ft = [24]
height_ft = 8
openings = []
framing.size = "2x6"
framing.spacing_in = 32
`

// Who carries the shopping list to the store reads what is not on it and where
// sizes disagree; and both the name here and the word on the bag.
func TestTheShoppingListSaysWhatItLacks(t *testing.T) {
	_, o := ordered(t, twoWalls)
	text := block(o, planned.Options(t), "shopping")
	require.Contains(t, text, "SIZES DISAGREE, Gable ends")
	require.Contains(t, text, "NOTHING HERE FOR Wide wall")
	require.Contains(t, text, "paper face (kraft faced)")
	require.Contains(t, block(o, planned.Options(t), "label"), "kraft faced")
	a := fixture.Demo(t, demo.Default)
	require.Contains(t, block(order.Make(plan.Make(a), a), planned.Options(t), "shopping"), "4 packages would just hold the count; the last one")
}

// With every place stopped nothing is priced, and the list says why.
func TestAHouseOfStoppedPlacesOrdersNothing(t *testing.T) {
	_, o := ordered(t, strings.Split(twoWalls, "[[place]]")[0]+"[[place]]\nid = \"a\"\nkind = \"attic\"\nlabel = \"Attic\"\nknob_and_tube = true\nlength_ft = 30\nwidth_ft = 20\n")
	require.Empty(t, o.Lines)
	text := block(o, planned.Options(t), "shopping")
	require.Contains(t, text, "NOTHING HERE FOR Attic")
	require.Contains(t, text, "No blanket can be ordered yet")
	require.Empty(t, block(o, planned.Options(t), "money"))
	require.Empty(t, o.Money.Word())
}

// The store's package is not ours: the asking sheet names what was counted and
// what it is with the spare, by hand 23 batts and 5 % of them.
func TestTheAskingSheetNamesWhatWasCounted(t *testing.T) {
	for _, name := range demo.Names() {
		a := fixture.Demo(t, name)
		p := plan.Make(a)
		o := order.Make(p, a)
		text := print.Text(pages.AskPage(o, p, planned.Options(t)), planned.Options(t).Width)
		for _, l := range o.Lines {
			require.Contains(t, text, fmt.Sprintf("%d %ss counted, %d with spare", l.Stock, l.Form, l.WithSpare))
			require.GreaterOrEqual(t, l.WithSpare, l.Stock)
			require.LessOrEqual(t, l.WithSpare, l.Stock+l.Spare)
		}
	}
	a := fixture.Demo(t, demo.Default)
	p := plan.Make(a)
	require.Contains(t, print.Text(pages.AskPage(order.Make(p, a), p, planned.Options(t)), planned.Options(t).Width), "23 batts counted, 25 with spare")
}

// Nobody cuts a strip narrower than 2 in out of a thick blanket: none is listed
// as a cut (common practice, no source).
func TestNoStripIsListedAsACut(t *testing.T) {
	width := regexp.MustCompile(`(?:^|[ (])((?:\d+ )?\d+(?:/\d+)?) in x`)
	strips := false
	for _, name := range demo.Names() {
		a := fixture.Demo(t, name)
		text := block(order.Make(plan.Make(a), a), planned.Options(t), "cutting")
		strips = strips || strings.Contains(text, "strips of what is left over")
		for _, m := range width.FindAllStringSubmatch(text, -1) {
			require.GreaterOrEqual(t, inchesOf(t, m[1]), 2.0, "%s: %s", name, m[0])
		}
	}
	require.True(t, strips, "some house has such spaces")
}

func inchesOf(t *testing.T, s string) float64 {
	t.Helper()
	sum := 0.0
	for _, part := range strings.Fields(s) {
		top, bottom, frac := strings.Cut(part, "/")
		v, err := strconv.ParseFloat(top, 64)
		require.NoError(t, err)
		if frac {
			d, err := strconv.ParseFloat(bottom, 64)
			require.NoError(t, err)
			v /= d
		}
		sum += v
	}
	return sum
}

// Zero of so many places is not said.
func TestOwnPricesAreCountedOrNotSaid(t *testing.T) {
	require.Empty(t, pages.QuotedText(0, 0, 7))
	require.Contains(t, pages.QuotedText(0, 1, 7), "part of the blankets in 1 of 7")
	require.Contains(t, pages.QuotedText(2, 1, 7), "2 of 7 places, and for part of the blankets in 1 more")
	require.Equal(t, "Your prices replace ours in 2 of 7 places.", pages.QuotedText(2, 0, 7))
}

// The order and the handover count one work in one way.
func TestHoursAreTheSameInOrderAndHandover(t *testing.T) {
	a := fixture.Demo(t, demo.Default)
	p := plan.Make(a)
	text := block(order.Make(p, a), planned.Options(t), "money")
	page, err := planned.Handed(pages.Handover{Job: planned.Job(a), Person: "self"}, planned.Options(t))
	require.NoError(t, err)
	flat := strings.Join(strings.Fields(page), " ")
	n := 0
	for _, m := range regexp.MustCompile(`(?m)^([^:\n]+): .*; (two people, [^.]*? hours)`).FindAllStringSubmatch(text, -1) {
		require.Contains(t, flat, m[1]+": "+m[2])
		n++
	}
	require.Equal(t, len(p.Places), n)
}
