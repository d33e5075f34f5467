package inspect

import (
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/strict"
	"battwright/rules/units"
)

// Limits of an offer file.
const (
	maxParts = 400
	maxMoney = 10_000_000
)

// Offer is what somebody offers to do.
type Offer struct {
	File    string
	Answers house.Answers // about the whole offer, by key
	Parts   []Part
	Notes   strict.Problems // what was read in other units, with its line
	Unread  strict.Problems // what could not be read, with its line
	unread  unread          // of it, what is about the whole offer
}

// Part is one line of an offer: one layer of blanket in one place.
type Part struct {
	Place   string
	Line    int
	Answers house.Answers
	Others  []otherUnit // figures it gives in other units
	unread  unread
}

// NotUnderstood reports whether the line says something by that key that could not
// be read.
func (p Part) NotUnderstood(key string) bool { return p.unread[key].Want != "" }

// otherUnit is a figure in another unit than was asked for: as it is given, and
// the unit asked for.
type otherUnit struct {
	strict.Problem
	Given, Unit string
}

// From is who offers, or the file when nobody says.
func (o Offer) From() string {
	if name := o.Answers["from"].Text; name != "" {
		return name
	}
	return o.File
}

func (p Part) num(key string) (float64, bool) {
	a := p.Answers[key]
	return a.Number, a.State == house.Given
}

func (p Part) text(key string) string { return p.Answers[key].Text }

// offerQuestions are what an offer can say once.
func offerQuestions() []house.Question {
	return []house.Question{
		{Key: "from", Kind: house.TextKind, Prompt: "Who offers?"},
		{Key: "date", Kind: house.TextKind, Prompt: "Of which day?"},
		{Key: "signed", Kind: house.YesNoKind, Prompt: "Is it signed?"},
		{Key: "receipt", Kind: house.YesNoKind, Prompt: "Will there be a signed receipt for each part?"},
		{Key: "fact_sheet", Kind: house.YesNoKind, Prompt: "Was the maker's fact sheet shown?"},
		{Key: gradeKey, Kind: house.Choice, Options: []house.Option{{Value: bestGrade, Label: "grade I"}, {Value: "II", Label: "grade II"}, {Value: "III", Label: "grade III"}}, Prompt: "To which grade?"},
		{Key: "air_sealing", Kind: house.Choice, Options: []house.Option{{Value: "included", Label: "in the price"}, {Value: "owner", Label: "we do it"}, {Value: "extra", Label: "at extra cost"}}, Prompt: "Who seals the holes first?"},
		{Key: "inspection_first", Kind: house.YesNoKind, Prompt: "Is nothing covered before the inspection?"},
		{Key: "labels_left", Kind: house.YesNoKind, Prompt: "Are the labels left?"},
		{Key: "mending", Kind: house.YesNoKind, Prompt: "Are faults fixed without charge?"},
		{Key: "total_usd", Kind: house.NumberKind, Unit: "usd", Max: maxMoney, Prompt: "What does all of it cost?"},
	}
}

// partQuestions are what an offer can say about each layer.
func partQuestions(c *catalog.Catalog) []house.Question {
	return []house.Question{
		{Key: "material", Kind: house.Choice, Options: materials(c), Prompt: "Which fiber?"},
		{Key: "form", Kind: house.Choice, Options: []house.Option{{Value: "batt", Label: "batts"}, {Value: "roll", Label: "rolls"}}, Prompt: "Batts or rolls?"},
		{Key: "r", Kind: house.NumberKind, Unit: "R", Min: 0.1, Max: 100, Prompt: "Which R is on the bag?"},
		{Key: "thickness_in", Kind: house.NumberKind, Unit: "in", Min: 0.25, Max: 40, Prompt: "How thick by its label?"},
		{Key: "area_ft2", Kind: house.NumberKind, Unit: "ft2", Min: 0.1, Max: 200000, Prompt: "How much does it cover?"},
		{Key: "facing", Kind: house.Choice, Options: facings(c), Prompt: "Which face?"},
		{Key: "facing_side", Kind: house.Choice, Options: sides, Prompt: "Toward which side?"},
		{Key: "sheet", Kind: house.Choice, Options: sheets(c), Prompt: "Which sheet or paint beside it?"},
		{Key: boardBy, Kind: house.Choice, Options: byWhom, Prompt: "Who buys and fits the board that the plan counts on?"},
		{Key: "board_r", Kind: house.NumberKind, Unit: "R", Max: 100, Prompt: boardAsk},
		{Key: bayFoamBy, Kind: house.Choice, Options: byWhom, Prompt: "Who cuts and seals the foam in each bay?"},
		{Key: alsoKey, Kind: house.Many, Options: alsoOptions(c), Prompt: "Which of these does the bid name, or do you see to yourself?"},
		{Key: "price_usd", Kind: house.NumberKind, Unit: "usd", Max: maxMoney, Prompt: "What does this line cost?"},
		{Key: "note", Kind: house.TextKind, Prompt: "Anything else?"},
	}
}

// The parts beside the blanket that a plan can count on, and who does them.
const (
	boardBy   = "board_by"
	bayFoamBy = "bay_foam_by"
	byBidder  = "bidder"
)

var byWhom = []house.Option{{Value: byBidder, Label: "in this price"}, {Value: "owner", Label: "we do it"}}

// partQuestionsAt are those that a place raises: about a board or foam only
// where the plan counts on it.
func partQuestionsAt(c *catalog.Catalog, p plan.Place) []house.Question {
	also := alsoAt(p)
	qs := partQuestions(c)
	for i := range qs {
		if qs[i].Key == alsoKey {
			qs[i].Options = slices.DeleteFunc(slices.Clone(qs[i].Options), func(o house.Option) bool { return !slices.Contains(also, o.Value) })
		}
	}
	return slices.DeleteFunc(qs, func(q house.Question) bool {
		switch q.Key {
		case alsoKey:
			return len(q.Options) == 0
		case boardBy, "board_r":
			return p.Target.AddR <= 0
		case bayFoamBy:
			return !requires(p, bayFoam)
		}
		return false
	})
}

// alsoKey names what else the plan needs with the blanket that a bid has in it,
// or that the builder sees to: by the need of its rule.
const alsoKey = "also"

// boardAsk asks of finished work and of bids for one and the same R: that of the plan
// is of all boards too.
const boardAsk = "R of all boards there together, old and new?"

// boardNeed is what the cautions about a board name, and a bid that heeds them.
const boardNeed = "board"

// alsoOptions are all needs that a rule can call for in words.
func alsoOptions(c *catalog.Catalog) []house.Option {
	out := []house.Option{{Value: boardNeed, Label: "what the plan warns of with the board"}}
	for _, r := range c.Book().Rules() {
		need := r.Effect.Need
		if r.Effect.NeedValue != "" && !slices.ContainsFunc(out, func(o house.Option) bool { return o.Value == need }) {
			out = append(out, house.Option{Value: need, Label: units.Prose(r.Effect.NeedValue)})
		}
	}
	return out
}

// alsoAt are the needs of a place that a bid is asked for by that key.
func alsoAt(p plan.Place) []string {
	var out []string
	if len(p.BoardCautions()) > 0 {
		out = append(out, boardNeed)
	}
	for _, x := range append(p.Beside(units.US), p.Called(units.US)...) {
		if x.Need != bayFoam {
			out = append(out, x.Need)
		}
	}
	return out
}

// bayFoam is what a rule of a rim joist requires beside the blanket.
const bayFoam = "foam-in-bays"

var sides = []house.Option{{Value: "room", Label: "toward the heated room"}, {Value: "out", Label: "away from it"}}

func materials(c *catalog.Catalog) []house.Option {
	var out []house.Option
	for _, m := range c.Materials {
		out = append(out, house.Option{Value: m.ID, Label: units.Prose(m.Name)})
	}
	return out
}

func facings(c *catalog.Catalog) []house.Option { return faces(c, nil, true) }

func sheets(c *catalog.Catalog) []house.Option {
	return faces(c, []house.Option{{Value: "none", Label: "none"}}, false)
}

// faces are those on the blanket, or those beside it, behind some other options.
func faces(c *catalog.Catalog, out []house.Option, onBlanket bool) []house.Option {
	for _, f := range c.Facings {
		if f.OnBlanket == onBlanket {
			out = append(out, house.Option{Value: f.ID, Label: units.Prose(f.Name)})
		}
	}
	return out
}

// ReadOffer reads an offer as far as possible. ids are the places of the
// house. The problems are what could not be read, and they stay with the offer. What an offer leaves out is no problem
// of the file: it is found when the offer is judged.
func ReadOffer(j Job, file, text string) (Offer, strict.Problems) {
	o := Offer{File: file, Answers: house.Answers{}}
	tree, problems := strict.Parse(file, text)
	if _, isTOML := tree.Get(); !isTOML {
		return o, problems
	}
	r := &reader{tree: tree, problems: problems, system: j.System}
	c, ids := j.Catalog(), j.IDs()
	r.version()
	o.Answers = r.answers(nil, offerQuestions(), "version", "part")
	o.unread = r.unread
	for i := range r.tables("part", maxParts) {
		path := []any{"part", i}
		r.others = nil
		id, ok := r.placeID(keyPath(path, "place"), ids)
		p := Part{Place: id, Line: tree.Line(path...), Answers: r.answers(path, partQuestions(c), "place")}
		p.Others, p.unread = r.others, r.unread
		if ok {
			o.Parts = append(o.Parts, p)
		}
	}
	problems = r.sorted()
	o.Notes, o.Unread = r.notes, problems
	return o, problems
}

// version: a file of a newer program may mean other things by the same words.
func (r *reader) version() {
	v, ok := r.tree.Get("version")
	if n, isInt := v.(int64); ok && (!isInt || n != 1) {
		r.bad([]any{"version"}, v, "version = 1")
	}
}
