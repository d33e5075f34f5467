package pages_test

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/bill"
	"battwright/rules/candidate"
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// withBudget is a demo house with another budget, planned and counted.
func withBudget(t *testing.T, name string, usd float64) (plan.Plan, order.Order) {
	t.Helper()
	a := fixture.Demo(t, name)
	a.House.Answers.Set("budget.total_usd", house.Number(usd))
	p := plan.Make(a)
	return p, order.Make(p, a)
}

func moneyRows(o order.Order, opts pages.Options) string {
	var rows []string
	for _, b := range pages.OrderBlocks(o, opts) {
		if b.ID == "money" {
			for _, r := range b.Rows {
				rows = append(rows, r.Text)
			}
		}
	}
	return strings.Join(rows, "\n")
}

// Plan, order and JSON speak of one sum and say the same of the budget.
func TestEveryPageSaysTheSameOfTheBudget(t *testing.T) {
	opts := planned.Options(t)
	for _, name := range demo.Names() {
		for _, usd := range []float64{0, 0.5, 3000, 5437, 5438, 5530, 5600, 6500, 7000, 9000, 20000} {
			p, o := withBudget(t, name, usd)
			text := pages.MoneyText(p, units.US)
			require.Equal(t, p.Bill.Money, o.Money)
			require.NotRegexp(t, `\$0 (more|too|short)|-\$`, text)
			rows := moneyRows(o, opts)
			if p.Spend.Missing > 0 {
				require.Contains(t, text, "more than your budget")
			} else {
				_, said, _ := strings.Cut(text, "Your budget is")
				require.Contains(t, rows, "Your budget is"+said)
			}
			require.NotRegexp(t, `about \$0|-\$`, rows)
			opts.Order = &o
			b, err := pages.JSON(p, opts, true)
			require.NoError(t, err)
			var got struct {
				Budget struct {
					Word   string
					Within *bool
				}
			}
			require.NoError(t, json.Unmarshal(b, &got))
			require.Equal(t, o.Money.Word(), got.Budget.Word)
			switch {
			case o.Money.Budget < o.Money.Total.Typical:
				require.Equal(t, bill.DoesNotHold, got.Budget.Word)
				require.False(t, *got.Budget.Within)
				require.Contains(t, rows, "does not hold")
			case o.Money.Budget < o.Money.Total.High || len(o.Money.Without) > 0:
				require.Equal(t, bill.MayHold, got.Budget.Word)
				require.Nil(t, got.Budget.Within)
				require.Contains(t, rows, "may hold")
			default:
				require.True(t, *got.Budget.Within)
			}
		}
	}
}

// Rough prices carry two figures, in every page that shows them.
func TestRoughPricesCarryTwoFigures(t *testing.T) {
	amount := regexp.MustCompile(`\$([0-9,]+)`)
	for _, name := range demo.Names() {
		a := fixture.Demo(t, name)
		p := plan.Make(a)
		opts := planned.Options(t)
		text := print.Text(pages.PlanPage(p, opts), opts.Width)
		for _, b := range pages.OrderBlocks(order.Make(p, a), opts) {
			for _, r := range b.Rows {
				text += r.Text + "\n"
			}
		}
		for _, m := range amount.FindAllStringSubmatch(text, -1) {
			digits := strings.ReplaceAll(m[1], ",", "")
			if p.Bill.Money.HasBudget && "$"+m[1] == units.US.Money(p.Bill.Money.Budget) {
				continue
			}
			require.LessOrEqual(t, len(strings.TrimRight(digits, "0")), 2, "%s: %s", name, m[0])
		}
	}
}

// What a place's own best costs beside the one the budget chose may be less;
// that is said, not written as a negative more.
func TestDearerThanItsOwnBestIsSaid(t *testing.T) {
	p, _ := withBudget(t, demo.Default, 6500)
	pl := p.Places[0]
	best := *pl.Choice
	best.Assessed = *cheaperOf(t, pl)
	pl.Best = &best
	text := pages.InsteadText(pl, units.US)
	require.Contains(t, text, " less")
	require.NotContains(t, text, "more than the budget")
}

// cheaperOf is another blanket that the place might have for less.
func cheaperOf(t *testing.T, p plan.Place) *candidate.Assessed {
	t.Helper()
	for i := range p.Candidates {
		if c := &p.Candidates[i]; p.CostOf(c).Total.Typical < p.Cost.Total.Typical {
			return c
		}
	}
	require.Fail(t, "nothing is cheaper")
	return nil
}

// What a thicker blanket saves is not counted in single dollars, nor its years
// beyond what anybody plans for.
func TestSavingsThatRoundToNothing(t *testing.T) {
	for _, name := range demo.Names() {
		text := print.Text(pages.PlanPage(plan.Make(fixture.Demo(t, name)), planned.Options(t)), planned.Options(t).Width)
		require.NotRegexp(t, `\$0 to|[0-9]{3} years|[1-9]\d*\.\d points|0 MMBtu to`, strings.Join(strings.Fields(text), " "))
	}
}

// A change for less money is said, not written with a minus.
func TestCheaperIsSaid(t *testing.T) {
	change := plan.Change{Label: "Rim joist", From: "mineral wool", To: "fiberglass", Cost: -9612}
	require.Equal(t, "Rim joist: mineral wool -> fiberglass, about $96 less", pages.ChangeText([]plan.Change{change}, units.US))
	change.Cost = 181400
	require.Contains(t, pages.ChangeText([]plan.Change{change}, units.US), "about $1,800 more")
}
