package pages

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/strict"
)

// MaxOffers is how many offers are laid side by side.
const MaxOffers = 3

// OffersPage is one to three offers beside the plan, after what could not be
// read of their files.
func OffersPage(j inspect.Job, offers []inspect.OfferResult, problems strict.Problems, o Options) page.Page {
	d := page.Page{Title: "Offers beside the plan", Intro: houseName(j.Plan) + ". What is offered, worked out as the plan is; R is compared place by place, never added up.", End: Closing}
	if len(problems) > 0 {
		sec := d.Block("Could not be read")
		for _, p := range problems {
			sec.Item(page.Care, p.Error())
		}
	}
	if list := j.Plan.First(); len(list) > 0 {
		d.Block("Settle first").Items(page.Stop, list)
	}
	if first := settleFirst(offers); len(first) > 0 {
		d.Block("STOP, before any of it is signed").Items(page.Stop, first)
	}
	if places := dampPlaces(offers); len(places) > 0 {
		d.Intro += " " + dampVerdict(places)
	}
	sec := d.Block("Money")
	sec.Fact(page.Plain, "Plan", planMoney(j, o))
	for _, r := range offers {
		sec.Fact(page.Plain, "Offer", name(offers, r)+": "+totalText(r, o))
	}
	for i := range placesOf(offers) {
		offerPlace(&d, offers, i, o)
	}
	for _, r := range offers {
		contractSection(&d, r, offers, o)
	}
	for _, r := range offers {
		title := "Questions to phone"
		if len(offers) > 1 {
			title += ", " + name(offers, r)
		}
		sec := d.Block(title)
		for _, q := range r.Questions {
			sec.Tick(page.Plain, q)
		}
		switch {
		case len(r.Questions) > 0:
		case r.FallsShort():
			sec.Say("None for this bidder, but a place is stopped: see the start of this page.")
		default:
			sec.Say("None: nothing is missing and all of it adds up. The label and the finished work are still to be checked.")
		}
	}
	return d
}

// settleFirst is what stops a place of the house, offered or not.
func settleFirst(offers []inspect.OfferResult) []string {
	var out []string
	for _, p := range placesOf(offers) {
		for _, f := range p.Findings {
			if f.ID == "stopped" || f.ID == "find-first" || f.ID == "gap" && f.Level == inspect.Stop {
				out = append(out, p.Plan.Surface.Label+": "+f.Text)
			}
		}
	}
	return out
}

// dampPlaces are the places that get damp by the plan and stay so with an
// offer.
func dampPlaces(offers []inspect.OfferResult) []string {
	var out []string
	for _, p := range placesOf(offers) {
		id := p.Plan.Surface.ID
		if slices.ContainsFunc(offers, func(r inspect.OfferResult) bool {
			return slices.ContainsFunc(find(r, id).Findings, func(f inspect.Finding) bool { return f.ID == "plan-damp" })
		}) {
			out = append(out, p.Plan.Surface.Label)
		}
	}
	return out
}

// name is how an offer is named beside the others: two of one firm by their
// files as well.
func name(offers []inspect.OfferResult, r inspect.OfferResult) string {
	from, same := r.Offer.From(), 0
	for _, x := range offers {
		if x.Offer.From() == from {
			same++
		}
	}
	if same > 1 && from != r.Offer.File {
		return from + " (" + path.Base(strings.ReplaceAll(r.Offer.File, `\`, "/")) + ")"
	}
	return from
}

func planMoney(j inspect.Job, o Options) string {
	text := o.System.MoneyRange(j.Plan.Bill.Money.Total) + ", rough prices"
	if j.Plan.Bill.Money.Labour.High == 0 {
		text += ", material and gear only: the plan has you do the work"
	}
	return text
}

func totalText(r inspect.OfferResult, o Options) string {
	switch {
	case !r.HasTotal:
		return "no total"
	case r.Summed:
		return o.System.Money(r.Total) + ", our sum of its lines: it names no total"
	}
	return o.System.Money(r.Total)
}

func placesOf(offers []inspect.OfferResult) []inspect.OfferedPlace {
	if len(offers) == 0 {
		return nil
	}
	longest := offers[0].Places
	for _, r := range offers[1:] {
		if len(r.Places) > len(longest) {
			longest = r.Places
		}
	}
	return longest
}

// offerPlace lays one place side by side: the plan, then each offer.
func offerPlace(d *page.Page, offers []inspect.OfferResult, i int, o Options) {
	at := placesOf(offers)[i]
	untouched := at.Plan.Choice == nil && !slices.ContainsFunc(offers, func(r inspect.OfferResult) bool { return len(find(r, at.Plan.Surface.ID).Parts) > 0 })
	if untouched && (at.Plan.Stopped() || at.Plan.Surface.Held() != "") {
		return // said to be, before any bid
	}
	sec := d.Block(at.Plan.Surface.Label)
	if untouched { // what must be minded there is said once
		offers = offers[:1]
	} else {
		sec.Table = offerTable(at, offers, o)
	}
	for _, r := range offers {
		p := find(r, at.Plan.Surface.ID)
		for _, f := range p.Findings {
			who := ""
			if len(offers) > 1 {
				who = name(offers, r) + ": "
			}
			sec.Item(findingTones[f.Level], strings.ToUpper(f.Level.String())+"  "+who+findingText(f))
			cite(d, o.Catalog, f.Ref)
		}
	}
}

// offerTable lays what is offered for a place beside its plan.
func offerTable(at inspect.OfferedPlace, offers []inspect.OfferResult, o Options) [][]string {
	head, rows := []string{"", "Plan"}, planColumn(at, o)
	for _, r := range offers {
		head = append(head, name(offers, r))
		col := offerColumn(find(r, at.Plan.Surface.ID), o)
		for k := range rows {
			rows[k] = append(rows[k], col[k])
		}
	}
	return append([][]string{head}, rows...)
}

// findingTones are how the findings about a bid are meant.
var findingTones = map[inspect.Level]page.Tone{inspect.Stop: page.Stop, inspect.Wrong: page.Care}

func find(r inspect.OfferResult, id string) inspect.OfferedPlace {
	for _, p := range r.Places {
		if p.Plan.Surface.ID == id {
			return p
		}
	}
	return inspect.OfferedPlace{}
}

func findingText(f inspect.Finding) string {
	if f.Line > 0 {
		return fmt.Sprintf("%s (line %d)", f.Text, f.Line)
	}
	return f.Text
}

var (
	offerRows = []string{"Fiber", "R on the bag", "Thickness", "Whole assembly", "Facing", "Area", "Moisture", "Price"}
	offerKeys = []string{"material", "r", "thickness_in", "", "facing", "area_ft2", "", "price_usd"}
)

func planColumn(p inspect.OfferedPlace, o Options) [][]string {
	rows := make([][]string, len(offerRows))
	for i, name := range offerRows {
		rows[i] = []string{name, "-"}
	}
	if p.Plan.Choice == nil {
		return rows
	}
	e, board, layer := p.Plan.Choice, "", ""
	if p.Plan.Target.AddR > 0 {
		board = ", with the board to buy"
	}
	if e.Damp.UnderJoists {
		layer = ", with the layer under the joists to buy"
	}
	values := []string{
		e.Name, layersOf(e.Assessed, o), o.System.Inches(e.HeightIn), "about " + o.System.R(e.Heat.AssemblyR) + board, FaceWord(e.Facing.OnBlanket),
		o.System.Area(p.Plan.Surface.AreaFt2), dampWord(e.Damp) + board + layer, o.System.MoneyRange(p.Plan.Cost.Total),
	}
	for i := range rows {
		rows[i][1] = values[i]
	}
	return rows
}

func offerColumn(p inspect.OfferedPlace, o Options) []string {
	out := make([]string, len(offerRows))
	for i := range out {
		out[i] = "not said"
		if key := offerKeys[i]; key != "" && slices.ContainsFunc(p.Parts, func(x inspect.Part) bool { return x.NotUnderstood(key) }) {
			out[i] = "not understood"
		}
	}
	if len(p.Parts) == 0 {
		for i := range out {
			out[i] = "-"
		}
		return out
	}
	var r, thick, fibers []string
	for _, part := range p.Parts {
		if a, ok := part.Answers["r"]; ok {
			r = append(r, o.System.R(a.Number))
		}
		if a, ok := part.Answers["thickness_in"]; ok {
			thick = append(thick, o.System.Inches(a.Number))
		}
		if m, ok := o.Catalog.Material(part.Answers["material"].Text); ok && !slices.Contains(fibers, m.Name) {
			fibers = append(fibers, m.Name)
		}
	}
	set := func(i int, text string) {
		if text != "" {
			out[i] = text
		}
	}
	set(0, strings.Join(fibers, " + "))
	set(1, strings.Join(r, " and "))
	set(2, strings.Join(thick, " and "))
	if p.Offered != nil {
		board := ""
		if p.BoardR > 0 {
			board = ", counting a board which is not in this bid"
		}
		set(3, "about "+o.System.R(p.Offered.Heat.AssemblyR)+board)
		if p.Closed != nil {
			set(3, o.System.R(p.Offered.Heat.AssemblyR)+" to "+o.System.R(p.Closed.Heat.AssemblyR)+board)
		}
		layer := ""
		if p.Offered.Damp.UnderJoists && !p.HasLayer() {
			layer = ", counting a layer under the joists which is not in this bid"
		}
		if p.Offered.Damp.FoamInBays && !p.HasBayFoam() {
			layer += ", counting foam in its bays which is not in this bid"
		}
		set(6, dampWord(p.Offered.Damp)+board+layer)
	}
	set(4, facesText(p))
	if p.AreaFt2 > 0 {
		set(5, o.System.Area(p.AreaFt2))
	}
	if p.HasPrice {
		set(7, o.System.Money(p.Price))
	}
	return out
}

// facesText names the face of each layer, from below, once where all are the
// same; empty where a line does not say.
func facesText(p inspect.OfferedPlace) string {
	var out []string
	for _, part := range p.Parts {
		face := part.Answers["facing"].Text
		if face == "" {
			return ""
		}
		out = append(out, FaceWord(face))
	}
	if len(slices.Compact(slices.Clone(out))) == 1 {
		return out[0]
	}
	return strings.Join(out, " and ")
}

func contractSection(d *page.Page, r inspect.OfferResult, offers []inspect.OfferResult, o Options) {
	title := "What a proper contract still lacks"
	if len(offers) > 1 {
		title += ": " + name(offers, r)
	}
	sec := d.Block(title)
	for _, f := range r.Findings {
		sec.Item(page.Plain, findingText(f))
		cite(d, o.Catalog, f.Ref)
	}
	switch {
	case len(r.Findings) > 0:
	case r.FallsShort():
		sec.Say("Nothing that holds for all of it; what a place lacks is said at the place.")
	default:
		sec.Say("Nothing on our list.")
	}
}
