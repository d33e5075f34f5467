package pages

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/bill"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// PlanPage is the whole recommendation.
func PlanPage(p plan.Plan, o Options) page.Page {
	d := page.Page{Title: houseName(p), End: Closing}
	head := d.Block("")
	head.Say("%s", houseLine(p))
	if text := p.InPlace(); text != "" {
		head.Loud("%s", text)
	}
	head.Items(page.Plain, SiteLines(p, o))
	head.Say("Priorities, 0 to 5: %s. %s", prioritiesText(p), First)
	glance := d.Block("The house at a glance")
	for _, place := range p.Places {
		glance.Add(page.Row{Kind: page.Item, Label: place.Surface.Label, Text: Glance(place, o)})
	}
	money := d.Block("")
	money.Say("%s", MoneyText(p, o.System))
	for _, text := range p.First() {
		money.Add(page.Row{Tone: page.Stop, Text: text})
	}
	for _, place := range p.Places {
		d.Blocks = append(d.Blocks, placeBlock(place, o))
	}
	said := func(title string, list []string) {
		if len(list) > 0 {
			d.Block(title).Items(page.Plain, list)
		}
	}
	said("Assumed, or worked out from your other answers", saidLines(p.Assumed))
	said("Not known yet", saidLines(p.Unknown))
	said("Not covered", p.NotCovered)
	said("Changed by your own data files", p.Overlaid)
	said("Where the figures are from", sourceLines(p, o))
	return d
}

// placeBlock is all about one place, to print.
func placeBlock(p plan.Place, o Options) page.Block {
	b := page.Block{Place: p.Surface.ID, Title: placeTitle(p, o)}
	b.Rows = PlaceRows(p, o)
	if o.Draw != nil {
		if lines := o.Draw(p, o.width()); len(lines) > 0 {
			b.Add(page.Row{Kind: page.Figure, Lines: lines})
		}
	}
	b.Rows = append(b.Rows, reasonRows(p, o)...)
	b.Rows = append(b.Rows, rankRows(p, o)...)
	b.Rows = append(b.Rows, factRows("Care", cautionRows(p, o))...)
	b.Rows = append(b.Rows, factRows("How", stepRows(p))...)
	if p.Stopped() {
		return b
	}
	b.Rows = append(b.Rows, moreRows(p, o)...)
	for _, n := range p.Target.Notes {
		b.Fact(page.Plain, "Note", n)
	}
	return b
}

func houseLine(p plan.Plan) string {
	zone := "climate zone not known"
	if p.Site.Zone != "" {
		zone = "climate zone " + p.Site.Zone + " (" + p.Site.ZoneWhy + ")"
	}
	return fmt.Sprintf("%s; model code %s; %s.", zone, p.Site.EditionText(), StageText(p.Stage))
}

// SiteLines say whose weather is used and what else is known of the site.
func SiteLines(p plan.Plan, o Options) []string {
	var out []string
	if p.Site.HasClimate {
		name := p.Site.Climate.Name
		if name == "" {
			name = "your own figures"
		}
		text := fmt.Sprintf("Weather of %s (%s), %s to heat", name, p.Site.ClimateWhy, o.System.DegreeDays(p.Site.HDD65))
		if p.NearClimate != "" {
			text += "; " + p.NearClimate
		}
		out = append(out, text+".")
	} else {
		out = append(out, "No weather is known for the house: damp and heat are not worked out. Say state and county, or name a listed place.")
	}
	return append(out, p.Site.Notes...)
}

func prioritiesText(p plan.Plan) string {
	parts := make([]string, len(p.Priorities))
	for i, k := range p.Priorities {
		parts[i] = fmt.Sprintf("%s %g", k.Name, k.Level)
	}
	return strings.Join(parts, ", ")
}

func saidLines(list []plan.Said) []string {
	var out []string
	for i, s := range list {
		where := s.Label
		if s.Place == "" {
			where = "House"
		}
		text := s.Prompt
		if s.Value != "" {
			text += " " + s.Value
		}
		if s.Matters {
			text += " (MATTERS: " + s.Effect + ")"
		}
		if i > 0 && s.Place == list[i-1].Place {
			out[len(out)-1] += " - " + text
			continue
		}
		out = append(out, where+": "+text)
	}
	return out
}

func sourceLines(p plan.Plan, o Options) []string {
	out := make([]string, len(p.Sources))
	for i, s := range p.Sources {
		out[i] = sourceText(o.Catalog, s.ID)
	}
	return out
}

// Glance says one place in one line, first what must be found out first, then
// by its name what must be settled before work begins.
func Glance(place plan.Place, o Options) string {
	text := glance(place, o)
	if first := settleBrief(place); first != "" {
		if place.Choice != nil {
			text = "Then: " + text
		}
		text = first + " " + upperFirst(text)
	}
	if asks := place.FindFirst(o.Catalog, o.System); len(asks) > 0 {
		then := " Once that is answered: "
		if place.Choice == nil || place.Surface.Kind.BesideChimney { // a gap is kept empty in any case
			then, text = " ", upperFirst(text)
		}
		return plan.AskHead + strings.Join(asks, " ") + then + text
	}
	return text
}

// settleBrief is what must be settled before work begins at a place, in a few
// words, empty where nothing must.
func settleBrief(place plan.Place) string {
	hits := place.Settles()
	if len(hits) == 0 {
		return ""
	}
	titles := make([]string, len(hits))
	for i, h := range hits {
		titles[i] = lowerFirst(plan.SettleTitle(h))
	}
	return plan.SettleHead + strings.Join(titles, "; ") + "."
}

func glance(place plan.Place, o Options) string {
	switch {
	case place.Stopped():
		return place.StopText()
	case place.Surface.Held() != "":
		return GapText(place, o) + "; no blanket is planned before that"
	case place.Choice == nil && place.Surface.Kind.BesideChimney:
		return GapText(place, o) + "; nothing fits beyond it; confirm with the mason or installer"
	case place.Choice == nil:
		return strings.TrimSuffix(NothingText(place), ": see why below") + "; " + o.System.Area(place.Surface.AreaFt2)
	}
	e := place.Choice
	text := sizesCheck(place, "; ") + ProductText(e.Assessed, o.System) + "; " + o.System.MoneyRange(place.CostOf(&e.Assessed).Total)
	if !e.Heat.MeetsTarget {
		text += "; SHORT by " + o.System.R(e.Heat.ShortByR)
	}
	if place.Target.AddR > 0 {
		text += "; plus " + o.System.R(place.Target.AddR) + " board"
	}
	text += DampAtAGlance(place)
	if place.Surface.Kind.BesideChimney {
		text = GapText(place, o) + "; beyond it " + e.Name + "; confirm with the mason or installer"
	}
	return text
}

// mostlyGlass is the share of a wall from which its windows and doors are more
// likely a slip of the pen (this project's own convention).
const mostlyGlass = 0.7

// sizesCheck warns of windows and doors that leave hardly any wall.
func sizesCheck(place plan.Place, then string) string {
	share := place.Surface.OpenShare
	switch {
	case share >= 1:
		return "CHECK THE SIZES: the windows and doors are as large as the place" + then
	case share > mostlyGlass:
		return "CHECK THE SIZES: the windows and doors take most of the place" + then
	}
	return ""
}

// GapText names the air space round a chimney, which no blanket may fill.
func GapText(place plan.Place, o Options) string {
	return "KEEP THE GAP EMPTY (" + place.Surface.Clearance.Text(o.System) + ")"
}

// NoPlace stands where a house without places has nothing to add up.
const NoPlace = "The house has no place to insulate yet: nothing to add up."

// whatItKeeps says of the cheapest set whether it reaches what is asked.
func whatItKeeps(p plan.Plan, s units.System) string {
	var short, accepted []string
	for _, place := range p.Places {
		switch {
		case place.ShortText(s) == "":
		case place.Surface.Waived:
			accepted = append(accepted, place.Surface.Label)
		default:
			short = append(short, place.Surface.Label)
		}
	}
	switch {
	case len(short) > 0:
		return "that falls no shorter than it must, at " + strings.Join(append(short, accepted...), ", ")
	case len(accepted) > 0:
		return "you allow, short at " + strings.Join(accepted, ", ")
	}
	return "that keeps the targets"
}

// cheaperText says which blankets cost less and fall short by more.
func cheaperText(p plan.Plan, s units.System) string {
	var out []string
	for _, place := range p.Places {
		if c := place.CheaperShorter(); c != nil && place.ShortText(s) != "" {
			out = append(out, fmt.Sprintf("%s at %s, short by %s", c.Material.Name, place.Surface.Label, s.R(c.Heat.ShortByR)))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return " A cheaper set falls short by more: " + strings.Join(out, "; ") + "."
}

// MoneyText says what the plan costs as it is bought, what has no price, and how that
// sits with the budget.
func MoneyText(p plan.Plan, s units.System) string {
	if len(p.Places) == 0 {
		return NoPlace
	}
	m := p.Bill.Money
	if m.Total.High == 0 {
		return "No place gets a blanket as things stand: nothing to add up. See the places below."
	}
	text := fmt.Sprintf("%s: about %s, most likely %s: %s.", whereItIs(p), s.MoneyRange(m.Total), moneyOf(m.Total, s), whatIsIn(m))
	if left := withoutText(p.Bill); left != "" {
		text += " NOT IN IT, get a quote: " + left + "."
	}
	text += " " + priceText(m)
	if !m.HasBudget {
		return text
	}
	switch {
	case p.Spend.Missing > 0:
		return text + fmt.Sprintf(" Even the cheapest set %s, the one shown, takes %s.", whatItKeeps(p, s), moreThan(p, s)) + cheaperText(p, s) + waitText(p)
	case p.Spend.Applied && p.Spend.Proved:
		text += " Of all sets for the whole house within your budget this is the best."
	case p.Spend.Applied:
		text += " Of the sets for the whole house within your budget that were looked at this is the best."
	}
	return text + " " + holdsText(m, s)
}

// MoneyGlance is the sum in two lines, with what it leaves out and a word on the budget.
func MoneyGlance(p plan.Plan, s units.System) string {
	m := p.Bill.Money
	if len(p.Places) == 0 || m.Total.High == 0 {
		return MoneyText(p, s)
	}
	text := fmt.Sprintf("%s: about %s, most likely %s", whereItIs(p), s.MoneyRange(m.Total), moneyOf(m.Total, s))
	if n := len(m.Without); n > 0 {
		text += "; " + plural(n, "thing") + " to get a quote for on top"
	}
	text += "."
	switch budget := s.Money(m.Budget); m.Word() {
	case bill.Holds:
		text += " Your budget of " + budget + " holds."
	case bill.MayHold:
		text += " Your budget of " + budget + " may hold."
	case bill.DoesNotHold:
		text += " Your budget of " + budget + " does not hold"
		if p.Spend.Missing > 0 {
			text += ": this is the cheapest set " + whatItKeeps(p, s)
		}
		text += "."
	}
	return text
}

// withoutText names what is bought by the area and has no price, for that is the money,
// and counts the rest.
func withoutText(b bill.Bill) string {
	var big []string
	rest := 0
	for _, name := range b.Money.Without {
		small := slices.ContainsFunc(b.Goods, func(g bill.Goods) bool { return g.Name == name && g.Ft2 == 0 })
		if small {
			rest++
			continue
		}
		big = append(big, name)
	}
	switch {
	case rest > 0 && len(big) > 0:
		big = append(big, plural(rest, "other thing")+" on the order")
	case rest > 0:
		big = append(big, plural(rest, "thing")+" on the order")
	}
	return strings.Join(big, "; ")
}

// whatIsIn names what a bill is made of.
func whatIsIn(m bill.Money) string {
	what := "whole packages with a spare"
	if m.Extras.High > 0 {
		what += ", what goes with them"
	}
	if m.Gear.High > 0 {
		what += ", gear"
	}
	if m.Labour.High > 0 {
		what += ", the work"
	}
	return what
}

// whereItIs names the places of a bill.
func whereItIs(p plan.Plan) string {
	if slices.ContainsFunc(p.Places, func(x plan.Place) bool { return x.Choice == nil }) {
		return "The places that have a plan"
	}
	return "All places"
}

func moneyOf(r units.Range[units.Cents], s units.System) string { return s.MoneyOf(r.Typical, r) }

// moreThan says how the plan's sum is above the budget, no finer than the
// prices tell.
func moreThan(p plan.Plan, s units.System) string {
	over := units.MoneyGap(p.Over(), p.Bill.Money.Total)
	if over <= 0 {
		return "all of your budget of " + s.Money(p.Bill.Money.Budget) + ", or a little more"
	}
	return fmt.Sprintf("about %s more than your budget of %s", s.Money(over), s.Money(p.Bill.Money.Budget))
}

// waitText says what short money may leave for later: what drywall closes must
// be filled before, whatever it costs.
func waitText(p plan.Plan) string {
	wait, cannot := p.CanWait()
	if len(wait) == 0 {
		return ""
	}
	text := " What can wait until after the drywall is up: " + strings.Join(wait, ", ") + ", but before the heat goes on and before the final inspection."
	if len(cannot) > 0 {
		text += " What cannot, because it is closed in: " + strings.Join(cannot, ", ") + "."
	}
	return text
}

// StakesText says how places are weighed against each other within a budget.
func StakesText(how string) string {
	if how == "alike" {
		return "Every place counts alike; the question \"which places come first\" changes that."
	}
	return "A place counts by the heat that would be lost through it; the question \"which places come first\" changes that."
}

// FrameText says what the place is framed with.
func FrameText(p plan.Place, s units.System) string {
	f := p.Surface.Frame
	switch f.Practice {
	case "trusses":
		return fmt.Sprintf("trusses at %s, bottom chord %s", s.Inches(f.SpacingIn), f.Size)
	}
	return fmt.Sprintf("%s at %s", f.Size, s.Inches(f.SpacingIn))
}
