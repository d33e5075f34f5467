package inspect

import (
	"fmt"
	"math"
	"slices"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/plan"
	"battwright/rules/strict"
	"battwright/rules/units"
)

// OfferResult is an offer held against the plan.
type OfferResult struct {
	Offer     Offer
	Places    []OfferedPlace // in the order of the house, all that have a plan, a danger, something to mind or an offer
	Findings  []Finding      // about the whole offer
	Total     units.Cents    // as offered, or the sum of the lines
	HasTotal  bool
	Summed    bool     // the total is our sum: the offer names none
	Questions []string // to phone, each once
}

// OfferedPlace is one place of an offer.
type OfferedPlace struct {
	Plan     plan.Place
	Offered  *candidate.Assessed // nil when nothing is offered, or no heat can be worked out
	Closed   *candidate.Assessed // the same where thick blankets meet over the joist tops, nil when none stands above them
	Parts    []Part
	AreaFt2  float64
	Price    units.Cents
	HasPrice bool
	BoardR   float64 // of the board that the figures count on though it is not in the bid
	Findings []Finding
}

// FallsShort reports whether anything in the offer does not hold or is
// missing that must be there.
func (r OfferResult) FallsShort() bool {
	worst := Worst(r.Findings)
	for _, p := range r.Places {
		worst = max(worst, Worst(p.Findings))
	}
	return worst >= Ask
}

// JudgeOffer holds an offer against the plan of the job.
func JudgeOffer(j Job, o Offer) OfferResult {
	out := OfferResult{Offer: o}
	for _, x := range o.Unread {
		out.Findings = append(out.Findings, Finding{ID: "unread", Level: Ask, Text: notUnderstood(x)})
	}
	for _, p := range j.Plan.Places {
		op := OfferedPlace{Plan: p}
		for _, part := range o.Parts {
			if part.Place == p.Surface.ID {
				op.Parts = append(op.Parts, part)
			}
		}
		if len(op.Parts) == 0 && !planned(p) && !barred(p) && !minded(p) {
			continue
		}
		op.judge(j)
		out.Places = append(out.Places, op)
	}
	out.contract(j)
	out.money(j)
	out.ask()
	return out
}

func (p *OfferedPlace) find(f Finding) { p.Findings = append(p.Findings, f) }

func (p *OfferedPlace) judge(j Job) {
	for _, s := range slices.Concat(p.Plan.Stops, p.Plan.Also) {
		p.find(Finding{ID: "stopped", Level: Stop, Ref: s.Ref, Text: s.Say, Ask: p.askBidder("What do you do about this before any blanket goes in?")})
	}
	for _, text := range p.Plan.FindFirst(j.Catalog(), j.System) {
		p.find(Finding{ID: "find-first", Level: Stop, Text: plan.AskHead + text, Ask: p.askBidder("Nobody has answered this yet, and nothing begins before it is: who finds it out?")})
	}
	for i, text := range p.Plan.SettleFirst(j.Catalog(), j.System) {
		h, level := p.Plan.Settles()[i], Ask
		if p.untouched() {
			level = Note
		}
		p.find(Finding{ID: "settle-first", Level: level, Ref: refOf(h), Text: plan.SettleHead + text, Ask: p.askBidder("Who settles this before the work begins, and is it in the price? " + plan.SettleTitle(h) + ".")})
	}
	if text := p.Plan.MindText(j.System); text != "" {
		p.find(Finding{ID: "mind", Level: Note, Text: text})
	}
	if len(p.Parts) > 0 || barred(p.Plan) {
		p.looseSheet(j)
		p.gap(j)
	}
	p.offered(j)
	p.planDamp(j)
	slices.SortStableFunc(p.Findings, func(a, b Finding) int { return boolInt(b.Level == Stop) - boolInt(a.Level == Stop) })
}

// untouched reports whether nothing is planned and nothing offered in the place: what
// waits there is said, and is no fault of the bid.
func (p *OfferedPlace) untouched() bool { return len(p.Parts) == 0 && !planned(p.Plan) }

func boolInt(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// askBidder is a question about the place, empty where nothing is offered.
func (p *OfferedPlace) askBidder(text string) string {
	if len(p.Parts) == 0 {
		return ""
	}
	return p.Plan.Surface.Label + ": " + text
}

// offered judges the lines of the place.
func (p *OfferedPlace) offered(j Job) {
	if len(p.Parts) == 0 {
		if !planned(p.Plan) {
			for _, x := range p.Plan.Checks(j.System) { // needed whether anybody insulates there or not
				p.find(Finding{ID: "called-" + x.Need, Level: Note, Ref: practice, Text: x.Name + ": needed here, and not in this bid"})
			}
			return
		}
		p.find(Finding{ID: "not-offered", Level: Ask, Text: "nothing is offered here", Ask: p.Plan.Surface.Label + ": Is it in the price? The plan has " + planText(p.Plan, j.System) + "."})
		return
	}
	for _, part := range p.Parts {
		p.missing(j, part)
		p.impossible(j, part)
		if note := part.text("note"); note != "" {
			p.find(Finding{ID: "note", Level: Ask, Line: part.Line, Text: "says too, and nothing here has judged it: " + note})
		}
	}
	p.covered(j)
	p.price()
	split := p.Split(j.Catalog().Acceptance().Limits.AreaOff)
	if !split {
		p.between()
	}
	p.board(j)
	p.bays(j)
	p.called(j)
	if split {
		p.assessParts(j)
	} else {
		p.assess(j)
	}
	p.boardCautions()
}

// missing names what the line leaves out.
func (p *OfferedPlace) missing(j Job, part Part) {
	for _, item := range j.Catalog().Acceptance().Contract {
		if item.Level != "part" || item.NeedsFacing && (part.text("facing") == "" || part.text("facing") == "none") {
			continue
		}
		if _, ok := part.Answers[item.Key]; ok {
			continue
		}
		law := ""
		if item.Law {
			law = ", which the R-value rule asks for"
		}
		text, line := "does not say "+item.Text.In(j.System)+law, part.Line
		if part.NotUnderstood(item.Key) {
			text, line = notUnderstood(part.unread[item.Key]), 0 // the text has its line
		}
		p.find(Finding{ID: "missing-" + item.Key, Level: Ask, Text: text, Ask: p.Plan.Surface.Label + ": " + item.Ask.In(j.System), Line: line, Ref: item.Ref})
	}
}

// notUnderstood says that something was said that nobody could read.
func notUnderstood(x strict.Problem) string { return notUnderstoodText + x.Error() }

const notUnderstoodText = "NOT UNDERSTOOD, so not judged: "

// impossible finds an R that no blanket of that fiber and thickness has.
func (p *OfferedPlace) impossible(j Job, part Part) {
	r, hasR := part.num("r")
	in, hasIn := part.num("thickness_in")
	m, ok := j.Catalog().Material(part.text("material"))
	if !hasR || !hasIn || !ok {
		return
	}
	limits := j.Catalog().Acceptance().Limits
	poorest, best, ok := around(j.Catalog(), m.ID, in)
	f := Finding{ID: "r-impossible", Level: Wrong, Line: part.Line, Ref: limits.Ref}
	switch {
	case !ok:
		return
	case r > best*limits.OverTables:
		f.Text = fmt.Sprintf("%s in %s of %s does not add up: no blanket of that fiber and thickness in our tables has so much", j.System.R(r), j.System.Inches(in), m.Name)
	case r < poorest*limits.UnderTables:
		f.ID, f.Level = "r-low", Ask
		f.Text = fmt.Sprintf("%s in %s of %s is very little: another unit, another thickness, or another product?", j.System.R(r), j.System.Inches(in), m.Name)
	default:
		return
	}
	f.Ask = fmt.Sprintf("%s: Please send a photo of the label: R and thickness on one picture.", p.Plan.Surface.Label)
	p.find(f)
}

func (p *OfferedPlace) price() {
	for _, part := range p.Parts {
		if usd, ok := part.num("price_usd"); ok {
			p.Price, p.HasPrice = p.Price+units.FromDollars(usd), true
		}
	}
}

// planText names what the plan has in a place, one layer after the other.
func planText(p plan.Place, s units.System) string {
	if !planned(p) {
		return "nothing here"
	}
	return p.Choice.Material.Name + " " + layersText(p.Choice.Layers, s)
}

// contract names what a proper contract still lacks.
func (r *OfferResult) contract(j Job) {
	for _, item := range j.Catalog().Acceptance().Contract {
		if item.Level != "offer" {
			continue
		}
		a, said := r.Offer.Answers[item.Key]
		text := "lacks " + item.Text.In(j.System)
		bad, unread := r.Offer.unread[item.Key]
		switch {
		case unread:
			text = "what it says of " + item.Text.In(j.System) + fmt.Sprintf(" was NOT UNDERSTOOD (line %d)", bad.Line)
		case !said:
		case item.Key == gradeKey && a.Text != bestGrade:
			text = "promises grade " + a.Text + ", which lets gaps or squeezed spots pass"
		case isNo(item.Key, a.Bool):
			text = "says no to: " + item.Text.In(j.System)
		default:
			continue
		}
		if item.Law {
			text += " (the R-value rule asks for it)"
		}
		r.Findings = append(r.Findings, Finding{ID: "missing-" + item.Key, Level: Ask, Text: text, Ask: item.Ask.In(j.System), Ref: item.Ref})
	}
	if r.Offer.Answers["air_sealing"].Text == "extra" {
		r.Findings = append(r.Findings, Finding{ID: "sealing-extra", Level: Ask, Text: "the air leaks are sealed at extra cost: it does not say how much", Ask: "What does sealing the air leaks cost on top of this price?", Ref: practice})
	}
	for _, part := range r.Offer.Parts {
		p, _ := j.Place(part.Place)
		for _, n := range part.Others {
			r.Findings = append(r.Findings, Finding{
				ID: "other-units", Level: Ask, Line: n.Line, Text: p.Surface.Label + ": " + n.Given + ", " + n.Want,
				Ask: p.Surface.Label + ": You give " + n.Given + ". " + askOf[n.Unit].In(j.System),
			})
		}
	}
}

var practice = catalog.Ref{Source: "hand-over-practice", Known: catalog.Practice}

// askOf asks for a figure in the units of a US label.
var askOf = map[string]units.Prose{
	"R":   "{Which R is printed on the US label?|Which R does the label print?}",
	"in":  "{How many inches thick is it by its label?|How thick is it by its label?}",
	"ft2": "{How many square feet is that?|How many square meters is that?}",
}

// isNo: a question of yes or no that is answered with no is as open as one
// that is not answered.
func isNo(key string, yes bool) bool {
	switch key {
	case "signed", "receipt", "fact_sheet", "inspection_first", "labels_left", "mending":
		return !yes
	}
	return false
}

// money holds the total against its lines.
func (r *OfferResult) money(j Job) {
	sum, all := units.Cents(0), len(r.Offer.Parts) > 0
	for _, part := range r.Offer.Parts {
		usd, ok := part.num("price_usd")
		all = all && ok
		sum += units.FromDollars(usd)
	}
	if total := r.Offer.Answers["total_usd"]; len(r.Offer.Answers) > 0 && total.Number > 0 {
		r.Total, r.HasTotal = units.FromDollars(total.Number), true
	} else if all {
		r.Total, r.HasTotal, r.Summed = sum, true, true
	}
	limit := j.Catalog().Acceptance().Limits.SumOff
	if off := math.Abs(float64(r.Total - sum)); all && r.HasTotal && off > limit*float64(max(r.Total, 100)) {
		ask := "What is in the total that is in none of the lines?"
		if sum > r.Total {
			ask = "Why do the lines add up to more than the total?"
		}
		r.Findings = append(r.Findings, Finding{
			ID: "sum-off", Level: Wrong, Text: fmt.Sprintf("the total is %s, its lines make %s", j.System.Money(r.Total), j.System.Money(sum)),
			Ask: ask,
		})
	}
}

// ask gathers the questions to phone: the gravest first, each once.
func (r *OfferResult) ask() {
	var all []Finding
	for _, p := range r.Places {
		all = append(all, p.Findings...)
	}
	all = append(all, r.Findings...)
	slices.SortStableFunc(all, func(a, b Finding) int { return int(b.Level) - int(a.Level) })
	for _, f := range all {
		if f.Ask != "" && !slices.Contains(r.Questions, f.Ask) {
			r.Questions = append(r.Questions, f.Ask)
		}
	}
}
