package house

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

func placeQuestions(c *catalog.Catalog) []Question {
	qs := sizeQuestions()
	qs = append(qs, framingQuestions(c)...)
	qs = append(qs, targetQuestions(c)...)
	qs = append(qs, atticQuestions()...)
	qs = append(qs, wallQuestions()...)
	qs = append(qs, crawlQuestions()...)
	qs = append(qs, basementQuestions()...)
	qs = append(qs, dampQuestions(c)...)
	qs = append(qs, chimneyQuestions()...)
	qs = append(qs, placeChoiceQuestions(c)...)
	for i := range qs {
		qs[i].Scope = PlaceScope
		if qs[i].ByKind {
			qs[i].Kinds = kindsAsking(c, qs[i].Key)
		}
	}
	return qs
}

// kindsAsking are the kinds that have a question; nil where all have it.
func kindsAsking(c *catalog.Catalog, key string) []string {
	kinds := c.KindsAsking(key)
	if len(kinds) == len(c.KindsLike(func(k catalog.PlaceKind) bool { return !k.Derived })) {
		return nil
	}
	return append([]string{}, kinds...)
}

// usual is the number that the kind of the place assumes for a question.
func usual(key string) func(Answered, *Place) Answer {
	return func(a Answered, p *Place) Answer { return Number(a.kindOf(p).Usual[key]) }
}

func sizeQuestions() []Question {
	return []Question{
		{Key: "label", Kind: TextKind, Prompt: "What do you call this place?", Default: defaultLabel},
		{Key: "length_ft", ToOrder: true, Kind: NumberKind, Unit: "ft", Min: 0.5, Max: 2000, Optional: true, DontKnow: true, ByKind: true, Prompt: "How long is it?", How: "Along the floor. With the height or width it gives the area."},
		{Key: "lengths_ft", ToOrder: true, Kind: Numbers, Most: MaxRuns, Unit: "ft", Min: 0.5, Max: 2000, Optional: true, ByKind: true, Prompt: "Has it several straight pieces? How long is each?", How: "Outside lengths, in any order: 40, 28, 12 ft 6 in. They win over the one length."},
		{Key: "width_ft", ToOrder: true, Kind: NumberKind, Unit: "ft", Min: 0.5, Max: 1000, Optional: true, DontKnow: true, ByKind: true, Prompt: "How wide is it?"},
		{Key: "height_ft", ToOrder: true, Kind: NumberKind, Unit: "ft", Min: 0.5, Max: 40, DontKnow: true, ByKind: true, Prompt: "How high is it?", Default: defaultHeight},
		{Key: "stud_in", Kind: NumberKind, Unit: "in", Min: 6, Max: 470, Optional: true, DontKnow: true, ByKind: true, Prompt: "How long is a stud, from plate to plate?", How: "Measure the empty space between the bottom and the top wood, up and down. Empty: the usual stud for that height."},
		{Key: "area_ft2", ToOrder: true, Kind: NumberKind, Unit: "ft2", Min: 1, Max: 200000, DontKnow: true, Prompt: "{How many square feet|How large} is it?", How: "Length times width or height, windows and doors included. Measure inside.", Default: defaultArea},
		{Key: "openings_ft2", ToOrder: true, Kind: NumberKind, Unit: "ft2", Min: 0, Max: 100000, DontKnow: true, ByKind: true, Prompt: "Windows and doors in it, together?", How: "They are taken off the area.", Default: defaultOpenings},
		{Key: "openings", ToOrder: true, Kind: Sizes, Most: MaxOpenings, Optional: true, ByKind: true, Prompt: "Each window and door: how many, how wide, how high?", How: "Of the frame around it: 2 of 36 in x 48 in, 1 of 3 ft x 6 ft 8 in. They win over the {square feet|area}."},
	}
}

func framingQuestions(c *catalog.Catalog) []Question {
	var sizes []Option
	for _, s := range c.Sizes {
		sizes = append(sizes, Option{s.ID, units.Prose(s.ID)})
	}
	// A closed crawl space is insulated on its walls: the joists above do not
	// matter there.
	framed := func(a Answered, p *Place) bool { return !a.KindOf(p).Derived }
	return []Question{
		{
			Key: "framing.size", ToOrder: true, Follows: ofWallBehind("framing.size"), Asked: framed, Kind: Choice, ByKind: true, DontKnow: true, Options: sizes, Prompt: "What is the frame made of?",
			How: "Measure the depth of a stud or joist: {3 1/2, 5 1/2, 7 1/4, 9 1/4 or 11 1/4 inches}.",
			Default: func(a Answered, p *Place) Answer {
				return Text(a.kindOf(p).DefaultSize)
			},
		},
		{
			Key: "framing.spacing_in", ToOrder: true, Follows: ofWallBehind("framing.spacing_in"), Asked: framed, Kind: NumberKind, Unit: "in", Min: 8, Max: 96, ByKind: true, DontKnow: true, Prompt: "From the middle of one stud or joist to the middle of the next?",
			How: "Usually {16 or 24 inches}.",
			Default: func(a Answered, p *Place) Answer {
				return Number(a.kindOf(p).DefaultSpacingIn)
			},
		},
		{
			Key: "framing.practice", ToOrder: true, Asked: framed, Kind: Choice, ByKind: true, DontKnow: true, Prompt: "How is it framed?",
			Options: []Option{{"standard", "usual studs or joists"}, {"advanced", "advanced framing, fewer studs"}, {"trusses", "factory-made trusses"}, {"timber", "log or timber frame"}},
			How:     "Trusses are triangles of thin lumber with metal plates.",
			Default: func(a Answered, p *Place) Answer {
				usual := a.kindOf(p).DefaultPractice
				if old := a.House.Answers["old"]; usual == "trusses" && old.State == Given && old.Bool {
					usual = "standard" // factory-made trusses are newer than that
				}
				return Text(usual)
			},
		},
	}
}

func targetQuestions(c *catalog.Catalog) []Question {
	return []Question{
		{
			Key: "target_r", Kind: NumberKind, Unit: "R", Min: 0, Max: 100, Optional: true, Prompt: "Which R-value do your drawings or a local rule name for it?",
			How: "It wins over the model code.", Asked: func(a Answered, _ *Place) bool {
				v := a.Value(Top, nil, "drawings")
				return !v.Known || v.Answer.Bool
			},
		},
		{
			Key: "existing_r", Kind: NumberKind, Unit: "R", Min: 0, Max: 100, ByKind: true, DontKnow: true, Prompt: "What R lies there already?",
			How: "About {3 for each inch} of old blanket. 0 in a new house.", Default: always(Number(0)),
		},
		{
			Key: "exposed", Kind: YesNoKind, DontKnow: true, ByKind: true,
			Prompt: "Will the blanket stay visible, without drywall over it?", Default: func(a Answered, p *Place) Answer {
				return YesNo(a.kindOf(p).Exposed == catalog.ExposedAskedYes)
			},
		},
	}
}

func atticQuestions() []Question {
	return []Question{
		{Key: "heel_in", Kind: NumberKind, Unit: "in", Min: 0, Max: 60, ByKind: true, DontKnow: true, Prompt: "How high is it from ceiling to roof above the outside wall?", How: "Measured straight up from the outside edge of the wall to the roof boards.", Default: usual("heel_in")},
		{Key: "drywall", Kind: Choice, ByKind: true, DontKnow: true, Prompt: "How thick is the ceiling drywall?", Options: []Option{{"half", "{1/2 inch}"}, {"five-eighths", "{5/8 inch}"}}, Default: always(Text("half"))},
		{Key: "flue_through", Kind: YesNoKind, ByKind: true, DontKnow: true, Safety: true, Asked: askedFlue, Follows: flueOfHouse, Belied: flueBelied, BeliedBy: "the chimney you listed", Prompt: "Does a chimney, flue or metal vent go up through it?"},
		{Key: "non_ic_lights", Kind: YesNoKind, ByKind: true, DontKnow: true, Safety: true, Prompt: "Are there recessed lights not rated for contact with insulation?", How: `Look for "IC" on the label inside the light. No recessed lights: no.`},
		{Key: "bath_fan_outside", Kind: YesNoKind, ByKind: true, DontKnow: true, Safety: true, Follows: fansOfHouse, Prompt: "Do the bathroom and kitchen fans blow all the way outdoors?"},
		{Key: "vents_ok", Kind: YesNoKind, ByKind: true, DontKnow: true, Safety: true, Prompt: "Is the attic vented at the eaves and near the ridge?", How: "Slots or grilles under the roof edge, and vents near the top."},
		{Key: "knob_and_tube", ByKind: true, Kind: YesNoKind, DontKnow: true, Safety: true, Asked: askedOldWiring, Follows: noneUnlessOld, Prompt: "Is there old wiring on white porcelain knobs?", How: "If you are not sure, say don't know: an electrician can tell in minutes."},
		{Key: "vermiculite", Kind: YesNoKind, ByKind: true, DontKnow: true, Safety: true, Asked: askedVermiculite, Follows: noneUnlessOld, Prompt: "Is there loose, pebbly, shiny gray-brown fill?", How: "It may hold asbestos. Do not touch it."},
	}
}

func wallQuestions() []Question {
	return []Question{
		{Key: "ci_r", Kind: NumberKind, Unit: "R", Min: 0, Max: 60, ByKind: true, DontKnow: true, Prompt: "Is there a foam or mineral board outside the studs? What R is printed on it?", How: "0 if there is none.", Default: always(Number(0))},
		{
			Key: "sheathing", Kind: Choice, ByKind: true, DontKnow: true, Prompt: "What is nailed on the outside of the studs?",
			Options: []Option{{"osb", "OSB, pressed wood chips"}, {"plywood", "plywood"}, {"gypsum", "gypsum sheathing"}, {"fiberboard", "fiberboard"}}, Default: always(Text("osb")),
		},
		{
			Key: "cladding", Kind: Choice, ByKind: true, DontKnow: true, Prompt: "Is there a gap between siding and wall?", How: "Strips behind the siding, vinyl siding, or brick with air behind: yes.",
			Options: []Option{{"vented", "yes, air can move behind it"}, {"direct", "no, nailed flat"}}, Default: always(Text("vented")),
		},
		{
			Key: "retarder", Kind: Choice, ByKind: true, DontKnow: true, Prompt: "Will a sheet or special paint go up on the room side to slow damp air?",
			Options: []Option{{"plan", "let the plan say"}, {"none", "no"}, {"paint", "vapor retarder paint"}, {"polyethylene", "plastic sheet"}, {"smart", "smart sheet"}}, Default: always(Text("plan")),
		},
		{Key: "bath", Kind: YesNoKind, ByKind: true, DontKnow: true, Prompt: "Is there a tub or shower on this wall?", Default: always(YesNo(false))},
	}
}

// saidClosed: a place that can have vents is known to have none.
func saidClosed(a Answered, p *Place) bool {
	v := a.Value(PlaceScope, p, "vented")
	return a.kindOf(p).Unvented == "" || v.Known && !v.Answer.Bool
}

func crawlQuestions() []Question {
	return []Question{
		{Key: "vented", Kind: YesNoKind, ByKind: true, DontKnow: true, Prompt: "Does the crawl space have open vents to outdoors?", How: "Grilles in the foundation wall.", Default: func(a Answered, _ *Place) Answer { return YesNo(a.Text(Shape, nil, "below") != "crawl-closed") }},
		{Key: "ground_cover", Kind: YesNoKind, ByKind: true, DontKnow: true, Safety: true, Prompt: "Is the earth covered with plastic sheet, wall to wall?"},
		{Key: "wall_height_ft", ToOrder: true, Kind: NumberKind, Unit: "ft", Min: 0.5, Max: 12, ByKind: true, DontKnow: true, Prompt: "How high are the crawl space walls?", Default: usual("wall_height_ft"), Asked: saidClosed},
	}
}

func basementQuestions() []Question {
	return []Question{
		{
			Key: "dampness", Kind: Choice, ByKind: true, DontKnow: true, Safety: true, Prompt: "After rain or in spring, is the wall or floor below ground ...", How: "Not built yet or don't know: we count it as damp.",
			Options: []Option{{"dry", "dry to the hand"}, {"damp", "damp or dark in spots"}, {"wet", "wet, or water on the floor"}},
		},
		{Key: "foam_r", Kind: NumberKind, Unit: "R", Min: 0, Max: 60, ByKind: true, DontKnow: true, Asked: saidClosed, Prompt: "Is foam board on the wall, or bought for it? What R?", How: "0 if there will be none. Empty or don't know: the plan puts it on your list to buy."},
		{Key: "above_grade_ft", Kind: NumberKind, Unit: "ft", Min: 0, Max: 12, ByKind: true, DontKnow: true, Asked: saidClosed, Prompt: "How much of the wall sticks out of the soil?", Default: usual("above_grade_ft")},
		{Key: "dehumidifier", Kind: YesNoKind, ByKind: true, DontKnow: true, Asked: saidClosed, Prompt: "Will a dehumidifier run from May to September?", Default: always(YesNo(false))},
	}
}

func chimneyQuestions() []Question {
	return []Question{
		{
			Key: "chimney", ToOrder: true, Kind: Choice, ByKind: true, DontKnow: true, Safety: true, Offers: offersChimney, Prompt: "What kind of chimney or pipe is it?",
			Options: []Option{{"masonry-inside", "brick or stone, inside the house"}, {"masonry-in-wall", "brick or stone, in an outside wall"}, {"masonry-outside", "brick or stone, wholly outside"}, {"masonry-fireplace", "side or back of a brick fireplace"}, {"factory-built", "factory-built metal chimney"}, {"type-b-vent", "double-wall gas vent (type B)"}, {"metal-connector", "single metal stove or furnace pipe"}, {"pellet-vent", "pellet stove vent"}, {"plastic-vent", "plastic pipe of a furnace or heater"}},
		},
		{Key: "clearance_in", ToOrder: true, Kind: NumberKind, Unit: "in", Min: 0, Max: 48, ByKind: true, DontKnow: true, Optional: true, Prompt: "What clearance does its plate or listing name?", How: "On a metal plate on the pipe or in its papers. For brick and stone leave it empty."},
		{Key: "width_in", ToOrder: true, Kind: NumberKind, Unit: "in", Min: 4, Max: 240, ByKind: true, DontKnow: true, Prompt: "How wide is the chimney?", Default: usual("width_in")},
		{Key: "depth_in", ToOrder: true, Kind: NumberKind, Unit: "in", Min: 4, Max: 240, ByKind: true, DontKnow: true, Prompt: "How deep is it?", Default: usual("depth_in")},
		{Key: "floors", ToOrder: true, Kind: NumberKind, Whole: true, Min: 1, Max: 6, ByKind: true, DontKnow: true, Prompt: "Through how many stories does it go?", Default: func(a Answered, _ *Place) Answer {
			return Number(a.Num(Shape, nil, "stories"))
		}},
		{Key: "gap_in", ToOrder: true, Kind: NumberKind, Unit: "in", Min: 0, Max: 24, ByKind: true, DontKnow: true, Prompt: "How much air is there between the chimney and the framing?", How: "Measure at the tightest spot.", Optional: true},
	}
}

func placeChoiceQuestions(c *catalog.Catalog) []Question {
	qs := []Question{
		{Key: "rule_out", Kind: Many, Options: materialOptions(c), Optional: true, Prompt: "Anything out of the question just here?"},
		{Key: "rule_out_reason", Kind: TextKind, Optional: true, Record: true, Prompt: "Why is it out here?", How: "For your own record; may stay empty.", Asked: func(_ Answered, p *Place) bool { return len(p.Answers["rule_out"].List) > 0 }},
		{Key: "pin", Kind: Choice, Options: append(materialOptions(c), Option{"none", "let the plan choose"}), Optional: true, Prompt: "Keep one material here whatever else changes?"},
		{Key: "labor", Earlier: "labour", Kind: Choice, Optional: true, Options: laborOptions, Prompt: "Who puts it in here, if not as in the rest of the house?"},
		{Key: "waive_target", Kind: YesNoKind, Optional: true, Prompt: "May this place fall short of its target?", How: "It is printed wherever the plan is shown."},
	}
	for _, k := range c.Criteria {
		qs = append(qs, Question{
			Key: "priorities." + k.ID, Kind: NumberKind, Whole: true, Min: 0, Max: 5, Unit: "0-5", Optional: true,
			Prompt: "How much does " + units.Prose(k.Name) + " matter just here?", How: "Empty: as in the rest of the house.",
		})
	}
	return qs
}

// defaultLabel names a place by its kind. Several of a kind that nobody named are
// numbered, by their ids where those have a number: two places of one name could
// not be told apart on an order.
func defaultLabel(a Answered, p *Place) Answer {
	taken, last := map[string]bool{}, map[string]int{}
	for i := range a.House.Places {
		taken[a.House.Places[i].Answers["label"].Text] = true
	}
	for i := range a.House.Places {
		x := &a.House.Places[i]
		if x.Kind != p.Kind || x.ID != p.ID && x.Answers["label"].State == Given {
			continue
		}
		name, number := a.kindLabel(x)
		label := name + number
		for ; taken[label]; last[name]++ { // what was taken once stays so
			label = fmt.Sprint(name, " ", last[name]+2)
		}
		if x.ID == p.ID {
			return Text(label)
		}
		taken[label] = true
	}
	name, number := a.kindLabel(p)
	return Text(name + number)
}

// kindLabel is the kind of a place, and the number in its id behind a blank.
func (a Answered) kindLabel(p *Place) (name, number string) {
	name = a.kindOf(p).Name
	if name == "" {
		name = p.Kind
	}
	if n, ok := strings.CutPrefix(p.ID, p.Kind+"-"); ok && n != "" && strings.Trim(n, "0123456789") == "" {
		number = " " + n
	}
	first, size := utf8.DecodeRuneInString(name) // a name of an overlay may begin with any letter
	return strings.ToUpper(string(first)) + name[size:], number
}
