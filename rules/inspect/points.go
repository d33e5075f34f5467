package inspect

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/heat"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// point decides one point of acceptance: from what was measured, or from what
// a person saw.
func (p FoundPlace) point(j Job, x catalog.AcceptancePoint) PointResult {
	out := PointResult{Point: x}
	switch x.From {
	case catalog.FromBare:
		out.State, out.Text = p.bare(j)
	case catalog.FromDamp:
		out.State, out.Text = p.planDamp(j)
	case catalog.FromBoard:
		out.State, out.Text = p.board(j)
		if p.boardFault() && p.Damper() {
			out.Text += ". Damp check: " + DampSaid(p.Got.Damp, j.System)
		}
	case catalog.FromChimney:
		out.State, out.Text = p.chimney(j)
	case catalog.FromLabel:
		out.State, out.Text = p.label(j)
	case catalog.FromThickness:
		out.State, out.Text = p.thickness(j)
	case catalog.FromVoids:
		out.State, out.Text = p.voids(j.Catalog())
	case catalog.FromSqueezed:
		out.State, out.Text = p.squeezed(j)
	case catalog.FromFacing:
		out.State, out.Text = p.facing(j)
		if p.Damper() && (out.State > Pass || !p.boardFault() && !p.paintFault()) { // else it stands with the board or the paint
			out.Text += ". Damp check: " + DampSaid(p.Got.Damp, j.System)
		}
	default:
		out.State, out.Text = p.seen(j, x)
		if x.ID == retarderPaint && p.paintFault() && p.Damper() {
			out.Text = x.Fails.In(j.System) + ". Damp check: " + DampSaid(p.Got.Damp, j.System)
		}
	}
	if out.State > Pass {
		out.Ask = p.remedy(j, x)
	}
	return out
}

// seen decides a point from what a person saw. What goes on the drywall is still to
// come until somebody says that it is there, and no drywall is up before the end.
func (p FoundPlace) seen(j Job, x catalog.AcceptancePoint) (State, string) {
	switch p.Answers[seePrefix+x.ID].Text {
	case seenGood:
		return Pass, ""
	case seenBad:
		return failed(x.Result), ""
	}
	switch {
	case x.ID == retarderPaint && paintFound(p.Answers) && j.Plan.Stage == stageClosed:
		return Pass, "noted as the sheet on the room side"
	case x.Later:
		return NotSeen, "still to come, on the drywall; the plan counts on it"
	}
	return NotSeen, ""
}

// stageClosed is the stage of a house whose drywall is up.
const stageClosed = "closed"

// remedy is what to ask for where a point failed, by what was found there.
func (p FoundPlace) remedy(j Job, x catalog.AcceptancePoint) string {
	switch in := p.Answers["batt_in_gap"]; {
	case x.From == catalog.FromChimney && in.State == house.Given && !in.Bool:
		return x.Absent.In(j.System) // nothing is there to take out
	case x.From == catalog.FromChimney && in.State == house.Given && p.tooNear():
		return x.Ask.In(j.System) + " " + x.Then.In(j.System)
	case x.From == catalog.FromBoard:
		return p.boardRemedy(x).In(j.System)
	case x.From == catalog.FromThickness && p.bulges():
		return x.Extra.In(j.System)
	case x.From == catalog.FromFacing && p.sheetNearHeat() && !p.burns():
		return x.Heat.In(j.System)
	case x.From == catalog.FromFacing && planned(p.Plan):
		return p.faceRemedy(j, x)
	}
	return x.Ask.In(j.System)
}

// blanketKeys are the answers that nobody can give without a blanket there.
var blanketKeys = []string{"label_r", "label_thickness_in", "material", "thickness_in", oldDepth, "facing_side", "gaps", "void_pct", "squeezed_pct", "squeezed_to_in"}

// blanketFound reports whether the answers about a place tell of a blanket.
func blanketFound(a house.Answers) bool {
	if there := a["blanket_there"]; there.State == house.Given && there.Bool {
		return true
	}
	face := a["facing"]
	return face.State == house.Given && face.Text != "none" ||
		slices.ContainsFunc(blanketKeys, func(k string) bool { return a[k].State == house.Given })
}

// bare: where the plan has no blanket none may lie, and where one can hurt
// people it stops the work.
func (p FoundPlace) bare(j Job) (State, string) {
	why := ""
	switch {
	case p.Plan.Stopped():
		why = "while the place is stopped"
	case barred(p.Plan):
		why = "while the width of the gap is not known"
	}
	there := p.Answers["blanket_there"]
	switch {
	case blanketFound(p.Answers) && why != "":
		return Halt, "a blanket lies here " + why + ": do not close"
	case blanketFound(p.Answers) && p.burns():
		return Halt, "what lies here does not belong beside a chimney: do not close"
	case blanketFound(p.Answers) && p.Plan.Target.Idle:
		return Fix, "a blanket lies here that the plan does not know: have it worked out first"
	case blanketFound(p.Answers):
		return Reject, "a blanket lies here, and the plan has none as things stand"
	case there.State == house.Given:
		return Pass, ""
	}
	return NotSeen, "look whether anything lies here"
}

// burns reports whether a blanket that was found beside a chimney has a face, or
// is of a fiber that the rules keep away from there.
func (p FoundPlace) burns() bool {
	if !byChimney(p.Plan) {
		return false
	}
	if f := p.Answers["facing"]; f.State == house.Given && f.Text != "none" {
		return true
	}
	return p.fiberBarred()
}

// fiberBarred reports whether the rules keep the fiber that was found away from
// the place, whatever its face.
func (p FoundPlace) fiberBarred() bool {
	fiber := p.Answers["material"].Text
	return slices.ContainsFunc(p.Plan.Candidates, func(c candidate.Assessed) bool {
		return c.Material.ID == fiber && len(c.Verdict.Excluded) > 0
	})
}

// planDamp: a place that the plan itself finds damp is not closed before that
// is settled, unless what was found is drier.
func (p FoundPlace) planDamp(j Job) (State, string) {
	if p.FaceSeen() && settles(p.Plan, p.Got) {
		return Pass, "as found: " + DampSaid(p.Got.Damp, j.System)
	}
	return Fix, "the plan says: " + DampSaid(p.Plan.Choice.Damp, j.System) + ". Settle that first"
}

// settles reports whether what was found or offered is dry where the plan is not,
// by nothing that the plan keeps away: no blanket that may not go there, no face
// and no sheet that the plan does not have.
func settles(p plan.Place, got *candidate.Assessed) bool {
	if got == nil || len(got.Verdict.Excluded) > 0 {
		return false
	}
	face := got.Facing.OnBlanket
	return got.Damp.Judged() && !got.Damp.Alarm() && (face == "none" || face == p.Choice.Facing.OnBlanket) &&
		(got.Facing.Sheet == "" || got.Facing.Sheet == p.Choice.Facing.Sheet)
}

func failed(result string) State {
	switch result {
	case catalog.ResultStop:
		return Halt
	case catalog.ResultReject:
		return Reject
	}
	return Fix
}

// chimney: anything in the air gap stops the work, and so does a gap smaller
// than the one agreed.
func (p FoundPlace) chimney(j Job) (State, string) {
	need := p.Plan.Surface.Clearance.Inches
	in, gap := p.Answers["batt_in_gap"], p.Answers["gap_in"]
	var faults []string
	if in.State == house.Given && in.Bool {
		faults = append(faults, "there is something in the gap")
	}
	if p.tooNear() {
		text := fmt.Sprintf("the gap is %s at its tightest, %s must stay empty", j.System.Inches(gap.Number), j.System.Clearance(need))
		if gap.Number >= p.Plan.Surface.Clearance.SureIn { // one side of it may be as near
			text += " (" + p.Plan.Surface.Clearance.Reason + ")"
		}
		faults = append(faults, text)
	}
	switch {
	case len(faults) > 0:
		return Halt, strings.Join(faults, ", and ") + ": do not close"
	case !p.Plan.Surface.Clearance.Known:
		return NotSeen, "KEEP THE GAP EMPTY, " + p.Plan.Surface.Clearance.Text(j.System) + " and type its width in the house file; do not close before that"
	case in.State == house.Given && gap.State == house.Given:
		return Pass, fmt.Sprintf("empty, %s at its tightest", j.System.Inches(gap.Number))
	}
	return NotSeen, "look into it and measure it before anything is closed"
}

// tooNear reports whether the gap was measured smaller than what must stay empty.
func (p FoundPlace) tooNear() bool {
	gap := p.Answers["gap_in"]
	return gap.State == house.Given && gap.Number < p.Plan.Surface.Clearance.Inches
}

// label compares the R of each layer with the one agreed, layer by layer.
func (p FoundPlace) label(j Job) (State, string) {
	if !p.Measured.LabelRead {
		return NotSeen, "taken as planned: " + layersText(p.Plan.Choice.Layers, j.System)
	}
	var words []string
	for _, x := range p.Measured.Products {
		words = append(words, j.System.R(x.NominalR))
	}
	text := strings.Join(words, " and ") + " on the label, agreed " + layersText(p.Plan.Choice.Layers, j.System)
	if p.Measured.Material.ID != p.Plan.Choice.Material.ID {
		text = p.Measured.Material.Name + " instead of " + p.Plan.Choice.Material.Name + "; " + text
		if heavy := p.tooHeavy(j); heavy != "" {
			text += ". " + strings.TrimSuffix(heavy, ".")
		}
		return Reject, text
	}
	if len(p.Measured.Products) < len(p.Plan.Choice.Layers) {
		return Reject, "a layer is missing: " + text
	}
	for i, l := range p.Plan.Choice.Layers {
		if p.Measured.Products[i].NominalR < l.Product.NominalR-0.05 {
			return Reject, text
		}
	}
	for i, l := range p.Measured.lie(j.Catalog(), p.Plan) {
		switch {
		case !tooThick(l) || squeezedAsPlanned(p.Plan, i, l):
		case i < len(p.Plan.Choice.Layers) && l.R >= p.Plan.Choice.Layers[i].R:
			return Fix, tooThickText(p.Plan, l, j.System)
		default:
			return Reject, tooThickText(p.Plan, l, j.System)
		}
	}
	if heavy := p.tooHeavy(j); heavy != "" {
		return Reject, heavy
	}
	if p.other() && p.Answers["label_thickness_in"].State != house.Given { // more R may be a thicker blanket, squeezed
		return NotSeen, text + "; it is another blanket than agreed, and the thickness on its label was not read"
	}
	if p.Answers["material"].State != house.Given { // one that burns can carry the same R
		return NotSeen, text + "; which fiber it is was not said"
	}
	return Pass, text
}

// thickness compares each measured point with the agreed thickness.
func (p FoundPlace) thickness(j Job) (State, string) {
	m, limits := p.Measured, j.Catalog().Acceptance().Limits
	if m.DeepestIn > 0 {
		return NotSeen, fmt.Sprintf("thinnest %s to the ceiling, agreed %s; that is a guess from the R of the old blanket: measure how deep it lies alone, and say so (%s)", j.System.Inches(m.DeepestIn), DepthText(p.Plan, j.System), oldDepth)
	}
	if len(m.Depths) == 0 {
		return NotSeen, "taken as agreed: " + DepthText(p.Plan, j.System)
	}
	deep := ""
	if m.UnderIn > 0 {
		deep = " to the ceiling"
	}
	text := fmt.Sprintf("thinnest %s%s of %d points, agreed %s", j.System.Inches(m.ThinnestIn+m.UnderIn), deep, len(m.Depths), DepthText(p.Plan, j.System))
	if few := limits.Points - len(m.Depths); few > 0 {
		text += fmt.Sprintf("; measure at %d points", limits.Points)
	}
	if p.bulges() {
		thick, room := slices.Max(m.Depths), roomFor(p.Plan)
		text = fmt.Sprintf("thickest %s in a room of %s: it bulges into what must stay free", j.System.Inches(thick), j.System.Inches(room))
		if byChimney(p.Plan) {
			return Halt, text
		}
		return Fix, text
	}
	switch {
	case m.ThinnestIn < limits.ThicknessReject*m.PlannedIn:
		return Reject, text
	case m.ThinnestIn < m.PlannedIn-tape && p.lessR():
		return Fix, text
	case m.ThinnestIn < m.PlannedIn-tape:
		return Pass, text + "; thinner in spots, all measured points together still have the R that is asked"
	}
	return Pass, text
}

// lessR reports whether the blankets as found have less R than is asked, or, where
// nothing is asked, than was agreed.
func (p FoundPlace) lessR() bool {
	switch {
	case p.Got == nil:
		return true
	case p.Plan.Target.Required && p.Plan.Choice.Heat.ShortByR <= 0:
		return p.Got.Heat.ShortByR > 0
	}
	return p.Got.CavityR < p.Plan.Choice.CavityR-0.5
}

// tape is what a tape measure tells, in inches.
const tape = 1.0 / 16

// bulges reports whether a blanket was measured thicker than its room.
func (p FoundPlace) bulges() bool {
	room := roomFor(p.Plan)
	return len(p.Measured.Depths) > 0 && room > 0 && slices.Max(p.Measured.Depths) > room+tape
}

// other reports whether a label carries more R than was agreed.
func (p FoundPlace) other() bool {
	for i, l := range p.Plan.Choice.Layers {
		if i < len(p.Measured.Products) && p.Measured.Products[i].NominalR > l.Product.NominalR+0.05 {
			return true
		}
	}
	return false
}

// tooHeavy says that the blankets that were found are more than their ceiling
// carries, where those of the plan are not; empty else.
func (p FoundPlace) tooHeavy(j Job) string {
	if p.Got == nil {
		return ""
	}
	for _, h := range p.Got.Verdict.Safety {
		if len(h.Unknown) == 0 && asksOf(h.Rule, "overloaded") && !warned(p.Plan, h) {
			return j.Catalog().Caution(h, j.System)
		}
	}
	return ""
}

// roomFor is how deep a blanket may be that lies in one room of the frame with
// something before it: drywall, an airway, the gap of a chimney. It is 0 where
// nothing is in its way: over the joists of an attic, under a floor.
func roomFor(p plan.Place) float64 {
	l := p.Choice.Layers
	if k := p.Surface.Kind; k.StackOverFraming || k.OpenBelow() || len(l) != 1 || l[0].Across {
		return 0
	}
	return p.Surface.Frame.RoomIn // a thinner blanket may have been planned
}

func (p FoundPlace) voids(c *catalog.Catalog) (State, string) {
	m := p.Measured
	agreed := agreedGrade(c, p.Plan.Choice.Heat.VoidShare)
	if !m.VoidSaid {
		return NotSeen, fmt.Sprintf("taken as planned: %s of the area", percent(m.Fit.Void))
	}
	got := gradeIn(c, Fitting{Void: m.Fit.Void, DepthLeft: 1})
	text := fmt.Sprintf("%s of the area: %s, the plan counts on %s", percent(m.Fit.Void), gradeName(c, got), gradeName(c, agreed))
	if got == heat.Ungraded {
		text += "; counts as no insulation at all"
	}
	return byGrade(got, agreed), text
}

func (p FoundPlace) squeezed(j Job) (State, string) {
	m, c := p.Measured, j.Catalog()
	if !m.SqueezeSaid {
		return NotSeen, ""
	}
	got := gradeIn(c, Fitting{Squeezed: m.Fit.Squeezed, DepthLeft: m.Fit.DepthLeft})
	agreed := agreedGrade(c, p.Plan.Choice.Heat.VoidShare)
	text := fmt.Sprintf("%s of the area", percent(m.Fit.Squeezed))
	if m.Fit.Squeezed > 0 && p.Answers["squeezed_to_in"].State != house.Given {
		return NotSeen, text + "; how thick it is there was not measured, and half is taken"
	}
	if m.Fit.Squeezed > 0 {
		text += fmt.Sprintf(", %s left there: %s, the plan counts on %s", units.US.Percent(m.Fit.DepthLeft), gradeName(c, got), gradeName(c, agreed))
	}
	return byGrade(got, agreed), text
}

// byGrade: as good as the plan counts on passes, worse is mended, below all
// grades is done again.
func byGrade(got, agreed heat.Grade) State {
	switch {
	case got <= agreed:
		return Pass
	case got == heat.Ungraded:
		return Reject
	}
	return Fix
}

func (p FoundPlace) facing(j Job) (State, string) {
	c := j.Catalog()
	said := p.Answers["facing"]
	agreed := p.Plan.Choice.Facing.OnBlanket
	name := func(id string) string {
		f, _ := c.Facing(id)
		return f.Name
	}
	if p.paintAsked() {
		return NotSeen, name("paint") + " beside a chimney: only on the room face of the drywall, and only as the building department allows; mark that below once it has said so"
	}
	if p.sheetNearHeat() {
		return Halt, name(p.Answers["sheet"].Text) + " beside a chimney: it does not belong near heat"
	}
	faults := p.faceFaults()
	if list := p.faceBarred(); said.State == house.Given && len(list) > 0 && len(p.Plan.Choice.Verdict.Excluded) == 0 {
		text := strings.TrimSuffix(list[0].Text, ".")
		if more := p.faceFaultText(c, slices.DeleteFunc(faults, func(f faceFault) bool { return f == otherFace })); more != "" {
			text += "; " + more
		}
		if p.Plan.Surface.Kind.BesideChimney {
			return Halt, text
		}
		return Fix, text
	}
	if len(faults) > 0 {
		return Fix, p.faceFaultText(c, faults)
	}
	if said.State != house.Given {
		return NotSeen, "agreed: " + name(agreed)
	}
	if sheet := sheetAgreed(p.Plan); sheet != "" {
		if p.Answers["sheet"].State != house.Given {
			return NotSeen, "agreed: " + name(sheet) + "; look whether it is up"
		}
		if agreed == "none" {
			return Pass, name(agreed) + ", " + name(p.Answers["sheet"].Text)
		}
	}
	if named := sheetLeftOut(p.Plan); named != "" && p.Answers["sheet"].State != house.Given {
		return NotSeen, "no sheet agreed, and your house file names " + name(named) + "; look whether one is up"
	}
	if agreed == "none" {
		return Pass, name(agreed)
	}
	switch p.Measured.Side {
	case "room":
		return Pass, name(agreed) + " toward the heated room"
	case "out": // where neither side is the room's
		return Pass, name(agreed) + " toward you"
	}
	return NotSeen, name(agreed) + ": look toward which side it is"
}

// faceBarred is what keeps away the blanket as it was found, but for what the board
// is at fault for.
func (p FoundPlace) faceBarred() []rules.Hit {
	if p.Got == nil {
		return nil
	}
	list := slices.Clone(p.Got.Verdict.Excluded)
	if p.boardFault() {
		list = slices.DeleteFunc(list, byFoam)
	}
	return list
}

// percent writes a share as a tape measure and an eye tell it: in whole
// percent, and what is less is said to be less.
func percent(share float64) string {
	p := math.Round(100 * share)
	switch {
	case share <= 0:
		return "0 %"
	case p < 1:
		return "less than 1 %"
	}
	return fmt.Sprintf("about %.0f %%", p)
}
