package inspect

import (
	"math"
	"slices"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/heat"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/strict"
	"battwright/rules/units"
)

// State is how a point of acceptance came out.
type State int

// The states of a point.
const (
	NotSeen State = iota
	Pass
	Fix
	Reject
	Halt // stop: do not close
)

// String is the word of a state.
func (s State) String() string {
	return [...]string{"not looked at", "pass", "fix", "reject", "STOP"}[max(0, min(int(s), 4))]
}

// PointResult is one point of acceptance in one place.
type PointResult struct {
	Point catalog.AcceptancePoint
	State State
	Text  string // what was measured, empty when it was only seen
	Ask   string
	// NotUnderstood: somebody looked and wrote it down, and it could not be read.
	NotUnderstood bool
}

// FoundPlace is the finished work of one place.
type FoundPlace struct {
	Plan     plan.Place
	Answers  house.Answers
	Measured Measured
	Got      *candidate.Assessed // nil when no heat can be worked out
	Grade    heat.Grade
	GradedR  float64 // of the blanket as the grades count it
	Points   []PointResult
	LostHeat units.Range[float64] // MMBtu a year against the plan, nothing when not worse
	LostUSD  units.Range[float64]
}

// FoundResult is the finished work of a house.
type FoundResult struct {
	By, Date string
	Places   []FoundPlace
	Stopped  []plan.Place    // the plan has nothing there yet, because of a danger
	Unasked  []plan.Place    // what would stop them is still to be found out
	First    []string        // what must be settled for the whole house
	Notes    strict.Problems // not understood, or read in other units
}

// Worst is the gravest state of the points of a place; a point that nobody
// looked at does not count here.
func (p FoundPlace) Worst() State {
	out := Pass
	for _, x := range p.Points {
		if x.State != NotSeen {
			out = max(out, x.State)
		}
	}
	return out
}

// count is how many points of a place are so.
func (p FoundPlace) count(so func(PointResult) bool) int {
	n := 0
	for _, x := range p.Points {
		if so(x) {
			n++
		}
	}
	return n
}

// Open counts the points of a place that nobody looked at, but for what can only be
// seen later.
func (p FoundPlace) Open() int {
	return p.count(func(x PointResult) bool { return x.State == NotSeen && !x.Point.Later })
}

// OpenStops counts the points that can hurt people and that nobody looked at.
func (p FoundPlace) OpenStops() int {
	return p.count(func(x PointResult) bool { return x.State == NotSeen && x.Point.Result == catalog.ResultStop })
}

// DampPlanned reports whether the plan finds the place damp and nothing that
// was found changes that.
func (p FoundPlace) DampPlanned() bool {
	return p.count(func(x PointResult) bool { return x.Point.From == catalog.FromDamp && x.State > Pass }) > 0
}

// Stops reports whether anything found forbids closing.
func (r FoundResult) Stops() bool {
	return slices.ContainsFunc(r.Places, func(p FoundPlace) bool { return p.Worst() == Halt })
}

// ReadyToClose reports whether every point of every place was looked at and
// passes, and nothing that goes on the drywall is still to come. It never means that
// an inspector agrees.
func (r FoundResult) ReadyToClose() bool {
	for _, p := range r.Places {
		if p.Worst() != Pass || p.Open() > 0 {
			return false
		}
	}
	return len(r.Places) > 0 && len(r.First) == 0 && len(r.Stopped) == 0 && len(r.Unasked) == 0 && len(r.Short())+len(r.PartSeen())+len(r.ToCome()) == 0
}

// labels name the places that are so.
func (r FoundResult) labels(so func(FoundPlace) bool) []string {
	var out []string
	for _, p := range r.Places {
		if so(p) {
			out = append(out, p.Plan.Surface.Label)
		}
	}
	return out
}

// Short are the places whose blankets, as found, fall short of what is asked
// there, and where nobody accepted that.
func (r FoundResult) Short() []string {
	return r.labels(func(p FoundPlace) bool { return p.ShortText(units.US) != "" && !p.Plan.Surface.Waived })
}

// PartSeen are the places of which somebody looked at a part only.
func (r FoundResult) PartSeen() []string {
	return r.labels(func(p FoundPlace) bool { return p.SeenFt2() > 0 })
}

// ToCome are the places where something that the plan counts on goes on the drywall,
// and nobody has seen it there.
func (r FoundResult) ToCome() []string {
	return r.labels(func(p FoundPlace) bool {
		return p.count(func(x PointResult) bool { return x.State == NotSeen && x.Point.Later }) > 0
	})
}

// SeenFt2 is how much of a place was looked at, 0 where it was all or nobody
// said.
func (p FoundPlace) SeenFt2() float64 {
	if v := p.Answers["looked_ft2"]; v.State == house.Given && v.Number < p.Plan.Surface.AreaFt2-0.5 {
		return v.Number
	}
	return 0
}

// ShortText says by how much the blankets fall short of what is asked: as found,
// as planned where that could not be worked out; where none is planned, all of it.
func (p FoundPlace) ShortText(s units.System) string {
	if !planned(p.Plan) {
		return p.Plan.BareText(s)
	}
	at, e := p.Plan, *p.Plan.Choice
	if p.Got != nil {
		e.Assessed = *p.Got
	}
	at.Choice = &e
	short := at.ShortText(s)
	if lacks := p.boardLacking(); lacks > 0 && short == "" {
		return "SHORT by " + s.R(lacks) + " of the board: with less of it than counted on it does not meet " + at.Target.Text
	}
	return short
}

// boardLacking is the R that the board, as it was found, lacks of the target's own
// board, 0 when nothing.
func (p FoundPlace) boardLacking() float64 {
	if r, said := boardSeen(p.Plan, p.Answers); said && p.Plan.Target.Required && r < p.Plan.Target.ContinuousR-0.05 {
		return p.Plan.Target.ContinuousR - r
	}
	return 0
}

// FallsShort reports whether a point fails.
func (r FoundResult) FallsShort() bool {
	return slices.ContainsFunc(r.Places, func(p FoundPlace) bool { return p.Worst() > Pass })
}

// JudgeFound holds finished work against the plan of the job.
func JudgeFound(j Job, h *house.House, notes strict.Problems) FoundResult {
	out := FoundResult{By: h.Answers["by"].Text, Date: h.Answers["date"].Text, First: j.Plan.First(), Notes: notes}
	for _, p := range j.Plan.Places {
		if p.Stopped() {
			out.Stopped = append(out.Stopped, p)
		}
		if len(p.Asks()) > 0 {
			out.Unasked = append(out.Unasked, p)
		}
	}
	for _, at := range h.Places {
		if p, ok := j.Place(at.ID); ok && (inspected(p) || said(at.Answers) || len(at.Unread) > 0) {
			x := JudgePlace(j, p, at.Answers)
			x.unread(at.Unread)
			out.Places = append(out.Places, x)
		}
	}
	return out
}

// JudgePlace holds one place against its plan. Where the plan has no blanket,
// only what must not be there is judged, and what somebody noted.
func JudgePlace(j Job, p plan.Place, a house.Answers) FoundPlace {
	out := FoundPlace{Plan: p, Answers: a}
	if planned(p) {
		out.work(j)
	}
	for _, point := range j.Catalog().Acceptance().Points {
		if hasPoint(point, p, a) {
			out.Points = append(out.Points, out.point(j, pointIn(j, p, point)))
		}
	}
	return out
}

// unread says of each point that nobody could judge what could not be read of it.
func (p *FoundPlace) unread(list []house.Unread) {
	for _, u := range list {
		if p.Answers[u.Key].State == house.Given {
			continue
		}
		for i := range p.Points {
			if x := &p.Points[i]; x.State == NotSeen && (slices.Contains(pointKeys[x.Point.From], u.Key) || u.Key == seePrefix+x.Point.ID) {
				x.NotUnderstood = true
				if x.Text != "" {
					x.Text += ". "
				}
				x.Text += notUnderstoodText + u.Why
			}
		}
	}
}

// pointKeys are the answers that decide a point, by what it is decided from.
var pointKeys = map[string][]string{
	catalog.FromBare: {"blanket_there"}, catalog.FromBoard: {"board_there", "board_r"}, catalog.FromChimney: {"batt_in_gap", "gap_in"},
	catalog.FromLabel: {"label_r", "label_thickness_in", "material"}, catalog.FromThickness: {"thickness_in", oldDepth}, catalog.FromVoids: {"gaps", "void_pct"},
	catalog.FromSqueezed: {"squeezed_pct", "squeezed_to_in"}, catalog.FromFacing: {"facing", "facing_side", "sheet"},
}

// Partly reports whether some of what decides a point was answered, and not all.
func (p FoundPlace) Partly(x PointResult) bool {
	return x.State == NotSeen && slices.ContainsFunc(pointKeys[x.Point.From], func(key string) bool { return p.Answers[key].State == house.Given })
}

// work is what the blankets that were found are worth.
func (p *FoundPlace) work(j Job) {
	p.Measured = measure(j.Catalog(), p.Plan, p.Answers)
	got, err := p.given(j, p.Measured.Fit.Void)
	if err == nil {
		if !p.FaceSeen() || p.SheetUnjudged() || p.layerWanting() && damp.Rank(got.Damp.Word) <= damp.Rank(p.Plan.Choice.Damp.Word) {
			got.Damp = candidate.NotSeen()
		}
		p.Got = &got
		p.LostHeat = lost(got.Heat.LossMMBtu, p.Plan.Choice.Heat.LossMMBtu)
		p.LostUSD = lost(got.Heat.LossUSD, p.Plan.Choice.Heat.LossUSD)
	}
	p.grade(j)
}

// said reports whether anything was answered.
func said(a house.Answers) bool {
	for _, x := range a {
		if x.State == house.Given {
			return true
		}
	}
	return false
}

// Begun reports whether somebody looked at the place at all.
func (p FoundPlace) Begun() bool { return said(p.Answers) }

// FaceSeen reports whether somebody looked at what the damp check hangs on:
// which face there is, and where there is one, toward which side, and the sheet
// where one was agreed, or named though it must not go up.
func (p FoundPlace) FaceSeen() bool {
	return !p.SheetUnseen() && p.Answers["facing"].State == house.Given && (p.Measured.Facing == "none" || p.Measured.Side != "" || !sided(p.Plan))
}

// SheetUnseen reports whether nobody looked at the sheet where one was agreed, or
// named.
func (p FoundPlace) SheetUnseen() bool {
	return (sheetAgreed(p.Plan) != "" || sheetLeftOut(p.Plan) != "") && p.Answers["sheet"].State != house.Given
}

// SheetUnjudged reports whether a sheet was found that the damp check cannot judge.
func (p FoundPlace) SheetUnjudged() bool { return sheetUnjudged(p.Plan, p.Measured.Sheet) }

// Damper reports whether the place as it was found has a worse verdict of the
// damp check than the plan has.
func (p FoundPlace) Damper() bool {
	want := damp.Rank(p.Plan.Choice.Damp.Word)
	return p.FaceSeen() && p.Got != nil && want > 0 && damp.Rank(p.Got.Damp.Word) > want
}

// given works out the place with what was found in it and a share of gaps.
// Gaps that nobody measured are those the plan takes for granted.
func (p FoundPlace) given(j Job, void float64) (candidate.Assessed, error) {
	g := candidate.GivenStack{
		Material: p.Measured.Material, Layers: p.Measured.layers(j.Catalog(), p.Plan),
		Facing: p.Measured.Facing, Turned: p.Measured.Side == "out" && sided(p.Plan), Sheet: p.Measured.Sheet,
	}
	if p.Measured.VoidSaid {
		g.Void = &void
	}
	at := boardFound(p.Plan, p.Measured.BoardR)
	at.Surface.UnderJoists = at.Surface.UnderJoists && !p.layerWanting()
	at.Surface.FoamInBays = at.Surface.FoamInBays && !p.bad(bayFoamPoint)
	p.conditions(&at.Surface)
	return candidate.Given(j.Assessment.Answered, at, j.Plan.Site, g)
}

// The points that look at what the damp check takes for granted.
const (
	ventsPoint, eavesPoint, fansPoint = "vents", "eaves", "fans"
	earthPoint, holesPoint            = "ground-sheet", "holes-sealed"
)

// bad reports whether somebody looked at a point and found it not as agreed.
func (p FoundPlace) bad(points ...string) bool {
	return slices.ContainsFunc(points, func(id string) bool { return p.Answers[seePrefix+id].Text == seenBad })
}

// conditions makes what was found bad a condition of the damp check, which takes it
// as put right.
func (p FoundPlace) conditions(s *candidate.Surface) {
	s.VentsUnsaid = s.VentsUnsaid || p.bad(ventsPoint, eavesPoint)
	s.FansUnsaid = s.FansUnsaid || p.bad(fansPoint)
	s.EarthBare = s.EarthBare || p.bad(earthPoint)
}

// HolesOpen reports whether somebody found holes toward the room, and the place fares
// worse with them.
func (p FoundPlace) HolesOpen() bool {
	return p.bad(holesPoint) && p.Got != nil && damp.Rank(p.Got.Damp.WithHoles) > damp.Rank(p.Got.Damp.Built)
}

// grade gives the grade and the R that it stands for: no, 2 or 5 % of the
// area empty, or all of it.
func (p *FoundPlace) grade(j Job) {
	p.Grade = gradeIn(j.Catalog(), p.Measured.Fit)
	counted, err := p.given(j, p.Grade.VoidShare())
	if err != nil {
		return
	}
	p.GradedR = counted.Heat.DeliveredR
	if p.Got != nil { // a grade never makes more of a job than was measured
		p.GradedR = math.Min(p.GradedR, p.Got.Heat.DeliveredR)
	}
}

// withBoard is a place with another R of the board that is still to be bought: on
// concrete the fiber meets it, whatever somebody said is there.
func withBoard(p plan.Place, r float64) candidate.PlaceResult {
	p.Target.AddR, p.Surface.FoamUnsaid = r, p.Surface.FoamUnsaid || p.Surface.Kind.Boundary == "soil"
	return p.PlaceResult
}

// boardFound is a place with the board that was found in it: less than it counts
// on, or more, and nothing else of it stays as somebody said.
func boardFound(p plan.Place, r float64) candidate.PlaceResult {
	if r != p.BoardR() {
		p.Surface.CIR, p.Surface.FoamUnsaid, p.Target.AddR = 0, true, r
	}
	return p.PlaceResult
}

// BoardCounted is the R of the board that the figures count on though nobody
// has seen it, 0 when there is none.
func (p FoundPlace) BoardCounted() float64 {
	if !planned(p.Plan) || p.Measured.BoardSaid {
		return 0
	}
	return p.Plan.BoardR()
}

// LayerCounted reports whether the damp check counts on the layer under the
// joists though nobody has seen it.
func (p FoundPlace) LayerCounted() bool {
	return p.Got != nil && p.Got.Damp.UnderJoists && p.Answers[seePrefix+underJoists].Text != seenGood
}

// bayFoamPoint is the point that looks for the foam in the bays of a rim.
const bayFoamPoint = "bay-foam"

// FoamCounted reports whether the damp check counts on foam in each bay though
// nobody has seen it.
func (p FoundPlace) FoamCounted() bool {
	return p.Got != nil && p.Got.Damp.FoamInBays && p.Answers[seePrefix+bayFoamPoint].Text != seenGood
}

// layerWanting reports whether somebody looked for the layer under the joists
// that a rule asks for and found it not as agreed.
func (p FoundPlace) layerWanting() bool {
	return requires(p.Plan, underJoists) && p.bad(underJoists)
}

// LayerMissing reports whether that leaves the damp check without a verdict: no
// check that finds nothing makes such a floor dry, it may only find it worse.
func (p FoundPlace) LayerMissing() bool {
	return p.layerWanting() && p.Got != nil && !p.Got.Damp.Judged()
}

// lost is how much more is lost than planned, end by end, never less than
// nothing.
func lost(got, planned units.Range[float64]) units.Range[float64] {
	d := func(a, b float64) float64 {
		if v := a - b; v > 1e-9 {
			return v
		}
		return 0
	}
	return units.Range[float64]{Low: d(got.Low, planned.Low), Typical: d(got.Typical, planned.Typical), High: d(got.High, planned.High)}
}
