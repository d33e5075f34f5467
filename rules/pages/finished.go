package pages

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/heat"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// FoundPage is finished work held against the plan.
func FoundPage(j inspect.Job, r inspect.FoundResult, o Options) page.Page {
	d := page.Page{Title: "Finished work", Intro: visitText(j, r) + " " + FoundVerdict(r), End: Closing}
	if len(r.First) > 0 {
		d.Block("STOP: settle first").Items(page.Stop, r.First)
	}
	for _, p := range r.Stopped {
		d.Block("STOP: "+p.Surface.Label).Items(page.Stop, p.StopLines())
	}
	for _, p := range r.Unasked {
		d.Block("STOP, NOT ANSWERED YET: "+p.Surface.Label).Items(page.Stop, FindFirst(p, o))
	}
	if r.Stops() {
		sec := d.Block("STOP: DO NOT CLOSE")
		for _, p := range r.Places {
			for _, x := range p.Points {
				if x.State == inspect.Halt {
					sec.Item(page.Stop, p.Plan.Surface.Label+": "+pointLine(x, o.System)+". "+x.Ask)
				}
			}
		}
	}
	for _, p := range r.Places {
		if p.OpenStops() == 0 {
			continue
		}
		sec := d.Block("STOP, NOT LOOKED AT YET: " + p.Plan.Surface.Label)
		for _, x := range p.Points {
			if x.State == inspect.NotSeen && x.Point.Result == catalog.ResultStop {
				sec.Item(page.Stop, titled(x))
			}
		}
	}
	for _, p := range r.Places {
		sec := d.Block(p.Plan.Surface.Label)
		for _, l := range FoundLines(p, o) {
			sec.Fact(page.Plain, l.Label, l.Text)
		}
		for _, x := range p.Points {
			cite(&d, o.Catalog, x.Point.Ref)
			if x.State != inspect.NotSeen {
				sec.Item(pointTone(x.State), PointLine(x, o.System))
			}
		}
		for _, x := range p.Points {
			if x.NotUnderstood || x.Point.Later && x.State == inspect.NotSeen {
				sec.Item(page.Care, titled(x))
			}
		}
		if open := OpenText(p); open != "" {
			sec.Item(page.Plain, "NOT LOOKED AT  "+open)
		}
	}
	if list := askFor(r); len(list) > 0 {
		d.Block("Ask for").Ticks(page.Plain, list)
	}
	if len(r.Notes) > 0 {
		sec := d.Block("Not understood, or read in other units")
		for _, n := range r.Notes {
			sec.Item(page.Care, n.Error())
		}
	}
	return d
}

// pointTone is how a point is meant as it was found.
func pointTone(s inspect.State) page.Tone {
	switch {
	case s == inspect.Halt:
		return page.Stop
	case s > inspect.Pass:
		return page.Care
	}
	return page.Plain
}

func visitText(j inspect.Job, r inspect.FoundResult) string {
	text := houseName(j.Plan)
	if r.By != "" {
		text += ", seen by " + r.By
	}
	if r.Date != "" {
		text += ", " + r.Date
	}
	return text + "."
}

// FoundVerdict is the whole in one sentence.
func FoundVerdict(r inspect.FoundResult) string {
	open, stops := 0, 0
	var damp []string
	for _, p := range r.Places {
		open, stops = open+p.Open(), stops+p.OpenStops()
		if p.DampPlanned() {
			damp = append(damp, p.Plan.Surface.Label)
		}
	}
	seen := were(open) + " not looked at"
	switch {
	case stops == 1 && open == 1:
		seen += ", and it can hurt people"
	case stops == open && stops > 0:
		seen += ", and all of them can hurt people"
	case stops > 0:
		seen += fmt.Sprintf(", %d of which can hurt people", stops)
	}
	switch {
	case len(r.Places) == 0:
		return "Nothing to look at yet: no place has a plan. Not ready to close."
	case r.Stops():
		return "STOP: do not close. Something can hurt people."
	case len(r.Stopped)+len(r.Unasked) > 0 && (open > 0 || r.FallsShort()):
		return "STOP: what stops a place, or could, comes first (" + strings.Join(waitingLabels(r), ", ") + "). Not ready to close; " + seen + "."
	case len(damp) > 0 && open > 0:
		return dampVerdict(damp) + " Not ready to close; " + seen + "."
	case len(damp) > 0:
		return dampVerdict(damp) + " Not ready to close."
	case r.FallsShort() && open > 0:
		return "Not ready to close: points fail, and " + seen + "."
	case r.FallsShort():
		return "Not ready to close: points fail."
	case open > 0:
		return "Nothing failed yet; " + seen + ". Not ready to close."
	}
	if len(r.First) > 0 {
		return "Every point on our list passes, but something must be settled for the whole house. Not ready to close."
	}
	if len(r.Unasked) > 0 {
		return "Every point on our list passes, but something that could stop a place was never found out. Not ready to close."
	}
	if len(r.Stopped) > 0 {
		return "Every point on our list passes, but a place is stopped. Not ready to close."
	}
	if short := r.Short(); len(short) > 0 {
		return "Every point on our list passes, but there is less R than is asked for (" + strings.Join(short, ", ") + "): settle that with the building department. Not ready to close."
	}
	if part := r.PartSeen(); len(part) > 0 {
		return "Every point on our list passes where somebody looked; nobody looked at all of it (" + strings.Join(part, ", ") + "). Look at the rest before it is closed."
	}
	if later := r.ToCome(); len(later) > 0 {
		return "Every point on our list that can be seen before the drywall passes. What goes on the drywall is still to come (" + strings.Join(later, ", ") + "): look again when it is on. The inspector decides."
	}
	return "Every point on our list passes. The inspector decides."
}

// waitingLabels are the places that are stopped, or about which something that could
// stop them was never found out.
func waitingLabels(r inspect.FoundResult) []string {
	var out []string
	for _, p := range slices.Concat(r.Stopped, r.Unasked) {
		out = append(out, p.Surface.Label)
	}
	return out
}

// dampVerdict says where the plan itself finds damp.
func dampVerdict(places []string) string {
	if len(places) == 1 {
		return "The plan says that a place gets damp (" + places[0] + "): settle that first."
	}
	return "The plan says that places get damp (" + strings.Join(places, ", ") + "): settle that first."
}

func were(points int) string {
	verb := " were"
	if points == 1 {
		verb = " was"
	}
	return plural(points, "point") + verb
}

// PointLine is one point with its result and how well it is known.
func PointLine(x inspect.PointResult, s units.System) string {
	return fmt.Sprintf("%s (%s)", pointLine(x, s), pointMark(x.Point.Known))
}

func pointLine(x inspect.PointResult, s units.System) string {
	text := strings.ToUpper(x.State.String()) + "  "
	switch {
	case x.State > inspect.Pass && x.Text == "":
		return text + x.Point.Title + "? No: " + x.Point.Fails.In(s)
	case x.State > inspect.Pass:
		return text + x.Point.Title + "? No: " + x.Text
	}
	return text + titled(x)
}

// titled is a point with what was measured.
func titled(x inspect.PointResult) string {
	if x.Text == "" {
		return x.Point.Title
	}
	return x.Point.Title + ": " + x.Text
}

// OpenText names the points of a place that nobody looked at, empty when all
// were, and of one that was begun what lacks. What was written down and not
// understood is said apart.
func OpenText(p inspect.FoundPlace) string {
	var out []string
	for _, x := range p.Points {
		switch {
		case x.State != inspect.NotSeen || x.NotUnderstood || x.Point.Later:
		case p.Partly(x):
			out = append(out, titled(x))
		default:
			out = append(out, x.Point.Title)
		}
	}
	return strings.Join(out, "; ")
}

// FoundLines are the figures of a place as it was found, beside the plan's.
func FoundLines(p inspect.FoundPlace, o Options) []Line {
	var out []Line
	add := func(label, format string, args ...any) { out = append(out, Line{label, fmt.Sprintf(format, args...)}) }
	if text := p.Plan.MindText(o.System); text != "" {
		add("Mind", "%s", strings.TrimPrefix(text, plan.MindHead))
	}
	if p.Plan.Choice == nil {
		text := "stopped, see above: nothing goes in yet"
		if !p.Plan.Stopped() {
			text = Glance(p.Plan, o)
		}
		add("Plan", "%s", text)
		if short := p.ShortText(o.System); short != "" {
			add("Target", "%s", short)
		}
		return out
	}
	if brief := settleBrief(p.Plan); brief != "" { // a tick may be the later truth
		add("File", "your house file still says %s Change it once that is settled.", strings.TrimPrefix(brief, plan.SettleHead))
	}
	if short := p.ShortText(o.System); short != "" {
		add("Target", "%s", short)
	}
	if seen := p.SeenFt2(); seen > 0 {
		add("Seen", "%s of %s", o.System.Area(seen), o.System.Area(p.Plan.Surface.AreaFt2))
	}
	agreed := p.Plan.Choice.Heat
	board := ""
	if r := p.BoardCounted(); r > 0 {
		board = ", with the " + o.System.R(r) + " board, which nobody has seen yet"
	}
	if !p.Measured.Any() {
		why := "nobody has looked at it yet"
		if p.Begun() {
			why = "nothing that tells its R was read or measured yet"
		}
		add("Gives", why+"; as planned it gives %s, the whole surface about %s"+board, o.System.R(agreed.DeliveredR), o.System.R(agreed.AssemblyR))
		return out
	}
	if p.Got == nil {
		add("Gives", "could not be worked out from what was measured")
		return out
	}
	tops := ""
	if p.Got.Layers[0].ProudIn > 0 {
		tops = ". It stands above the joists: taken as if it does not meet over their tops, so look whether it does"
	}
	if h := p.Got.Heat; h.ShortByR > 0 {
		tops += fmt.Sprintf(". Against what is asked its R by label and depth counts, %s", o.System.R(h.ServesR-h.ShortByR))
	}
	add("Gives", "%s in place, the plan %s; the whole surface is about %s, the plan %s"+board+tops,
		o.System.R(p.Got.Heat.DeliveredR), o.System.R(agreed.DeliveredR), o.System.R(p.Got.Heat.AssemblyR), o.System.R(agreed.AssemblyR))
	if text := foundDamp(p, o); text != "" {
		add("Damp", "%s", text)
	}
	if p.Measured.VoidSaid || p.Measured.SqueezeSaid {
		add("Fitting", "%s; by the rules of that grade the blanket counts as %s", gradeText(p, o), o.System.R(p.GradedR))
	}
	if p.LostHeat.High > 0 {
		add("If left", "%s", lostText(p, o.System))
	}
	return out
}

// foundDamp is the damp check of a place as it was found, beside the plan's;
// empty where the plan has none.
func foundDamp(p inspect.FoundPlace, o Options) string {
	planned := inspect.DampSaid(p.Plan.Choice.Damp, o.System)
	switch {
	case planned == "" && p.Plan.Choice.Damp.WorkedOut():
		return NotJudged(p.Plan.Choice.Damp)
	case planned == "":
		return ""
	case p.SheetUnseen():
		return "not judged: look which face it has, toward which side, and which sheet is on the room side; the plan: " + planned
	case p.SheetUnjudged():
		return "not judged with a sheet that the plan does not have; the plan: " + planned
	case p.LayerMissing():
		return "not judged without the layer under the joists, which is not as agreed; the plan: " + planned
	case !p.FaceSeen():
		return "not judged: look which face it has, and toward which side; the plan: " + planned
	}
	got := p.Got.Damp
	if got.WorkedOut() && !got.Judged() {
		return strings.TrimSuffix(NotJudged(got), ".") + "; the plan: " + planned
	}
	var unseen []string // what it counts on, named here with its caution
	if r := p.BoardCounted(); r > 0 {
		got.BoardR, unseen = 0, append(unseen, "the "+o.System.R(r)+" board")
	}
	if p.LayerCounted() {
		got.UnderJoists, unseen = false, append(unseen, "the layer under the joists")
	}
	if p.FoamCounted() {
		got.FoamInBays, unseen = false, append(unseen, "the foam in its bays")
	}
	if paint, ok := o.Catalog.Facing(p.Plan.Choice.Facing.Sheet); ok && p.PaintToCome() {
		unseen = append(unseen, "the "+paint.Name)
	}
	text := inspect.DampSaid(got, o.System)
	if p.HolesOpen() {
		text = "holes are open: " + inspect.DampHoled(got, o.System)
	}
	if len(unseen) > 0 {
		text = "with " + strings.Join(unseen, " and ") + ", which nobody has seen yet: " + text
	}
	if p.Damper() || p.HolesOpen() {
		text = "WORSE THAN PLANNED: " + text
	}
	return text + "; the plan: " + planned
}

// lostText says what a worse fitting loses in a year; what rounds to nothing is
// not written as 0.
func lostText(p inspect.FoundPlace, s units.System) string {
	none, low, high := s.Energy(0), s.Energy(p.LostHeat.Low), s.Energy(p.LostHeat.High)
	switch none {
	case high:
		return "next to no more heat lost each year, less than this shows"
	case low:
		low = "up to "
	default:
		low += " to "
	}
	text := low + high + " more heat lost each year"
	switch usd := dollarsRange(p.LostUSD); {
	case usd.High <= 0:
	case usd.High < units.FromDollars(0.5):
		text += ", next to nothing in money"
	case usd.Low < units.FromDollars(0.5):
		text += ", up to " + s.MoneyAbout(usd.High)
	default:
		text += ", about " + s.MoneyRange(usd)
	}
	return text
}

func dollarsRange(r units.Range[float64]) units.Range[units.Cents] {
	return units.Range[units.Cents]{Low: units.FromDollars(r.Low), Typical: units.FromDollars(r.Typical), High: units.FromDollars(r.High)}
}

func gradeText(p inspect.FoundPlace, o Options) string {
	said := ""
	if !p.Measured.VoidSaid || !p.Measured.SqueezeSaid {
		said = ", as far as measured"
	}
	for _, g := range o.Catalog.Acceptance().Grades {
		if heat.Grade(g.Number) == p.Grade {
			return "grade " + g.ID + said + " (" + g.Text.In(o.System) + ")"
		}
	}
	return "below every grade" + said
}

// askFor is what to ask the installer for, the gravest first, each once.
func askFor(r inspect.FoundResult) []string {
	var out []string
	for _, state := range []inspect.State{inspect.Halt, inspect.Reject, inspect.Fix} {
		for _, p := range r.Places {
			for _, x := range p.Points {
				if x.State == state {
					out = append(out, p.Plan.Surface.Label+": "+x.Ask)
				}
			}
		}
	}
	return out
}
