package pages

import (
	"cmp"

	"battwright/rules"
	"battwright/rules/bill"
	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/plan"
	"battwright/rules/rank"
	"battwright/rules/units"
)

// Schema is the version of the JSON form. It only ever grows.
const Schema = 1

type jsonPlan struct {
	Schema     int          `json:"schema"`
	House      jsonHouse    `json:"house"`
	Places     []jsonPlace  `json:"places"`
	Budget     jsonBudget   `json:"budget"`
	NotCovered []string     `json:"not_covered"`
	Sources    []jsonSource `json:"sources"`
	Overlaid   []string     `json:"overlaid,omitempty"`
	Closing    string       `json:"closing"`
}

type jsonHouse struct {
	Name       string             `json:"name,omitempty"`
	Zone       string             `json:"zone,omitempty"`
	Code       string             `json:"code"`
	Stage      string             `json:"stage"`
	Priorities map[string]float64 `json:"priorities"`
	First      []string           `json:"find_out_first"`     // of the whole house, before anybody buys
	InPlace    string             `json:"in_place,omitempty"` // that blankets may lie already where it plans new ones
	Assumed    []jsonSaid         `json:"assumed"`
	Unknown    []jsonSaid         `json:"unknown"`
}

type jsonPlace struct {
	ID      string          `json:"id"`
	Kind    string          `json:"kind"`
	Label   string          `json:"label"`
	AreaFt2 float64         `json:"area_ft2"`
	Stopped string          `json:"stopped,omitempty"`
	State   string          `json:"state"`
	Stops   []jsonStop      `json:"stops"`
	First   []jsonStop      `json:"find_out_first"`
	Settle  []jsonStop      `json:"settle_first"` // before anybody begins there
	Target  jsonTarget      `json:"target"`
	Ranking []jsonEntry     `json:"ranking"`
	Choice  *jsonEntry      `json:"choice,omitempty"`
	Cost    jsonCents       `json:"cost"`               // its share of the bill; also where no blanket goes in
	AllDamp bool            `json:"all_damp,omitempty"` // the choice gets damp and nothing that may go there is drier
	WaysOut []jsonWayOut    `json:"ways_out,omitempty"` // changes that would cure it, each alone, best first
	Sure    *jsonSure       `json:"sure,omitempty"`
	Order   []jsonOrderLine `json:"order,omitempty"`
	Safety  []jsonSafety    `json:"safety"`
	Install []jsonSafety    `json:"install"`
}

type jsonStop struct {
	Danger string `json:"danger"`
	Say    string `json:"say"`
	Call   string `json:"call,omitempty"`
}

func jsonStops(p plan.Place) []jsonStop {
	out := make([]jsonStop, len(p.Stops))
	for i, s := range p.Stops {
		out[i] = jsonStop{s.Danger, s.Say, s.Call}
	}
	return out
}

// jsonAsks are what must be found out first; a danger without somebody to call.
func jsonAsks(p plan.Place, o Options) []jsonStop {
	out := jsonSay(p.Asks(), p.FindFirst(o.Catalog, o.System))
	for _, s := range p.Also {
		out = append(out, jsonStop{Danger: s.Danger, Say: s.Say})
	}
	return out
}

// jsonSettles are what must be settled before work begins.
func jsonSettles(p plan.Place, o Options) []jsonStop {
	return jsonSay(p.Settles(), p.SettleFirst(o.Catalog, o.System))
}

func jsonSay(hits []rules.Hit, say []string) []jsonStop {
	out := []jsonStop{}
	for i, h := range hits {
		out = append(out, jsonStop{Danger: h.Rule.ID, Say: say[i]})
	}
	return out
}

type jsonTarget struct {
	Text        string   `json:"text"`
	Meets       string   `json:"meets"` // yes, with-parts-to-buy, no, not-asked, unknown
	CavityR     float64  `json:"cavity_r"`
	ContinuousR float64  `json:"ci_r"`
	AddOutsideR float64  `json:"add_outside_r"`
	From        []string `json:"from"`
}

type jsonEntry struct {
	Rank     int                `json:"rank,omitempty"`
	Material string             `json:"material"`
	Score    *float64           `json:"score,omitempty"`
	Excluded bool               `json:"excluded"`
	Because  []jsonSafety       `json:"excluded_because,omitempty"`
	Values   map[string]float64 `json:"values,omitempty"`
	Parts    map[string]float64 `json:"parts,omitempty"`
	Product  *jsonProduct       `json:"product,omitempty"`
	Heat     *jsonHeat          `json:"heat,omitempty"`
	Damp     *jsonDamp          `json:"damp,omitempty"`
	Money    *jsonMoney         `json:"money,omitempty"`
	Reasons  []jsonReason       `json:"reasons,omitempty"`
}

type jsonProduct struct {
	ID            string  `json:"id"`
	Text          string  `json:"text"`
	Form          string  `json:"form"`
	Facing        string  `json:"facing"`
	FacingSide    string  `json:"facing_side,omitempty"`
	RetarderAdded string  `json:"retarder_added,omitempty"`
	Layers        int     `json:"layers"`
	NominalR      float64 `json:"nominal_r"`
	ThicknessIn   float64 `json:"thickness_in"`
}

type jsonHeat struct {
	CavityR      float64   `json:"cavity_r"`
	DeliveredR   float64   `json:"delivered_r"`
	AssemblyR    float64   `json:"assembly_r"`
	AssemblyLow  float64   `json:"assembly_r_low"`
	AssemblyHigh float64   `json:"assembly_r_high"`
	U            float64   `json:"u"`
	Meets        bool      `json:"meets_target"` // without anything that is still to buy beside the blanket
	ShortByR     float64   `json:"short_by_r"`   // of the blanket's part
	BoardR       float64   `json:"counts_board_to_buy_r,omitempty"`
	LossMMBtu    []float64 `json:"loss_mmbtu_year,omitempty"`
	From         []string  `json:"from"`
}

type jsonDamp struct {
	Verdict   string        `json:"verdict"` // not-worked-out: for what is not chosen
	WithHoles string        `json:"with_holes,omitempty"`
	Why       string        `json:"why,omitempty"`
	Assumed   []string      `json:"assumed,omitempty"` // tried in every usual way: cover, board, pitch
	Sealed    *jsonDampYear `json:"workmanlike,omitempty"`
	Holed     *jsonDampYear `json:"leaking,omitempty"`
	Class     string        `json:"retarder_class,omitempty"`
	From      []string      `json:"from,omitempty"`
}

// jsonWayOut is a change of one answer and the verdict of the damp check then.
type jsonWayOut struct {
	ID      string `json:"id"`
	Text    string `json:"text"`
	Verdict string `json:"verdict"`
	But     string `json:"but,omitempty"` // what it leaves unmet
}

// jsonDampYear is the worst of a year: water in wood, highest 30-day mean in kg/kg,
// and the mold index, 0 to 6.
type jsonDampYear struct {
	Moisture float64 `json:"wood_moisture"`
	Mold     float64 `json:"mold_index"`
}

type jsonMoney struct {
	jsonCents
	From []string `json:"from"`
}

type jsonReason struct {
	Rule string `json:"rule"`
	Text string `json:"text"`
	For  bool   `json:"for"`
}

type jsonSafety struct {
	Rule     string `json:"rule,omitempty"`
	Severity int    `json:"severity,omitempty"`
	Text     string `json:"text"`
	Source   string `json:"source,omitempty"`
}

type jsonBudget struct {
	Total *units.Cents `json:"total_cents,omitempty"`
	jsonCents
	Word   string `json:"word,omitempty"`   // holds, may-hold or does-not-hold, by the bill
	Within *bool  `json:"within,omitempty"` // only where the bill leaves no doubt
}

// judge holds the budget against the bill.
func (b *jsonBudget) judge(m bill.Money) {
	b.Word = m.Word()
	if within := b.Word == bill.Holds; b.Word != bill.MayHold && b.Word != "" {
		b.Within = &within
	}
}

type jsonSource struct {
	ID    string          `json:"id"`
	Title string          `json:"title"`
	Known string          `json:"known"` // the weakest of the marks
	Marks []catalog.Known `json:"marks"`
}

// JSON writes a plan as one JSON object, indented or on one line.
func JSON(p plan.Plan, o Options, oneLine bool) ([]byte, error) {
	return encode(toJSON(p, o), oneLine)
}

func toJSON(p plan.Plan, o Options) jsonPlan {
	out := jsonPlan{
		Schema: Schema, Places: []jsonPlace{}, Sources: []jsonSource{},
		NotCovered: cleanAll(p.NotCovered), Overlaid: cleanAll(p.Overlaid), Closing: Closing,
		House:  jsonHouse{Name: clean(p.Name), Zone: p.Site.Zone, Code: p.Site.Edition, Stage: p.Stage, Priorities: map[string]float64{}, First: cleanAll(p.First()), InPlace: clean(p.InPlace()), Assumed: said(p.Assumed), Unknown: said(p.Unknown)},
		Budget: jsonBudget{jsonCents: centsOf(p.Bill.Money.Total)},
	}
	for _, k := range p.Priorities {
		out.House.Priorities[k.ID] = k.Level
	}
	if p.Bill.Money.HasBudget {
		out.Budget.Total = &p.Bill.Money.Budget
		out.Budget.judge(p.Bill.Money)
	}
	for _, place := range p.Places {
		out.Places = append(out.Places, jsonPlaceOf(place, p, o))
	}
	for _, s := range p.Sources {
		x := jsonSource{ID: s.ID, Title: s.Title, Marks: o.Catalog.Marks(s.ID)}
		for _, k := range x.Marks {
			x.Known = string(k)
		}
		out.Sources = append(out.Sources, x)
	}
	return out
}

func jsonPlaceOf(p plan.Place, whole plan.Plan, o Options) jsonPlace {
	out := jsonPlace{
		ID: clean(p.Surface.ID), Kind: p.Surface.Asked, Label: clean(p.Surface.Label), AreaFt2: round(p.Surface.AreaFt2, 1), Stopped: p.StopText(), State: p.State(), Stops: jsonStops(p), First: jsonAsks(p, o), Settle: jsonSettles(p, o), Ranking: []jsonEntry{}, Cost: centsOf(p.Cost.Total),
		Target: jsonTarget{p.Target.Text, meets(p), p.Target.CavityR, p.Target.ContinuousR, p.Target.AddR, fromIDs(p.Target.From)},
		Safety: []jsonSafety{}, Install: []jsonSafety{},
	}
	out.rank(p, whole, o)
	if p.Choice != nil {
		e := jsonEntryOf(p, *p.Choice, whole, o)
		out.Choice, out.AllDamp = &e, p.AllDamp()
		for _, w := range p.WaysOut {
			out.WaysOut = append(out.WaysOut, jsonWayOut{w.ID, w.Text, w.Word, w.But})
		}
		out.Sure = jsonSureOf(p, o)
	}
	out.Order = orderOf(p, o)
	for _, h := range p.Safety {
		out.Safety = append(out.Safety, safety(h, o))
	}
	for _, h := range append(append([]rules.Hit{}, p.Require...), p.Install...) {
		out.Install = append(out.Install, jsonSafety{Rule: h.Rule.ID, Text: h.Text})
	}
	return out
}

// meets says in one word whether the target of a place is met by the choice.
func meets(p plan.Place) string {
	switch {
	case p.Stopped() || p.Target.By == "none" && p.Surface.Kind.CodeElement != "":
		return "unknown"
	case !p.Target.Required:
		return "not-asked"
	case p.Choice == nil || !p.Choice.Heat.MeetsTarget:
		return "no"
	case p.Target.AddR > 0:
		return "with-parts-to-buy"
	}
	return "yes"
}

// rank lists the materials as RankRows does: none while the place is stopped,
// and no blanket of theirs while the width of its room is not known.
func (out *jsonPlace) rank(p plan.Place, whole plan.Plan, o Options) {
	if p.Stopped() {
		return
	}
	for _, e := range p.Entries {
		x := jsonEntryOf(p, e, whole, o)
		if p.Surface.Held() != "" {
			x.Product, x.Heat, x.Damp, x.Money = nil, nil, nil, nil
		}
		out.Ranking = append(out.Ranking, x)
	}
}

func safety(h rules.Hit, o Options) jsonSafety {
	return jsonSafety{Rule: h.Rule.ID, Severity: h.Rule.Effect.Severity, Text: o.Catalog.Caution(h, o.System), Source: h.Rule.Source}
}

func jsonEntryOf(p plan.Place, e plan.Entry, whole plan.Plan, o Options) jsonEntry {
	out := jsonEntry{Rank: e.Rank, Material: e.MaterialID, Excluded: !e.Usable()}
	if e.NoFit != "" {
		out.Because = []jsonSafety{{Text: e.NoFit}}
		return out
	}
	if e.Out != "" {
		out.Because = append(out.Because, jsonSafety{Text: e.Out})
	}
	for _, h := range e.Verdict.Excluded {
		out.Because = append(out.Because, jsonSafety{Rule: h.Rule.ID, Text: h.Text, Source: h.Rule.Source})
	}
	if e.Usable() {
		out.scores(e, whole)
	}
	out.Product = &jsonProduct{
		ID: e.Layers[0].Product.ID, Text: ProductText(e.Assessed, o.System), Form: e.Layers[0].Product.Form, Facing: e.Facing.OnBlanket,
		FacingSide: e.Facing.Side, Layers: len(e.Layers), NominalR: e.NominalR, ThicknessIn: round(e.HeightIn, 2),
	}
	if e.Facing.Added {
		out.Product.RetarderAdded = e.Facing.Sheet
	}
	out.Heat = &jsonHeat{
		round(e.CavityR, 1), round(e.Heat.DeliveredR, 1), round(e.Heat.AssemblyR, 1), round(e.Heat.AssemblyLow, 1), round(e.Heat.AssemblyHigh, 1),
		round(e.Heat.U, 4), e.Heat.MeetsTarget && e.Heat.AddOutsideR == 0, round(e.Heat.ShortByR, 1), round(e.Heat.AddOutsideR, 1), lowToHigh(e.Heat.LossMMBtu, 2), fromIDs(e.Heat.From),
	}
	out.Damp = jsonDampOf(e)
	out.Money = &jsonMoney{centsOf(p.CostOf(&e.Assessed).Total), fromIDs(e.Money.From)}
	for _, h := range e.Verdict.For {
		out.Reasons = append(out.Reasons, jsonReason{h.Rule.ID, h.Text, true})
	}
	for _, h := range e.Verdict.Against {
		out.Reasons = append(out.Reasons, jsonReason{h.Rule.ID, h.Text, false})
	}
	return out
}

// scores rounds once, so that the rounded parts add up to the rounded score.
func (out *jsonEntry) scores(e plan.Entry, whole plan.Plan) {
	points, parts, err := rank.RoundParts(e.Parts)
	if err != nil {
		return
	}
	total := points.Points()
	out.Score = &total
	out.Values, out.Parts = map[string]float64{}, map[string]float64{}
	for i, k := range whole.Priorities {
		out.Values[k.ID] = round(e.Values[i].Value.Typical, 3)
		out.Parts[k.ID] = parts[i].Points()
	}
}

func jsonDampOf(e plan.Entry) *jsonDamp {
	d := &jsonDamp{Verdict: cmp.Or(e.Damp.Word, "not-worked-out"), WithHoles: e.Damp.WithHoles, Why: e.Damp.Why, Assumed: e.Damp.Open, Class: e.Facing.Class, From: fromIDs(e.Damp.From)}
	if e.Damp.Judged() {
		d.Sealed, d.Holed = jsonYearOf(e.Damp.Sealed), jsonYearOf(e.Damp.Holed)
	}
	return d
}

func jsonYearOf(w damp.Worst) *jsonDampYear {
	return &jsonDampYear{Moisture: round(w.Moisture, 3), Mold: round(w.Mold, 1)}
}
