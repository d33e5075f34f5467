package pages

import (
	"fmt"
	"strings"
	"time"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// Handover writes what is handed over: the sheets of all places, or the page
// of one person. drywall is the day the drywall starts, zero when not said.
type Handover struct {
	Job     inspect.Job
	Person  string // empty: the sheets of all places
	Drywall time.Time
	Today   time.Time // days before it are said to be past; zero when not known
}

// Page is the page to print or to show.
func (h Handover) Page(o Options) (page.Page, error) {
	if h.Person == "" {
		return h.sheets(o), nil
	}
	person, err := inspect.PageFor(h.Job, h.Person)
	if err != nil {
		return page.Page{}, err
	}
	d := page.Page{Title: person.Title, Intro: houseName(h.Job.Plan), End: Closing}
	h.first(&d)
	for _, part := range person.Parts {
		d.Block(part.Title).Items(page.Plain, part.Lines)
	}
	h.calendar(&d, h.Person, o)
	if h.Person == "installer" {
		h.sheetSections(&d, o)
	}
	if h.Person == "self" {
		h.closing(&d)
	}
	return d, nil
}

// first heads a page with what must be settled for the whole house.
func (h Handover) first(d *page.Page) {
	if list := h.Job.Plan.First(); len(list) > 0 {
		d.Block("Settle first").Ticks(page.Stop, list)
	}
}

func houseName(p plan.Plan) string {
	if p.Name == "" {
		return "House without a name"
	}
	return p.Name
}

// sheets is the whole handover: each place, the labels and receipts, the
// calendar, the list before the walls close.
func (h Handover) sheets(o Options) page.Page {
	d := page.Page{
		Title: "Handover sheets", End: Closing, Intro: houseName(h.Job.Plan) + ". Write down what is agreed, part by part, before the work begins; measure it before anything is covered. One line for each part: R is never added up over the house.",
	}
	h.first(&d)
	h.sheetSections(&d, o)
	rest := d.Block("Labels and receipts")
	for _, l := range o.Catalog.Acceptance().Labels {
		rest.Tick(page.Plain, labelHead[l.On]+l.Text.In(o.System))
		cite(&d, o.Catalog, l.Ref)
	}
	h.calendar(&d, "", o)
	h.closing(&d)
	return d
}

var labelHead = map[string]string{"label": "each package: ", "receipt": "the receipt: "}

func (h Handover) sheetSections(d *page.Page, o Options) {
	for _, p := range h.Job.Plan.Places {
		s, ok := inspect.SheetOf(h.Job, p)
		sec := d.Block(p.Surface.Label)
		if asks := FindFirst(p, o); len(asks) > 0 {
			sec.Say("First, before anything is bought or begun here:")
			sec.Ticks(page.Stop, asks)
		}
		if !ok {
			sec.Loud("%s", noSheet(p, o))
			mind(sec, p, o)
			if len(s.Points) > 0 {
				sec.Say("Looked at all the same:")
			}
			for _, x := range s.Points {
				sec.Tick(page.Plain, PointText(x, o.System))
				cite(d, o.Catalog, x.Ref)
			}
			continue
		}
		mind(sec, p, o)
		sheetFacts(sec, s, o)
		notes := func(title string, list []catalog.HandoverNote) {
			if len(list) > 0 {
				sec.Say("%s", title)
			}
			for _, n := range list {
				sec.Tick(page.Plain, n.Text.In(o.System))
				cite(d, o.Catalog, n.Ref)
			}
		}
		notes("First:", s.First)
		notes("Stays clear:", s.Clear)
		sec.Say("Accepted by these points:")
		for _, x := range s.Points {
			sec.Tick(page.Plain, PointText(x, o.System))
			cite(d, o.Catalog, x.Ref)
		}
		notes("Left behind:", s.Leave)
		for _, n := range s.Hold {
			sec.Loud("%s", n.Text.In(o.System))
		}
		sec.Room("Agreed otherwise:")
		sec.Room("Installer, date:")
		sec.Room("Owner, date:")
	}
}

func noSheet(p plan.Place, o Options) string {
	switch {
	case p.Stopped():
		return p.StopText() + " No sheet."
	case p.Surface.Held() != "":
		return "NO SHEET: " + GapText(p, o)
	}
	if p.Target.Idle {
		return "NO SHEET: " + NothingText(p) + "."
	}
	return "NO SHEET: no blanket may go here as it stands. See the plan."
}

// sheetFacts are the facts of a sheet: what goes in, layer by layer, how
// thick, how much, which face.
func sheetFacts(b *page.Block, s inspect.Sheet, o Options) {
	add := func(label, text string) { b.Fact(page.Plain, label, text) }
	loud := func(label, text string) { b.Fact(page.Stop, label, text) }
	for i, l := range s.Layers {
		label := "Use"
		if len(s.Layers) > 1 {
			label = fmt.Sprintf("Layer %d", i+1)
		}
		text := fmt.Sprintf("%s %ss, %s on the bag, %s thick by the label", s.Plan.Choice.Material.Name, l.Product.Form, o.System.R(l.Product.NominalR), o.System.Inches(l.Product.ThicknessIn))
		switch {
		case l.Across:
			text += "; across the joists"
		case l.RoomIn < l.Product.ThicknessIn:
			text += fmt.Sprintf("; in a room of %s it counts %s", o.System.Inches(l.RoomIn), o.System.R(l.R))
		}
		add(label, text)
	}
	add("Thick", inspect.DepthText(s.Plan, o.System)+", to be measured in place; write down what you find: ________")
	add("Area", o.System.Area(s.Plan.Surface.AreaFt2)+", openings taken off; as offered: ________")
	if damp := inspect.DampGlance(s.Plan.Choice.Damp, s.Plan.AllDamp()); damp != "" {
		loud("Damp", damp+": settle that before this place is closed")
	}
	face := s.Facing
	if s.Side != "" && s.Plan.Choice.Facing.OnBlanket != "none" {
		face += ", " + s.Side
	}
	if short := s.Plan.ShortText(o.System); short != "" {
		add("Target", short)
	}
	add("Face", face)
	if s.Sheet != "" {
		add("Sheet", s.Sheet)
	}
	if s.Plan.Target.AddR > 0 {
		loud("Plus", BoardText(s.Plan, o.System))
	}
	for _, text := range s.Plan.BoardCautions() {
		loud("Ask", text)
	}
	if there := inspect.BoardThere(s.Plan, o.System); there != "" {
		add("There", there+": ________")
	}
	for _, beside := range s.Plan.Beside(o.System) {
		loud("Plus", beside.Name+": not a batt, not in this price")
	}
	if foam := s.Plan.BoardR(); foam > 0 && s.Plan.Surface.Kind.Boundary == "soil" {
		when := ", before the studs go up"
		if s.Plan.Surface.Finished {
			when = ""
		}
		add("Behind", fmt.Sprintf("%s of foam board in all on the concrete, its joints taped%s: ________", o.System.R(foam), when))
	}
	if s.Plan.Surface.Kind.BesideChimney {
		loud("Gap", fmt.Sprintf("KEEP EMPTY: %s; %s", s.Plan.Surface.Clearance.Text(o.System), s.Plan.Surface.Clearance.Reason))
	}
}

// PointText is one point of acceptance: how to look, what fails, how well it
// is known.
func PointText(x catalog.AcceptancePoint, s units.System) string {
	return fmt.Sprintf("%s. %s Fails: %s. (%s)", x.Title, x.Look.In(s), x.Fails.In(s), pointMark(x.Known))
}

func pointMark(k catalog.Known) string {
	if k == catalog.Practice {
		return "common practice, no source"
	}
	return KnownText(k)
}

// beforeDays are what must be settled, place by place, before any day of the
// calendar holds, and what somebody must look at first.
func (h Handover) beforeDays(o Options) []string {
	var out []string
	for _, p := range h.Job.Plan.Places {
		lines := p.StopLines()
		if p.Surface.Held() != "" && !p.Stopped() {
			lines = append(lines, GapText(p, o))
		}
		for _, text := range p.FindFirst(o.Catalog, o.System) {
			lines = append(lines, plan.AskHead+text)
		}
		if text := settleBrief(p); text != "" {
			lines = append(lines, text)
		}
		for _, x := range p.Checks(o.System) {
			lines = append(lines, plan.SettleHead+x.Name)
		}
		for _, l := range lines {
			out = append(out, p.Surface.Label+": "+l)
		}
	}
	return out
}

func (h Handover) calendar(d *page.Page, person string, o Options) {
	if h.Drywall.IsZero() {
		return
	}
	leads := inspect.Leads(h.Job)
	if len(leads) == 0 {
		return
	}
	sec := d.Block("Around the drywall on " + h.Drywall.Format("Mon 2 Jan 2006"))
	if first := h.beforeDays(o); len(first) > 0 {
		sec.Say("No day holds at a place before this is settled there:")
		sec.Ticks(page.Stop, first)
	}
	sec.Say("Calendar days, a rule of thumb; what falls on a weekend is due the Friday before (after the drywall: the Monday after), and nothing falls on the day of the step that waits for it.")
	for _, due := range inspect.Calendar(leads, h.Drywall, person) {
		who := ""
		if person == "" {
			who = due.Lead.Person + ": "
		}
		tone, past := page.Plain, ""
		if due.Day.Before(h.Today) {
			tone, past = page.Care, " ALREADY PAST"
		}
		sec.Tick(tone, due.Day.Format("Mon 2 Jan 2006")+past+"  "+who+due.Lead.Text.In(h.Job.System))
	}
}

func (h Handover) closing(d *page.Page) {
	for _, g := range inspect.ClosingGroups {
		sec := d.Block("Ready to close: " + strings.ToLower(g.Title))
		for _, n := range inspect.HouseNotes(h.Job, g.Group, "") {
			sec.Tick(page.Plain, n.Text.In(h.Job.System))
			cite(d, h.Job.Catalog(), n.Ref)
		}
		if g.Group == "certificate" {
			sec.Items(page.Plain, inspect.CertificateLines(h.Job))
		}
	}
}

// FormPage is a form to fill by hand on the site, place by place.
func FormPage(j inspect.Job) page.Page {
	d := page.Page{Title: "Finished work, by hand", End: Closing, Intro: houseName(j.Plan) + ". Take a lamp, a tape measure and a pencil. Tick what is right; write down what you measure. Do not close anything before a point that says STOP."}
	sec := d.Block("")
	sec.Room("Who looked:")
	sec.Room("Day:")
	for _, p := range j.Plan.Places {
		points := inspect.FormOf(j, p)
		if len(points) == 0 && !p.Stopped() {
			continue
		}
		sec := d.Block(p.Surface.Label)
		sec.Items(page.Plain, inspect.AgreedLines(p, j))
		for _, f := range points {
			if f.Point.Result == catalog.ResultStop {
				sec.Tick(page.Stop, "STOP if not: "+f.Point.Title)
			} else {
				sec.Tick(page.Plain, f.Point.Title)
			}
			if f.Figures != "" {
				sec.Sub("%s", f.Figures)
			}
		}
		sec.Room("To mend:")
	}
	return d
}
