// Package pages turns a plan into text, Markdown, JSON and CSV. It works
// nothing out; every number it prints passes through units.System.
package pages

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

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
	if !d.Judged() {
		return NotJudged(d)
	}
	text := inspect.DampSaid(d, s) + "."
	if d.BoardR > 0 {
		text += " Without the board this was not checked."
	}
	return text + " Rain and leaking water are not in it."
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

// waysOutText names what would cure a place that gets wet or molds.
func waysOutText(p plan.Place) string {
	if len(p.WaysOut) == 0 {
		return "none of the usual changes that we tried alone does it. Close nothing before somebody who does this for a living has looked."
	}
	ways := make([]string, len(p.WaysOut))
	for i, w := range p.WaysOut {
		ways[i] = w.Text + " (" + dampWords[w.Word] + ")"
		if w.But != "" {
			ways[i] += ", but " + w.But
		}
	}
	return "by the same check one of these alone would do: " + strings.Join(ways, "; ") + "." + seasonSaid(p.Choice.Damp) + " Change that answer and look again before you buy."
}

// seasonSaid tells when the damp comes, where it does.
func seasonSaid(d candidate.Damp) string {
	switch d.Season() {
	case damp.Summer:
		return " The damp comes in summer here, May to September."
	case damp.Winter:
		return " The damp comes in winter here, October to April."
	}
	return ""
}

// dampThree say what the code asks here, what practice says and what this check does,
// a line each.
func dampThree(p plan.Place, s units.System) []string {
	out := []string{"The code here: " + codeSaid(p) + ". Planned: " + faceText(*p.Choice) + "."}
	if said := dampPractice(p, s); said != "" {
		out = append(out, "Practice: "+said)
	}
	if !p.Choice.Damp.Judged() {
		return append(out, "This calculation: "+NotJudged(p.Choice.Damp))
	}
	return append(out, "This calculation: "+inspect.DampSaid(p.Choice.Damp, s)+".")
}

// NotJudged says that the damp check has no verdict, and why.
func NotJudged(d candidate.Damp) string { return "not judged: " + d.Why + "." }

// DampLimits say, under the year of the damp check, what code, practice and check say
// here, what was taken for granted, what was tried because nobody said, and what is not
// in it.
func DampLimits(p plan.Place, c *catalog.Catalog, s units.System) []string {
	d := p.Choice.Damp
	out := dampThree(p, s)
	if len(d.Open) > 0 {
		out = append(out, "Nobody said "+list(dampOpen, d.Open)+": each usual one was tried, and the worst counts.")
	}
	f := c.DampLayers().DampFigures
	return append(out,
		"Taken for granted: "+roomsSaid(d, s)+"; room air that leaks in, built well "+s.Leak(f.LeakWorkmanlikeM3M2H)+", with holes "+s.Leak(f.LeakWithHolesM3M2H)+".",
		"Worked out hour by hour over a typical year, twice: built well, and with room air leaking through holes. The worst side of the house counts, and is drawn.",
		"Not in it: rain, leaking water, wet brick, and wood that is wet when it is closed in.")
}

// codeAsks says what the code wants on the room side.
var codeAsks = map[string]string{
	candidate.RetarderNone:   "no vapor retarder is asked for",
	candidate.RetarderWanted: "a vapor retarder toward the heated room is asked for",
	candidate.RetarderBarred: "nothing vapor-tight may go on the room side",
}

// codeSaid is that for a place: the rule is written for walls, and a frame beside a
// chimney may be one.
func codeSaid(p plan.Place) string {
	k, asked := &p.Surface.Kind, p.Choice.Facing.Asked
	switch {
	case k.BesideChimney:
		return "where this frame is an outside wall, what it asks of walls holds here too: ask the building department before it is closed"
	case k.Retarder != catalog.RetarderByTable && asked != candidate.RetarderNone:
		return "on walls " + codeAsks[asked] + "; whether that holds here, the building department says"
	}
	return codeAsks[asked]
}

// dampFacts are what a rule asks of that speaks about damp air.
var dampFacts = []string{"retarder_asked", "retarder", "damp_verdict"}

// dampPractice is what common practice says here about damp air: of such a place, and
// the most weighty rule of that source that fires.
func dampPractice(p plan.Place, s units.System) string {
	all := p.Surface.Kind.DampPractice
	said := all["any"]
	if own, ok := all[p.Choice.Facing.Asked]; ok {
		said = own
	}
	return strings.TrimSpace(upperFirst(said.In(s)) + " " + dampRule(p))
}

func dampRule(p plan.Place) string {
	for _, h := range slices.Concat(p.Safety, p.Require, p.Install) {
		speaks := func(fact string) bool { _, ok := h.Rule.Where[fact]; return ok }
		if h.Rule.Source == "common-practice" && slices.ContainsFunc(dampFacts, speaks) {
			return h.Text
		}
	}
	return ""
}

// roomsSaid tells how the rooms are kept that the damp check looks out of.
func roomsSaid(d candidate.Damp, s units.System) string {
	said := "rooms of " + cmp.Or(airSaid[d.Indoor], airSaid["usual"]) + ", heated to " + s.Temp(d.Rooms.HeatingC) + ", at most " + s.Percent(d.Rooms.MaxRH) + " humidity"
	if d.Rooms.Cooled {
		said += ", while cooled " + s.Percent(d.Rooms.MaxRHCooled)
	}
	if d.Rooms.DriedRH > 0 {
		said += ", " + s.Percent(d.Rooms.DriedRH) + " from May to September"
	}
	return said
}

// airSaid names the answers about the air inside.
var airSaid = map[string]string{"dry": "dry air", "usual": "usual dampness", "humid": "humid air"}

// DampCase tells which run of the damp check something is of: the face, what covers
// the drywall, the board, how cool the rooms are.
func DampCase(c damp.Case, s units.System) string {
	parts := []string{c.Face}
	for _, id := range []string{c.Cover, c.Board} {
		if id != "" {
			parts = append(parts, cmp.Or(dampParts[id], strings.ReplaceAll(id, "-", " ")))
		}
	}
	if c.CooledC != 0 {
		parts = append(parts, "cooled to "+s.Temp(c.CooledC))
	}
	return strings.Join(parts, ", ")
}

// dampParts names boards where their ids do not.
var dampParts = map[string]string{"eps": "EPS board", "xps": "XPS board", "polyiso": "polyiso board", "mineral-wool": "mineral wool board"}

// dampOpen names what the check was not told.
var dampOpen = map[string]string{"cover": "what covers the drywall (paint, wallpaper)", "board": "which kind of board", "pitch": "how steep the roof is"}

func list(names map[string]string, ids []string) string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = cmp.Or(names[id], id)
	}
	return strings.Join(out, ", or ")
}

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
