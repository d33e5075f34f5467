// Package pages turns a plan into text, Markdown, JSON and CSV. It works
// nothing out; every number it prints passes through units.System.
package pages

import (
	"cmp"
	"fmt"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

var months = []string{"", "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

// MonthName names a month 1 to 12; anything else is empty.
func MonthName(m int) string {
	if m < 1 || m > 12 {
		return ""
	}
	return months[m]
}

// ProductText names what to buy, in one line: "mineral wool batts, no facing,
// 5 1/2 in, R-23 on the bag".
func ProductText(a candidate.Assessed, s units.System) string {
	var parts []string
	for _, l := range a.Layers {
		parts = append(parts, fmt.Sprintf("%s %s", s.Inches(l.Product.ThicknessIn), s.R(l.Product.NominalR)))
	}
	form := "batts"
	if a.Layers[0].Product.Form == "roll" {
		form = "rolls"
	}
	face := FaceWord(a.Facing.OnBlanket)
	if len(a.Layers) == 1 {
		return fmt.Sprintf("%s %s, %s, %s, %s on the bag", a.Material.Name, form, face, s.Inches(a.Layers[0].Product.ThicknessIn), s.R(a.Layers[0].Product.NominalR))
	}
	return fmt.Sprintf("%s %s, %s, in %d layers: %s on the bags", a.Material.Name, form, face, len(a.Layers), strings.Join(parts, " + "))
}

// ShortProduct names a stack in a few words: "mineral wool R-23".
func ShortProduct(a candidate.Assessed, s units.System) string {
	parts := make([]string, len(a.Layers))
	for i, l := range a.Layers {
		parts[i] = s.R(l.Product.NominalR)
	}
	return a.Material.Name + " " + strings.Join(parts, " + ")
}

// SwapText names two stacks as shortly as tells them apart, and says when the
// second gets damp.
func SwapText(from, to candidate.Assessed, s units.System) string {
	damp := ""
	switch was, now := from.Damp.Risk(), to.Damp.Risk(); {
	case now > 0 && was == now:
		damp = ", damp either way"
	case now > was:
		damp = ", gets damp"
	}
	for _, name := range []func(candidate.Assessed, units.System) string{ShortProduct, ProductText} {
		if a, b := name(from, s), name(to, s); a != b {
			return a + " -> " + b + damp
		}
	}
	return "the same blanket with another sheet or support" + damp
}

// FaceWord names the facing of a blanket in plain words.
func FaceWord(facing string) string {
	switch facing {
	case "kraft":
		return "paper face"
	case "foil-rated":
		return "flame-rated foil face"
	}
	return "no facing"
}

// SheetText names the sheet the plan adds or the builder brings, empty when
// there is none.
func SheetText(a candidate.Assessed, c *catalog.Catalog) string {
	if a.Facing.Sheet == "" {
		return ""
	}
	name := a.Facing.Sheet
	if f, ok := c.Facing(a.Facing.Sheet); ok {
		name = f.Name
	}
	return name + " " + a.Facing.Side
}

// FitWord is the cell of the house table: fits, about equal, short by R-4, gets
// damp, no; and how it is meant. A blanket beside which the wood gets damp never
// just "fits".
func FitWord(e plan.Entry, leader *plan.Entry, aboutEqual float64, s units.System) (string, page.Tone) {
	switch {
	case !e.Usable():
		return "no", page.Quiet
	case e.Damp.Risk() > 0 && !e.Heat.MeetsTarget:
		return "gets damp, short by " + s.R(e.Heat.ShortByR), page.Care
	case e.Damp.Risk() > 0:
		return "gets damp", page.Care
	case !e.Heat.MeetsTarget:
		return "short by " + s.R(e.Heat.ShortByR), page.Care
	case e.Demoted():
		return "only if need be", page.Care
	case leader != nil && leader.MaterialID != e.MaterialID && leader.Heat.MeetsTarget && leader.Score-e.Score < aboutEqual:
		return "about equal", page.Plain
	}
	return "fits", page.Good
}

// WhyOut gives the reasons an entry is left out, each with its rule.
func WhyOut(e plan.Entry) []string {
	if e.NoFit != "" {
		return []string{e.NoFit}
	}
	var out []string
	if e.Out != "" {
		out = append(out, e.Out)
	}
	for _, h := range e.Verdict.Excluded {
		out = append(out, h.Text)
	}
	return out
}

// DampText says what the damp check found and on what it counts, never that a
// place is dry.
func DampText(d candidate.Damp, s units.System) string {
	if !d.Checked {
		return d.Note
	}
	text := dampFinding(d, s)
	if d.FoamLeftOut {
		text += " This is worked out without the foam that goes into each bay, which makes it drier: cut the foam in and seal it first, then the blanket; how much drier it gets is not worked out here."
	}
	if with := inspect.DampWith(d, s); with != "" {
		text = with + ": " + text
	}
	return text + notChecked(d, s)
}

func notChecked(d candidate.Damp, s units.System) string {
	text := " Leaks, rain and moving air are not covered."
	if d.BoardR > 0 {
		text = " Without the board this was not checked." + text
	}
	return text
}

func dampFinding(d candidate.Damp, s units.System) string {
	switch d.Verdict {
	case candidate.NoBuildUp:
		return "no damp builds up from vapor."
	case candidate.Dries:
		if s.Moisture(d.PeakGM2) == aTrace {
			return fmt.Sprintf("a trace of damp builds up by %s and dries again by %s.", MonthName(d.PeakMonth), MonthName(d.ClearMonth))
		}
		return fmt.Sprintf("damp builds up to %s in %s and dries again by %s.", s.Moisture(d.PeakGM2), MonthName(d.PeakMonth), MonthName(d.ClearMonth))
	case candidate.MoldRisk:
		if d.PeakGM2 > 0 && d.WorstRH >= 0.999 && s.Moisture(d.PeakGM2) != aTrace {
			return fmt.Sprintf("DAMP, mold risk: up to %s of water %s, in %s.", s.Moisture(d.PeakGM2), d.Where, MonthName(d.PeakMonth))
		}
		if d.OnlyDampSide() {
			return fmt.Sprintf("on the damp side, mold possible: %s humidity %s, in %s.", s.Humidity(d.WorstRH), d.Where, MonthName(d.WorstMonth))
		}
		return fmt.Sprintf("DAMP, mold risk: %s humidity %s, in %s.", s.Humidity(d.WorstRH), d.Where, MonthName(d.WorstMonth))
	}
	return fmt.Sprintf("STAYS WET: %s of water %s, and it does not dry within a year.", s.Moisture(d.PeakGM2), d.Where)
}

// DampAtAGlance is what a line about the choice of a place must not leave out:
// nobody is to read that a blanket fits and not that the wood beside it gets
// damp, or that no other blanket would be drier. Empty when nothing was found.
func DampAtAGlance(p plan.Place) string {
	return dampAtAGlance(p.Choice.Damp, p.AllDamp())
}

func dampAtAGlance(d candidate.Damp, all bool) string {
	if damp := inspect.DampGlance(d, all); damp != "" {
		return "; " + damp
	}
	return ""
}

// DampLimits say, under the year of the damp check, what it does not cover and
// why months above the line do not count.
func DampLimits(d candidate.Damp, set catalog.Settings, s units.System) []string {
	var out []string
	if text := excused(d, set, s); text != "" {
		out = append(out, text)
	}
	return append(out, "A yearly balance of vapor only. Not in it: air leaks, which carry far more water, rain, sun, and what wood and fiber store. Seal first.")
}

// excused names the months above the line and why none of them is counted.
func excused(d candidate.Damp, set catalog.Settings, s units.System) string {
	var why []string
	add := func(months []int, reason string) {
		if len(months) > 0 {
			why = append(why, "in "+MonthSpans(months)+" "+reason)
		}
	}
	add(d.TooCold, "that spot is too cold for mold, "+s.Temp(set.MoldAboveC)+" or less")
	add(d.AsOutdoors, "it is no damper than the air outdoors")
	add(d.TooFew, "it is too short a time")
	if len(why) == 0 {
		return ""
	}
	return fmt.Sprintf("Above %s %s, and not counted as a mold risk: %s. Leaking room air can still make it wet: seal first.", s.Percent(set.MoldRH), d.Where, strings.Join(why, "; "))
}

// MonthSpans names months 1 to 12, given in order, by their runs; a run may
// pass the turn of the year: "December to February and June".
func MonthSpans(list []int) string {
	if len(list) == len(months)-1 {
		return "every month"
	}
	start := 0 // begin behind a gap, so that no run is cut at the turn of the year
	for i, m := range list {
		if m-1 != list[(i+len(list)-1)%len(list)]%12 {
			start = i
			break
		}
	}
	var spans []string
	for i := 0; i < len(list); {
		first := list[(start+i)%len(list)]
		last := first
		for i++; i < len(list) && list[(start+i)%len(list)] == last%12+1; i++ {
			last = last%12 + 1
		}
		name := MonthName(first)
		if last != first {
			name += " to " + MonthName(last)
		}
		spans = append(spans, name)
	}
	return strings.Join(spans, " and ")
}

// aTrace is how an amount of water is shown that would round to nothing.
const aTrace = "a trace"

// stageText names the stages of the build.
var stageText = map[string]string{
	"not-framed": "not framed yet", "framed": "framed", "wired": "pipes and wires in", "insulated": "insulation in", "closed": "closed",
}

// StageText names the stage of the build.
func StageText(stage string) string { return cmp.Or(stageText[stage], stage) }

// knownText spells a provenance mark out.
var knownText = map[catalog.Known]string{
	catalog.Standard: "checked source", catalog.Secondary: "weaker source", catalog.Practice: "rule of thumb", catalog.Memory: "not yet checked", catalog.Invented: "invented",
}

// KnownText spells a provenance mark out for a person.
func KnownText(k catalog.Known) string { return knownText[k] }

// First says what no priority and no budget gives away.
const First = "Safety rules and the R-value come first. No priority and no budget picks a blanket that gets damp while another passes both and does not."

// sourceText names a source with the marks of what it serves: the same wherever
// it is printed. The mark of one statement stands beside the statement.
func sourceText(c *catalog.Catalog, id string) string {
	title := id
	if s, ok := c.Source(id); ok {
		title = s.Title
	}
	var words []string
	for _, k := range c.Marks(id) {
		words = append(words, KnownText(k))
	}
	switch len(words) {
	case 0:
		return title
	case 1:
		return title + " [" + words[0] + "]"
	}
	return title + " [" + words[0] + "; partly " + strings.Join(words[1:], ", ") + "]"
}

// Closing is the caution every report ends with.
const Closing = "Model codes are law only as adopted where you build: ask the building department. Electrical, chimney and structural work belongs to licensed trades."
