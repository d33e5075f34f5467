package inspect

import (
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/strict"
	"battwright/rules/units"
)

// underJoists is the point, and the need of a rule, that the damp check of a
// floor counts on.
const underJoists = "layer-under-joists"

// retarderPaint is the point, and the need of a rule, for paint that the damp check
// counts on and that nobody can see before the drywall is up.
const retarderPaint = "retarder-paint"

// flueRetarder is the point, and the need of a rule, for what the building department
// lets slow damp air beside a flue.
const flueRetarder = "flue-retarder"

// oldDepth is the answer how deep an old blanket under the new ones lies.
const oldDepth = "old_in"

// seePrefix is the table of the points that a person looks at.
const seePrefix = "see."

// What a person saw.
const (
	seenGood = "good"
	seenBad  = "bad"
)

// FoundList is the list of questions about finished work: a few about the
// visit, then what is measured and what is looked at in each place. It is
// asked, checked and kept like the questions about the house.
func FoundList(c *catalog.Catalog) *house.QuestionList {
	qs := []house.Question{
		{Key: "by", Kind: house.TextKind, Optional: true, Prompt: "Who looked?"},
		{Key: "date", Kind: house.TextKind, Optional: true, Prompt: "On which day?"},
	}
	qs = append(qs, measuredQuestions(c)...)
	qs = append(qs, seenQuestions(c)...)
	return house.ListOf(c, qs)
}

func measuredQuestions(c *catalog.Catalog) []house.Question {
	chimney := c.KindsLike(func(k catalog.PlaceKind) bool { return k.BesideChimney })
	stacked := c.KindsLike(func(k catalog.PlaceKind) bool { return k.StackOverFraming })
	boarded := c.KindsLike(func(k catalog.PlaceKind) bool { return k.HasLayer(catalog.RoleBoard) })
	qs := []house.Question{
		{Key: "batt_in_gap", Kind: house.YesNoKind, Kinds: chimney, Prompt: "Is any blanket, scrap or paper in the air gap of the chimney?", How: "Look with a lamp, all sides, every floor. Any fiber counts, mineral wool too."},
		{Key: "gap_in", Kind: house.NumberKind, Unit: "in", Max: 48, Kinds: chimney, Prompt: "How wide is the gap at its tightest spot?"},
		{Key: "blanket_there", Kind: house.YesNoKind, Prompt: "Does any new blanket lie here?", How: "The plan has none here as things stand. What lay here before the work began does not count."},
		{Key: "board_there", Kind: house.YesNoKind, Kinds: boarded, Prompt: "Is the board there that the plan counts on?", How: "Outside the studs, or on the concrete below grade. Photos from before it was covered count."},
		{Key: "board_r", Kind: house.NumberKind, Unit: "R", Max: 100, Kinds: boarded, Prompt: boardAsk, How: "Read it off each board, and add. None there: 0."},
		{Key: "label_r", Kind: house.Numbers, Most: 4, Unit: "R", Max: 100, Prompt: "Which R is on the label?", How: "Several layers: each, the bottom one first, with commas. Open a faced blanket at the edge, or read the bags."},
		{Key: "label_thickness_in", Kind: house.Numbers, Most: 4, Unit: "in", Max: 40, Prompt: "How thick does the label say it is?", How: "Several layers: each, the bottom one first."},
		{Key: "material", Kind: house.Choice, Options: materials(c), Prompt: "Which fiber is it?"},
		{Key: "facing", Kind: house.Choice, Options: facings(c), Prompt: "Which face has it?"},
		{Key: "facing_side", Kind: house.Choice, Options: sides, Prompt: "Toward which side is the face?"},
		{Key: "sheet", Kind: house.Choice, Options: sheets(c), Prompt: "Which sheet is on the room side of it?"},
		{Key: "thickness_in", Kind: house.Numbers, Most: 60, Unit: "in", Max: 60, Prompt: "How thick is it, measured at spread points?", How: "All layers together, with commas between. Attic: a ruler pushed down to the ceiling, the blanket not pressed. Walls: where you open one."},
		{Key: oldDepth, Kind: house.NumberKind, Unit: "in", Max: 60, Kinds: stacked, Prompt: "How deep does the old blanket alone lie?", How: "From the ceiling to its top, where the new one is lifted or was not down yet. Without it nobody can tell the one from the other."},
		{Key: "looked_ft2", Kind: house.NumberKind, Unit: "ft2", Min: 1, Max: 200000, Prompt: "{How many square feet|How much} did you look at?", How: "Empty: all of it."},
		{Key: "gaps", Kind: house.TextKind, Prompt: "Which gaps are there? Length x width, with commas.", How: "Right through the blanket, in inches: 12 x 1/2, 93 x 1/4. None: 0 x 0.", Valid: func(s string) error { _, err := GapsIn2(s); return err }},
		{Key: "void_pct", Kind: house.NumberKind, Max: 100, Prompt: "Or: how much of the area is a gap, in percent?", How: "The larger of the two counts."},
		{Key: "squeezed_pct", Kind: house.NumberKind, Max: 100, Prompt: "How much of the area is squeezed, in percent?"},
		{Key: "squeezed_to_in", Kind: house.NumberKind, Unit: "in", Max: 60, Prompt: "How thick is it there?", How: "At the worst squeezed spot."},
	}
	for i := range qs {
		qs[i].Scope, qs[i].DontKnow = house.PlaceScope, qs[i].Kind != house.TextKind
		// What can hurt people starts as unknown, so that nobody answers it by
		// paging on.
		qs[i].Safety = qs[i].Kind == house.YesNoKind
		qs[i].Optional = !qs[i].Safety
	}
	return qs
}

func seenQuestions(c *catalog.Catalog) []house.Question {
	var qs []house.Question
	for _, p := range c.Acceptance().Points {
		if p.From != "" {
			continue
		}
		qs = append(qs, house.Question{
			Key: seePrefix + p.ID, Scope: house.PlaceScope, Kinds: p.Kinds, Kind: house.Choice, Optional: true, DontKnow: true, Prompt: units.Prose(p.Title + "?"),
			How: p.Look + " Not right: " + p.Fails + ".", Options: []house.Option{{Value: seenGood, Label: "looks right"}, {Value: seenBad, Label: "not right"}},
		})
	}
	return qs
}

// QuestionsOf are the questions that the finished work of a place raises: the
// points about a face only where a face was agreed or found.
func QuestionsOf(l *house.QuestionList, p plan.Place, said house.Answers) []house.Question {
	var out []house.Question
	for _, q := range l.In(house.PlaceScope, p.Surface.Kind.ID) {
		id, seen := strings.CutPrefix(q.Key, seePrefix)
		at := slices.IndexFunc(l.Catalog().Acceptance().Points, func(x catalog.AcceptancePoint) bool { return x.ID == id })
		if seen && (at < 0 || !hasPoint(l.Catalog().Acceptance().Points[at], p, said)) || !seen && !measuredIn(q.Key, p, said) {
			continue
		}
		if q.Key == "board_there" && p.BoardR() > 0 {
			q.Prompt = "Is it there: " + boardProse(p, p.BoardR()) + "?"
		}
		if q.Key == "thickness_in" && planned(p) && underIn(p) > 0 {
			q.Prompt, q.How = "How deep is it to the ceiling, the old blanket included, at spread points?", "A ruler pushed down to the ceiling, the blankets not pressed. Commas between."
		}
		out = append(out, q)
	}
	return out
}

// measuredIn reports whether a place raises a question of what is measured:
// where the plan has no blanket only what must not be there, and what somebody
// noted all the same.
func measuredIn(key string, p plan.Place, said house.Answers) bool {
	switch key {
	case "blanket_there":
		return !planned(p)
	case "batt_in_gap", "gap_in":
		return true
	case oldDepth:
		return planned(p) && underIn(p) > 0 || said[key].State == house.Given
	case "board_there", "board_r":
		return countsOnBoard(p) || boardNoted(said)
	}
	return planned(p) || said[key].State == house.Given
}

// countsOnBoard reports whether a place has its R with a board, there or to buy.
func countsOnBoard(p plan.Place) bool {
	return p.BoardR() > 0 && (planned(p) || p.BoardAlone() && !p.Stopped())
}

// boardNoted reports whether somebody noted anything about a board.
func boardNoted(said house.Answers) bool {
	return said["board_there"].State == house.Given || said["board_r"].State == house.Given
}

// sheetAgreed is the sheet that a plan has on the room side and that can be
// seen before the drywall, empty when there is none: paint comes after it.
func sheetAgreed(p plan.Place) string {
	if !planned(p) || p.Choice.Facing.Sheet == "paint" {
		return ""
	}
	return p.Choice.Facing.Sheet
}

// sheetLeftOut is a sheet that the house file names for the room side and that
// the plan leaves out, empty when there is none: somebody may put it up.
func sheetLeftOut(p plan.Place) string {
	switch named := p.Surface.Retarder; {
	case !planned(p) || named == p.Choice.Facing.Sheet || named != "polyethylene" && named != "smart":
		return ""
	default:
		return named
	}
}

// hasPoint reports whether a place is accepted by a point: those of old parts
// only where there may be some, those of a blanket only where one is planned,
// those of a full bay only where it must be full; and whatever somebody noted
// all the same.
func hasPoint(x catalog.AcceptancePoint, p plan.Place, said house.Answers) bool {
	noted := said[seePrefix+x.ID].State == house.Given
	switch x.From {
	case catalog.FromBare:
		return !planned(p) && (!p.Target.Idle || blanketFound(said))
	case catalog.FromDamp:
		return getsDamp(p)
	case catalog.FromBoard:
		return countsOnBoard(p) || boardNoted(said)
	case catalog.FromChimney:
		return byChimney(p)
	}
	if x.ID == flueRetarder && paintFound(said) && byChimney(p) {
		return true
	}
	if !noted && (!planned(p) && !(x.Unplanned && minded(p)) || x.Needs != "" && !requires(p, x.Needs) || x.Rule != "" && !warns(p, x.Rule) || x.Fills && !p.Surface.Frame.MustFill || x.Covered && p.Surface.Exposed ||
		x.Old && !p.Surface.MayBeOld || settled(p, x.SettledBy)) {
		return false
	}
	return x.For(p.Surface.Kind.ID, facedIn(p, said))
}

// pointIn is a point as it stands in one place: it names the board there is to
// see, how a bare blanket is looked at, the sheet over it, and what can
// hurt people there.
func pointIn(j Job, p plan.Place, x catalog.AcceptancePoint) catalog.AcceptancePoint {
	switch {
	case x.From == catalog.FromBoard && p.BoardR() > 0:
		x.Title = boardProse(p, p.BoardR()).In(j.System) + " is there"
	case x.From == catalog.FromBare && barred(p):
		x.Result = catalog.ResultStop
	case planned(p) && p.Choice.Facing.OnBlanket == "none" && x.Bare != "":
		x.Look = x.Bare
	}
	if x.From == catalog.FromFacing && sheetAgreed(p) != "" {
		x.Look += units.Prose(" Over it: " + sheetText(j, p) + ".")
	}
	return x
}

// facedIn reports whether a face was agreed for a place or found in it.
func facedIn(p plan.Place, said house.Answers) bool {
	if f := said["facing"]; f.State == house.Given {
		return f.Text != "none"
	}
	return planned(p) && p.Choice.Facing.OnBlanket != "none"
}

// EmptyFound is the finished work of a job before anybody looked: each place
// that is looked at, without an answer.
func EmptyFound(j Job) *house.House {
	h := house.New()
	for _, p := range j.Plan.Places {
		if inspected(p) {
			h.Places = append(h.Places, house.Place{ID: p.Surface.ID, Kind: p.Surface.Kind.ID, Answers: house.Answers{}})
		}
	}
	return h
}

// ReadFound reads a file of finished work as far as possible. Places of the
// plan that it does not name are there without an answer. The second result
// is what was read in other units, the third what could not be read.
func ReadFound(l *house.QuestionList, j Job, file, text string) (h *house.House, notes, problems strict.Problems) {
	h = EmptyFound(j)
	tree, problems := strict.Parse(file, text)
	if _, isTOML := tree.Get(); !isTOML {
		return h, nil, problems
	}
	r := &reader{tree: tree, problems: problems, system: j.System}
	r.version()
	h.Answers = r.answers(nil, l.In(house.Top, ""), "version", "place")
	seen := map[string]bool{}
	for i := range r.tables("place", house.MaxPlaces) {
		path := []any{"place", i}
		id, ok := r.placeID(keyPath(path, "id"), j.IDs())
		p, _ := j.Place(id)
		qs := l.In(house.PlaceScope, p.Surface.Kind.ID)
		if !ok {
			qs = everyPlace(l)
		}
		answers := r.answers(path, qs, "id", "kind")
		switch {
		case !ok:
		case seen[id]:
			r.bad(keyPath(path, "id"), id, "one table for each place; this one is there already")
		default:
			seen[id] = true
			at := h.Place(id)
			if at == nil {
				h.Places = append(h.Places, house.Place{ID: id, Kind: p.Surface.Kind.ID})
				at = h.Place(id)
			}
			at.Answers, at.Unread = answers, r.unread.list()
		}
	}
	problems = r.sorted()
	return h, r.notes, problems
}

func everyPlace(l *house.QuestionList) []house.Question {
	var out []house.Question
	for _, q := range l.Questions {
		if q.Scope == house.PlaceScope {
			out = append(out, q)
		}
	}
	return out
}

// WriteFound gives the text of a file of finished work.
func WriteFound(l *house.QuestionList, h *house.House) string { return house.Write(l, h) }
