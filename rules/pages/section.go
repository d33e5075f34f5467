package pages

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// Options of a rendering.
type Options struct {
	// Draw gives the drawings of a place, lines at most the width wide; nil
	// leaves them out. Drawings belong to the front ends, which pass them in.
	Draw    func(p plan.Place, width int) []string
	Catalog *catalog.Catalog
	System  units.System
	Width   int          // text only; 0 means 78
	Order   *order.Order // JSON only: the order group of each place
}

// printWidth is that of a page on paper.
const printWidth = 78

// width is how many columns drawings may have in a printed page.
func (o Options) width() int {
	if o.Width <= 0 {
		return printWidth
	}
	return o.Width
}

// Line is one labelled line: "Loses", "about 5 MMBtu of heat a year".
type Line struct{ Label, Text string }

// FindFirst are the lines that begin every view of a place about which
// something must be found out or settled first.
func FindFirst(p plan.Place, o Options) []string { return p.FirstLines(o.Catalog, o.System) }

// PlaceRows are the facts of a place in the order a builder needs them, the
// same in every view.
func PlaceRows(p plan.Place, o Options) []page.Row {
	var b page.Block
	add := func(label, format string, args ...any) { b.Fact(page.Plain, label, fmt.Sprintf(format, args...)) }
	loud := func(label, text string) { b.Fact(page.Stop, label, text) }
	for i, s := range p.Stops {
		text := s.Say
		if i > 0 {
			text = "After that: " + text
		}
		loud("STOP", text)
	}
	for _, s := range p.Also {
		loud("STOP", "Before anybody goes in: "+s.Say)
	}
	if p.Stopped() {
		return b.Rows
	}
	for _, text := range FindFirst(p, o) {
		loud("First", text)
	}
	if p.Surface.Kind.BesideChimney {
		loud("Gap", fmt.Sprintf("%s; %s. Confirm with the mason or installer.", GapText(p, o), p.Surface.Clearance.Reason))
	}
	switch {
	case p.Surface.Held() != "":
		return b.Rows
	case p.Choice == nil:
		add("Use", "%s", NothingText(p))
		if p.Target.Idle {
			add("If", "%s", wantedText(p))
		}
		return b.Rows
	}
	e := p.Choice
	if check := sizesCheck(p, ""); check != "" {
		add("Sizes", "%s", check)
	}
	add("Use", "%s%s", ProductText(e.Assessed, o.System), DampAtAGlance(p))
	if pin := p.Surface.Pin; pin != "" && pin != e.MaterialID {
		if kept := p.EntryOf(pin); kept != nil {
			add("Kept", "not %s, which you asked to keep here: %s", kept.Name, strings.Join(WhyOut(*kept), " "))
		}
	}
	if sheet := SheetText(e.Assessed, o.Catalog); sheet != "" {
		add("Sheet", "%s", sheet)
	}
	add("Face", "%s", faceText(*e))
	if p.Target.AddR > 0 {
		loud("Plus", BoardText(p, o.System))
	}
	add("Target", "%s", targetText(p, *e, o.System))
	add("Gives", "%s", givesText(p, *e, o.System))
	add("Cost", "%s", costText(p, *e, o.System))
	if p.Best != nil {
		add("Instead", "%s", InsteadText(p, o.System))
	}
	add(dampLabel, "%s", DampText(e.Damp, o.System))
	if e.Damp.Alarm() {
		loud("Cure", waysOutText(p))
	}
	for _, h := range p.Depends {
		if h.Rule.Effect.Kind == rules.Exclude {
			add("Open", "depends on an answer that is not known yet: %s", lowerFirst(h.Rule.Title))
		}
	}
	return b.Rows
}

func faceText(e plan.Entry) string {
	if e.Facing.OnBlanket != "none" && e.Facing.Side != "" {
		return e.Facing.Side + ": " + e.Facing.Why
	}
	return e.Facing.Why
}

// InsteadText says why a place does not get its own best.
func InsteadText(p plan.Place, s units.System) string {
	best, now := p.Best, p.Choice
	if p.Surface.Pin == now.MaterialID {
		return fmt.Sprintf("you keep %s here; by itself it would be %s", now.Name, best.Name)
	}
	name := best.Name
	if best.MaterialID == now.MaterialID {
		name = ProductText(best.Assessed, s)
	}
	return fmt.Sprintf("by itself this place would get %s, %s", name, besideBudget(p.More(&best.Assessed), s))
}

// besideBudget says what a place's own best costs beside what the budget for
// the whole house chose for it: the budget may choose the dearer of two.
func besideBudget(more units.Cents, s units.System) string {
	switch {
	case more > 0:
		return "for about " + s.MoneyAbout(more) + " more than the budget gives it"
	case more < 0:
		return "for about " + s.MoneyAbout(-more) + " less: the best set for the whole house has the money for this one"
	}
	return "at the same price: the best set for the whole house takes this one"
}

// NothingText says of a place without a choice why nothing goes in.
func NothingText(p plan.Place) string {
	if p.Target.Idle {
		return "no blanket planned: " + p.Target.Text
	}
	return "nothing as it stands: see why below"
}

// wantedText is what a builder may do who wants a blanket where none is asked.
func wantedText(p plan.Place) string {
	text := "you want one all the same, type the R you want here or name the fiber to keep"
	if p.Surface.Kind.Boundary == "soil" {
		if p.Surface.CIR > 0 && !p.Surface.FoamUnsaid {
			return text + "; it then goes inside the foam board you said is there. What follows compares the four for that case."
		}
		text += "; foam board then goes on the concrete first, and is on the list to buy"
	}
	return text + ". What follows compares the four for that case."
}

// BoardText names the board the target needs beside the blanket, loudly.
func BoardText(p plan.Place, s units.System) string {
	if p.Surface.Kind.Boundary == "soil" {
		more := ""
		if p.Surface.CIR > 0 {
			more = "MORE "
		}
		return fmt.Sprintf("%s %sFOAM BOARD ON THE CONCRETE: not a blanket, not in this price; %s", s.R(p.Target.AddR), more, p.Surface.BoardWhen())
	}
	text := fmt.Sprintf("%s BOARD OUTSIDE THE STUDS: not a batt, not in this price; %s", s.R(p.Target.AddR), p.Surface.BoardWhen())
	if p.Choice != nil && p.Choice.Facing.ThinBoard {
		text += fmt.Sprintf("; the vapor table wants %s in all here, see the cautions before you buy", s.R(p.Choice.Facing.VaporR))
	}
	return text
}

func targetText(p plan.Place, e plan.Entry, s units.System) string {
	switch {
	case !p.Target.Required && p.Target.AddR > 0:
		return p.Target.Text + "; the board keeps the fiber off the concrete"
	case !p.Target.Required:
		return p.Target.Text
	case p.Target.CavityR == 0 && p.Target.AddR > 0:
		return p.Target.Text + ": the board alone would do it, the blanket comes on top"
	case e.Heat.FullHeightR > 0:
		return fmt.Sprintf("%s: %s at full height over the walls serves", p.Target.Text, s.R(e.Heat.FullHeightR)) + pressedText(e.Layers, s)
	case e.Heat.FilledR > 0:
		return fmt.Sprintf("%s: the blanket fills the joist space, and with at least %s that serves; as recalled, so ask the building office", p.Target.Text, s.R(e.Heat.FilledR))
	case e.Heat.SlopedR > 0:
		return fmt.Sprintf("%s: %s serves here, because the slopes are %s of %s of ceiling, within the code's exception; as recalled, so ask the building office", p.Target.Text, s.R(e.Heat.SlopedR), s.Area(p.Surface.Ceilings.SlopesFt2), s.Area(p.Surface.Ceilings.AllFt2))
	case e.Heat.MeetsTarget && p.Target.ContinuousR == 0 && p.Target.AddR > 0:
		return "only with the board meets " + p.Target.Text + ": no fiber goes straight on concrete"
	case e.Heat.MeetsTarget && p.Target.AddR > 0:
		return "only with the board meets " + p.Target.Text
	case e.Heat.MeetsTarget:
		return "meets " + p.Target.Text
	}
	return p.ShortText(s)
}

func givesText(p plan.Place, e plan.Entry, s units.System) string {
	text := fmt.Sprintf("%s as usually fitted. The whole surface, with %s: about %s", s.R(e.Heat.DeliveredR), wholeOf(p, s), s.R(e.Heat.AssemblyR))
	if low, high := e.Heat.AssemblyLow, e.Heat.AssemblyHigh; units.US.R(low) != units.US.R(high) {
		text += fmt.Sprintf(" (%s to %s)", s.R(low), s.R(high))
	}
	return text
}

// wholeOf names what the R of the whole surface counts beside the blankets.
func wholeOf(p plan.Place, s units.System) string {
	parts := []string{"its wood"}
	if old := p.Surface.ExistingR; old > 0 {
		parts = append(parts, "the old "+s.R(old))
	}
	if there := p.Surface.CIR; there > 0 {
		parts = append(parts, "the "+s.R(there)+" board you said is there")
	}
	if buy := p.Target.AddR; buy > 0 {
		parts = append(parts, "the "+s.R(buy)+" board to buy")
	}
	if p.Surface.Kind.Boundary == "soil" {
		parts = append(parts, "the concrete")
	}
	if n := len(parts) - 1; n > 0 {
		return strings.Join(parts[:n], ", ") + " and " + parts[n]
	}
	return parts[0]
}

func costText(p plan.Place, e plan.Entry, s units.System) string {
	cost := p.CostOf(&e.Assessed)
	text := s.MoneyRange(cost.Blankets.Plus(cost.Extras).Plus(cost.Gear)) + " for the material and gear, " + priceBasis(e.Money.Quoted, len(e.Layers))
	if cost.Labour.High > 0 {
		text += "; " + s.MoneyRange(cost.Labour) + " for the work"
	}
	return text
}

// moreRows are the facts of a place one key further: the other ways the code
// offers, what is counted, and the heat it loses in a year.
func moreRows(p plan.Place, o Options) []page.Row {
	var b page.Block
	add := func(label, text string) { b.Fact(page.Quiet, label, text) }
	if p.Target.Options != "" && p.Target.By == "code" && strings.Contains(p.Target.Options, "or") {
		add("Ways", "the code accepts "+o.System.RName()+p.Target.Options)
	}
	if p.Choice == nil {
		return b.Rows
	}
	if full := fullText(p, o.System); full != "" {
		add("Full", full)
	}
	add("Counts", "the code counts the R on the bag, or less where a blanket is squeezed: here "+o.System.R(p.Choice.Heat.CountedR))
	if l := p.Choice.Heat.LossMMBtu; l.High > 0 {
		text := fmt.Sprintf("about %s to %s of heat a year", o.System.Energy(l.Low), o.System.Energy(l.High))
		if usd := p.Choice.Heat.LossUSD; usd.High > 0 {
			text += fmt.Sprintf(", some %s at usual prices; an estimate, never a bill", o.System.MoneyRange(dollarsRange(usd)))
		}
		if p.Choice.Heat.SummerMost {
			text += ". That is winter alone: cooling, which can be the bigger half in a warm climate, is not in it"
		}
		add("Loses", text)
	}
	if t, ok := p.NextThicker(); ok {
		add("More R", thickerText(t, o))
	}
	return b.Rows
}

// fullText is about the lower R that the code accepts where a blanket runs full
// height over the outside walls: that it does, or what it would take.
func fullText(p plan.Place, s units.System) string {
	h := p.Choice.Heat
	if h.FullHeightR > 0 {
		return fmt.Sprintf("%s serves for %s because the blanket keeps its height over the whole ceiling and the top of the outside walls", s.R(h.FullHeightR), s.R(p.Target.CavityR))
	}
	trusses := p.Surface.Frame.Practice == "trusses"
	if h.FullHeelIn <= 0 || trusses && p.Surface.Framed && h.FullHeelIn > p.Surface.HeelIn {
		return "" // trusses that stand get no higher
	}
	labels := make([]string, len(h.FullLayers))
	for i, l := range h.FullLayers {
		labels[i] = s.R(l.Product.NominalR)
	}
	pressed := pressedText(h.FullLayers, s)
	if h.FullHeelIn <= p.Surface.HeelIn {
		return fmt.Sprintf("%s would run full height over the walls here, and the code would then accept %s", strings.Join(labels, " + "), s.R(p.Target.FullHeightR)) + pressed
	}
	text := fmt.Sprintf("with a heel of at least %s, %s would run full height over the walls, and the code would then accept %s", s.Inches(h.FullHeelIn), strings.Join(labels, " + "), s.R(p.Target.FullHeightR)) + pressed
	if trusses {
		return text + ": say so before the trusses are ordered"
	}
	return text + "; if the rafters are raised for it, the framer or an engineer must say first what then ties the walls together"
}

// pressedText says of a stack at full height that the code asks for blankets that
// are not squeezed, where one of them is; empty where none is.
func pressedText(layers []candidate.Layer, s units.System) string {
	at := slices.IndexFunc(layers, candidate.Layer.Pressed)
	if at < 0 {
		return ""
	}
	l := layers[at]
	return fmt.Sprintf("; the code asks for insulation that is not squeezed there, and the %s is pressed from %s to %s between the framing: the building office says whether that counts", s.R(l.Product.NominalR), s.Inches(l.Product.ThicknessIn), s.Inches(l.RoomIn))
}

// UnfitLines say of every blanket that is not proposed why it does not fit.
func UnfitLines(p plan.Place, o Options) []string {
	var out []string
	if p.Surface.Held() != "" {
		return nil // what fits is told once the room is known
	}
	for _, u := range p.Unfit {
		name := u.Product.Material
		if m, ok := o.Catalog.Material(u.Product.Material); ok {
			name = m.Name
		}
		out = append(out, fmt.Sprintf("%s %s: %s", name, o.System.R(u.Product.NominalR), u.Why))
	}
	return out
}

// thickerText puts the next thicker stack in context.
func thickerText(t plan.Thicker, o Options) string {
	winter := ""
	if t.Stack.Heat.SummerMost {
		winter = " (what it saves in cooling is not worked out)"
	}
	saves := dollarsRange(t.SavesUSD)
	text := fmt.Sprintf("%s would cost about %s more and save", ProductText(t.Stack, o.System), o.System.MoneyAbout(t.ExtraCost))
	if saves.Low < units.FromDollars(0.5) { // its low end would be shown as nothing
		return text + " next to nothing of heating a year: it does not come back in heat alone" + winter
	}
	return text + fmt.Sprintf(" some %s of heating a year: %s to come back", o.System.MoneyRange(saves), yearsText(t.PaybackYears)) + winter
}

// mostYears is beyond what anybody plans for.
const mostYears = 40

func yearsText(y units.Range[float64]) string {
	switch {
	case y.Low >= mostYears:
		return fmt.Sprintf("more than %d years", mostYears)
	case y.High > mostYears:
		return fmt.Sprintf("%.0f to more than %d years", y.Low, mostYears)
	case y.Low == y.High:
		return fmt.Sprintf("about %.0f years", y.Low)
	}
	return fmt.Sprintf("%.0f to %.0f years", y.Low, y.High)
}

// saidFirst reports whether a caution begins the page and is not said again.
func saidFirst(p plan.Place, h rules.Hit) bool {
	if p.Stopped() {
		return h.Rule.Effect.Stops
	}
	return h.AsksFirst() || h.Rule.Effect.SettleFirst
}

// notYet stands for the fit of a blanket while the width of its room is not
// known.
const notYet = "not before the width is known"

// RankRow is one row of the ranking of a place.
type RankRow struct {
	Rank, Name, Fit, Price, Score string
	Plus, Minus                   string
	Tone                          page.Tone // of Fit
}

// Text says a row in one sentence, without its rank.
func (r RankRow) Text() string {
	switch {
	case r.Rank == "":
		return r.Name + ": no. " + r.Minus
	case r.Price == "":
		return fmt.Sprintf("%s: %s, %s of 100 points", r.Name, r.Fit, r.Score)
	}
	return fmt.Sprintf("%s: %s, %s, %s of 100 points", r.Name, r.Fit, r.Price, r.Score)
}

// RankRows are the materials of a place, ranked first; none while it is
// stopped: nothing may go there, whatever would fit. While a width is not known
// fibers are compared without a blanket and its price.
func RankRows(p plan.Place, o Options) []RankRow {
	if p.Stopped() {
		return nil
	}
	var leader *plan.Entry
	if len(p.Entries) > 0 && p.Entries[0].Usable() {
		leader = &p.Entries[0]
	}
	var out []RankRow
	for _, e := range p.Entries {
		row := RankRow{Name: e.Name}
		row.Fit, row.Tone = FitWord(e, leader, o.Catalog.Settings.AboutEqual, o.System)
		if e.Usable() {
			row.Rank = fmt.Sprint(e.Rank)
			if row.Price = o.System.MoneyRange(p.CostOf(&e.Assessed).Total); p.Surface.Held() != "" {
				row.Fit, row.Tone, row.Price = notYet, page.Care, ""
			}
			row.Score = fmt.Sprintf("%.0f", e.Score)
			row.Plus, row.Minus = first(e.Verdict.For), first(e.Verdict.Against)
		} else if why := WhyOut(e); len(why) > 0 {
			row.Minus = sentences(why)
		}
		out = append(out, row)
	}
	return out
}

// sentences puts reasons one after the other: all of them are said.
func sentences(reasons []string) string {
	for i, r := range reasons[:len(reasons)-1] {
		if !strings.HasSuffix(r, ".") {
			reasons[i] = r + "."
		}
	}
	return strings.Join(reasons, " ")
}

func first(hits []rules.Hit) string {
	if len(hits) == 0 {
		return ""
	}
	return hits[0].Text
}

// Cautions are the safety notes of a place, worst first. An open question is
// said as one.
func Cautions(p plan.Place, o Options) []string {
	var out []string
	for _, h := range p.Safety {
		if saidFirst(p, h) {
			continue // by StopLines or FindFirst
		}
		out = append(out, o.Catalog.Caution(h, o.System))
	}
	return out
}

// Steps are the installation notes of a place in order.
func Steps(p plan.Place) []string {
	var out []string
	for _, h := range p.Require {
		out = append(out, h.Text)
	}
	for _, h := range p.Install {
		out = append(out, h.Text)
	}
	return out
}

// Detail names the values of an entry, a priority a line; none while the width
// of its room is not known: they would be those of a blanket that nobody may buy.
func Detail(p plan.Place, e plan.Entry, o Options) []Line {
	if p.Surface.Held() != "" {
		return nil
	}
	var out []Line
	for i, k := range o.Catalog.Criteria {
		if i >= len(e.Values) {
			break
		}
		v := e.Values[i]
		out = append(out, Line{k.Name, fmt.Sprintf("worth %.0f points (%s)", e.Parts[i], measured(k, v, o.System))})
	}
	return out
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
