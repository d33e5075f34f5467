package house

import (
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

// NewList makes the question list for a catalog.
func NewList(c *catalog.Catalog) *QuestionList {
	return ListOf(c, slices.Concat(topQuestions(c), siteQuestions(c), shapeQuestions(c), drawingQuestions(c), placeQuestions(c), priorityQuestions(c), budgetQuestions()))
}

func always(a Answer) func(Answered, *Place) Answer {
	return func(Answered, *Place) Answer { return a }
}

func materialOptions(c *catalog.Catalog) []Option {
	var out []Option
	for _, m := range c.Materials {
		out = append(out, Option{m.ID, units.Prose(m.Name)})
	}
	return out
}

func topQuestions(c *catalog.Catalog) []Question {
	return []Question{
		{
			Key: "name", Kind: TextKind, Optional: true, Prompt: "What shall we call this house?",
			How: "Any name; it is printed on top of every page.",
		},
		{
			Key: "stage", Kind: Choice, Rough: true, Prompt: "How far is the building today?",
			Options: []Option{{"not-framed", "not framed yet"}, {"framed", "framed"}, {"wired", "pipes and wires in"}, {"insulated", "insulation in"}, {"closed", "closed"}},
			Default: always(Text("not-framed")),
		},
		{
			Key: "drawings", Kind: YesNoKind, DontKnow: true, Rough: true, Follows: drawingsByFigure,
			Prompt:  "Do your approved drawings name R-values?",
			How:     `Look on the first sheet for "energy" or "insulation". If they do, those values come first.`,
			Default: always(YesNo(false)),
		},
		{
			Key: "old", Kind: YesNoKind, DontKnow: true, Safety: true, Rough: true, Follows: noOldParts, Belied: oldBelied,
			Prompt: "Is any part of it an older house, from before 1990?",
			How:    "Old wiring and old loose fill can be dangerous to cover or to touch.",
		},
		{
			Key: "rule_out", Kind: Many, Options: materialOptions(c), Prompt: "Is anything out of the question?",
			How:     "Because you can't buy it, for health, or just no. It is left out of every place.",
			Default: always(List()),
		},
		{
			Key: "rule_out_reason", Kind: TextKind, Optional: true, Record: true, Prompt: "Why is it out?", How: "For your own record; may stay empty.",
			Asked: func(a Answered, _ *Place) bool { return len(a.Answer(Top, nil, "rule_out").List) > 0 },
		},
	}
}

func siteQuestions(c *catalog.Catalog) []Question {
	return []Question{
		{
			Scope: Site, Key: "state", Kind: TextKind, DontKnow: true, Rough: true, Prompt: "Which state is the house in?",
			How: "Two letters or the name: VT or Vermont. Nothing is sent anywhere.", Normalize: stateCode,
		},
		{
			Scope: Site, Key: "county", Kind: TextKind, DontKnow: true, Rough: true, Prompt: "Which county?",
			How: "It gives the climate zone. Look on a tax or permit letter.",
		},
		{
			Scope: Site, Key: "zone", Kind: Choice, Optional: true, DontKnow: true, Prompt: "Climate zone, if you know it better than the county table",
			How:     "Leave it empty unless your building office told you.",
			Options: zoneOptions(),
		},
		{
			Scope: Site, Key: "climate", Kind: TextKind, Optional: true, Valid: listedPlace(c), Prompt: "Whose weather shall we use?",
			How: "The id of a listed place, for instance burlington-vt. Empty: the nearest listed place of the same zone.",
		},
		{
			Scope: Site, Key: "code", Kind: Choice, DontKnow: true, Prompt: "Which year's code does your building office use?",
			How:     `Ask: "Which edition of the residential energy code applies to my permit?"`,
			Options: editionOptions(c),
			Default: always(Text("irc-2021")),
		},
		{
			Scope: Site, Key: "indoor", Kind: Choice, DontKnow: true, Prompt: "How damp is the air inside in winter?",
			How:     "Dry: few people, fans used. Humid: many people, laundry or many plants, fans seldom used.",
			Options: []Option{{"dry", "dry"}, {"usual", "usual"}, {"humid", "humid"}}, Default: always(Text("usual")),
		},
		{
			Scope: Site, Key: "cooled", Kind: YesNoKind, DontKnow: true, Prompt: "Will the house be cooled in summer?",
			How: "Air conditioning, or a heat pump used for cooling.", Default: defaultCooled,
		},
		{Scope: Site, Key: "hdd65", Kind: NumberKind, Optional: true, Max: 20000, Unit: "F-days", Prompt: "Your own heating degree days, base {65 F}", How: "Only if you have a better figure than the listed place."},
		{
			Scope: Site, Key: "months", Kind: Numbers, Count: 12, Min: -60, Max: 50, Optional: true, Unit: "C", Prompt: "Your own monthly mean temperatures, January to December, in C",
			How: "For a place that is not listed. Twelve numbers.",
		},
		{
			Scope: Site, Key: "fuel", Kind: Choice, DontKnow: true, Prompt: "What heats the house?",
			Options: []Option{{"gas", "natural gas"}, {"propane", "propane"}, {"oil", "heating oil"}, {"electric", "electric heaters"}, {"heat-pump", "heat pump"}},
			Default: always(Text("gas")),
		},
		{
			Scope: Site, Key: "price", Kind: NumberKind, Optional: true, Max: 100, Unit: "usd per therm, gallon or kWh", Prompt: "What does that fuel cost you?",
			How: "Dollars per therm of gas, per gallon of propane or oil, or per kWh. From a bill. Empty: a national average.",
		},
	}
}

// stateCode writes two letters large, as everybody does; names stay as typed.
func stateCode(s string) string {
	if len(s) == 2 {
		return strings.ToUpper(s)
	}
	return s
}

func zoneOptions() []Option {
	var out []Option
	for _, z := range []string{"0A", "0B", "1A", "1B", "2A", "2B", "3A", "3B", "3C", "4A", "4B", "4C", "5A", "5B", "5C", "6A", "6B", "7", "8"} {
		out = append(out, Option{z, units.Prose(z)})
	}
	return out
}

// Houses in the hot zones are taken to be cooled; elsewhere not.
func defaultCooled(a Answered, _ *Place) Answer {
	z := a.zoneGuess()
	return YesNo(z != "" && z[0] >= '0' && z[0] <= '3')
}

func shapeQuestions(c *catalog.Catalog) []Question {
	figure := func(id string) func(Answered, *Place) Answer { return always(Number(c.Figure(id).Value)) }
	return []Question{
		{Scope: Shape, Key: "length_ft", Kind: NumberKind, Unit: "ft", Min: 6, Max: 500, DontKnow: true, Rough: true, Prompt: "How long is the house, outside?", Default: figure("house-length")},
		{Scope: Shape, Key: "width_ft", Kind: NumberKind, Unit: "ft", Min: 6, Max: 500, DontKnow: true, Rough: true, Prompt: "How wide is it?", How: "Not a rectangle? Take the rectangle nearest in area; every size can be changed later.", Default: figure("house-width")},
		{Scope: Shape, Key: "stories", Kind: NumberKind, Whole: true, Min: 1, Max: 4, DontKnow: true, Rough: true, Prompt: "How many heated stories above ground?", Default: always(Number(1))},
		{Scope: Shape, Key: "wall_height_ft", Kind: NumberKind, Unit: "ft", Min: 5, Max: 20, DontKnow: true, Prompt: "How high is one story, floor to ceiling?", Default: figure("story-height")},
		{Scope: Shape, Key: "openings_ft2", Kind: NumberKind, Unit: "ft2", Min: 0, Max: 20000, DontKnow: true, Prompt: "All windows and outside doors together?", How: "Add up width times height of each. Don't know: we take 15 of each 100 {square feet|square meters} of wall.", Default: defaultShapeOpenings, Follows: openingsOfWalls},
		{
			Scope: Shape, Key: "above", Kind: Choice, DontKnow: true, Rough: true, Prompt: "What is above the top floor?",
			Options: []Option{{"attic", "an attic, not heated"}, {"sloped", "the sloped roof itself"}, {"both", "some of both"}, {"heated", "another heated home"}}, Default: always(Text("attic")),
		},
		{
			Scope: Shape, Key: "below", Kind: Choice, DontKnow: true, Rough: true, Prompt: "What is below the lowest heated floor?",
			Options: []Option{{"slab", "a concrete slab on the ground"}, {"crawl-vented", "a crawl space with vents"}, {"crawl-closed", "a crawl space without vents"}, {"basement", "a basement, heated or used"}, {"basement-crawl", "part basement, part crawl space"}}, Default: always(Text("crawl-vented")),
		},
		{
			Scope: Shape, Key: "chimney", Kind: Choice, DontKnow: true, Rough: true, Safety: true, Prompt: "What goes up through the house from a stove or furnace?",
			Options: []Option{{"none", "nothing"}, {"masonry", "a brick or stone chimney"}, {"metal", "a metal pipe"}, {"plastic", "a plastic pipe"}},
		},
		{
			Scope: Shape, Key: "others", Kind: Many, Prompt: "Which of these does the house have too? We do not cover them and say so.",
			Options: []Option{{"knee-wall", "knee wall in the attic"}, {"attic-hatch", "attic hatch or stair"}, {"floor-over-garage", "floor over a garage or overhang"}, {"garage-wall", "wall between house and garage"}, {"interior-sound", "inside wall for quiet"}, {"slab-edge", "edge of a slab"}},
			Default: always(List()),
		},
	}
}

func defaultShapeOpenings(a Answered, _ *Place) Answer {
	return Number(roundTo(a.grossWallFt2()*a.List.catalog.Figure("openings-share").Value, 1))
}

func priorityQuestions(c *catalog.Catalog) []Question {
	var out []Question
	for _, k := range c.Criteria {
		out = append(out, Question{
			Scope: Priorities, Key: k.ID, Kind: NumberKind, Whole: true, Min: 0, Max: 5, Unit: "0-5", Rough: false,
			Prompt: "How much does " + units.Prose(k.Name) + " matter?", How: "0 does not matter, 5 matters most. It is judged by " + k.Measures + ".", Default: always(Number(3)),
		})
	}
	return out
}

var laborOptions = []Option{{"self", "we do"}, {"installer", "an installer"}, {"installer-checked", "an installer, checked by an inspector"}}

func budgetQuestions() []Question {
	return []Question{
		{
			Scope: Budget, Key: "labor", Earlier: "labour", Kind: Choice, DontKnow: true, Prompt: "Who puts it in?",
			Options: laborOptions, Default: always(Text("self")),
		},
		{
			Scope: Budget, Key: "total_usd", Kind: NumberKind, Unit: "usd", Max: 1000000, Optional: true, Prompt: "What may the insulation of the whole house cost?",
			How: "Leave it empty if you first want to see what it costs.",
		},
		{
			Scope: Budget, Key: "use", Kind: Choice, Prompt: "What should the budget do?",
			How:     "A limit steps in only when the plan costs more. Or it is the money to spend: the plan is then the best set it buys, with price left out of the priorities.",
			Options: []Option{{"limit", "be a limit"}, {"spend", "be spent on the best set it buys"}}, Default: always(Text("limit")),
			Asked: func(a Answered, _ *Place) bool { return a.Value(Budget, nil, "total_usd").Source == FromAnswer },
		},
		{
			Scope: Budget, Key: "stakes", Kind: Choice, Prompt: "When money is short, which places come first?",
			How:     "Within a budget each place counts by the heat that would be lost through it, or all alike.",
			Options: []Option{{"heat", "where most heat is lost"}, {"alike", "every place alike"}}, Default: always(Text("heat")),
		},
	}
}

// editionOptions are the editions of the model code that the data have.
func editionOptions(c *catalog.Catalog) []Option {
	out := make([]Option, len(c.Codes.Editions))
	for i, e := range c.Codes.Editions {
		out[i] = Option{e.ID, units.Prose(e.Name())}
	}
	return out
}
