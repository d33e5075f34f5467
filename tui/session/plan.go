package session

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
)

// What can be done with the places and with the plan.
const (
	Places     page.ActionID = "places"
	Onward     page.ActionID = "onward"
	AddPlace   page.ActionID = "add"
	AddKind    page.ActionID = "add kind"
	Copy       page.ActionID = "copy"
	Delete     page.ActionID = "delete"
	Propose    page.ActionID = "propose"
	NotCovered page.ActionID = "not covered"
	Look       page.ActionID = "look"
	Compare    page.ActionID = "compare"
	Minds      page.ActionID = "minds"
	Plans      page.ActionID = "plans"
	KeepPlan   page.ActionID = "keep plan"
	UsePlan    page.ActionID = "use plan"
	Place      page.ActionID = "place"
	Why        page.ActionID = "why"
	Picture    page.ActionID = "picture"
	Damp       page.ActionID = pages.ActDamp
	How        page.ActionID = pages.ActHow
	Change     page.ActionID = "change"
	NextPlace  page.ActionID = "next place"
	LastPlace  page.ActionID = "last place"
	MoneyIs    page.ActionID = "money is"
	Ladder     page.ActionID = "ladder"
	Rungs      page.ActionID = "rungs"
	TakeRung   page.ActionID = "take rung"
)

func init() {
	add(map[page.ActionID]maker{
		Places: placesView, AddPlace: addView, NotCovered: notCoveredView, Look: lookView, Compare: compareView, Minds: mindsView, Plans: plansView, Place: placeView,
		Why:     ofPlace(func(_ *Session, p plan.Place, o pages.Options, _ int) page.Page { return pages.WhyPage(p, o) }),
		How:     ofPlace(func(_ *Session, p plan.Place, o pages.Options, _ int) page.Page { return pages.HowPage(p, o) }),
		Picture: ofPlace((*Session).picturePage), Damp: ofPlace((*Session).dampPage),
		Change: ofPlace(func(s *Session, p plan.Place, o pages.Options, _ int) page.Page {
			return pages.StillOpenPage(p, s.Assess.StillOpen(s.Preferences(), p.Surface.ID), o)
		}),
		MoneyIs: moneyView, Rungs: rungsView,
	}, map[page.ActionID]doer{
		Onward: func(s *Session, _ string) Next { return s.onward(0) }, AddKind: addKind, Copy: copyPlace, Delete: deletePlace, Propose: propose,
		KeepPlan: keepPlan, UsePlan: usePlan, Ladder: openLadder, TakeRung: takeRung,
		NextPlace: func(s *Session, id string) Next { return s.beside(id, 1) },
		LastPlace: func(s *Session, id string) Next { return s.beside(id, -1) },
	})
}

var (
	export  = page.Action{ID: Export, Key: "x", Tag: "export", Word: "export", Note: "the recommendation to a file"}
	findOut = page.Action{ID: FindOut, Key: "f", Tag: "find out", Word: "find out", Note: "what is not known yet, and whether it matters"}
)

// Leads are the actions that rows of a page lead to.
var Leads = map[page.ActionID]page.Action{
	How:       {ID: How, Key: "h", Tag: "how to install", Word: "how", Note: "how to put it in, with all cautions"},
	Damp:      {ID: Damp, Key: "d", Tag: "damp", Word: "damp", Note: "the damp check, a year hour by hour"},
	PlaceForm: {ID: PlaceForm, Key: "e enter", Tag: "its answers", Word: "edit", Note: "the answers of this place"},
}

func placesView(s *Session, _ string) (View, bool) {
	on, note := "what matters", "on to what matters"
	if s.Unsized() >= 0 {
		on, note = "size and frame of each", "size and frame of each place, then what matters"
	}
	var rows []page.Action
	for i := range s.House.Places {
		p := &s.House.Places[i]
		rows = append(rows, page.Action{ID: PlaceForm, Arg: p.ID, Label: s.Label(p), Note: s.sizeAndFrame(p)})
	}
	rows = append(rows,
		page.Action{ID: Onward, Key: "enter n ctrl+n", Tag: on, Word: "next", Note: note},
		page.Action{ID: AddPlace, Key: "a", Tag: "add", Word: "add", Note: "a place that is missing"})
	if len(s.House.Places) > 0 {
		rows = append(rows,
			page.Action{ID: PlaceForm, Of: PlaceForm, Key: "e", Tag: "its answers", Word: "edit", Note: "the answers of that place; the number alone does the same"},
			page.Action{ID: Copy, Of: PlaceForm, Key: "c", Tag: "copy", Word: "copy", Note: "that place a second time"},
			page.Action{ID: Delete, Of: PlaceForm, Key: "x", Tag: "delete", Word: "delete", Note: "that place; you are asked first"})
	}
	rows = append(rows,
		page.Action{ID: Propose, Key: "r", Tag: "propose again", Word: "propose", Note: "again from the shape; only what is missing is added"},
		page.Action{ID: NotCovered, Word: "not covered", Note: "what somebody else must be asked about"})
	return View{Step: AtPlaces, Kind: Cursor, Actions: rows, Page: func(int) page.Page {
		d := page.Page{Title: "The places to insulate", Intro: "Proposed from the shape of the house. Sizes are guesses until you measure."}
		if len(s.House.Places) == 0 {
			d.Block("").Loud("There is no place yet: add one, or propose from the shape.")
		}
		return d
	}}, true
}

// sizeAndFrame is a place in a few words: its size, how it is known, its frame.
func (s *Session) sizeAndFrame(p *house.Place) string {
	area, known, frame := s.SizeOf(p)
	if frame != "" {
		frame = ", " + frame
	}
	return area + ", " + known + frame
}

// SizeOf is the area of a place, how it is known, and its frame.
func (s *Session) SizeOf(p *house.Place) (area, known, frame string) {
	known = "assumed"
	if s.Answered().AreaGiven(p) {
		known = "your figure"
	}
	if pl := s.Place(p.ID); pl != nil {
		frame = pages.FrameText(*pl, s.System)
	}
	return s.System.Area(s.Answered().NetAreaFt2(p)), known, frame
}

func notCoveredView(s *Session, _ string) (View, bool) {
	return s.reading(AtPlaces, blocks(func() []page.Block { return []page.Block{pages.NotCoveredBlock(s.Plan)} }))
}

// onward leads from the places to what matters. Whoever wants to order is first
// led through size and frame of each place that was not asked about yet.
func (s *Session) onward(closed int) Next {
	if at := s.Unsized(); at >= 0 {
		return Next{Close: closed, Open: At{SizeForm, s.House.Places[at].ID}}
	}
	return Go(AtMatters)
}

func addView(s *Session, _ string) (View, bool) {
	var rows []page.Action
	for _, id := range s.List.PlaceKinds() {
		k, _ := s.Catalog().Kind(id)
		rows = append(rows, page.Action{ID: AddKind, Arg: id, Label: k.Name})
	}
	return View{Step: AtPlaces, Page: titled("Add a place", ""), Actions: rows}, true
}

var tooMany = Next{Say: fmt.Sprintf("A house can have at most %d places.", house.MaxPlaces)}

func addKind(s *Session, kind string) Next {
	if len(s.House.Places) >= house.MaxPlaces {
		return tooMany
	}
	added := s.House.Add(kind).ID
	s.EditedHouse()
	return Next{Close: 1, Open: At{PlaceForm, added}}
}

func copyPlace(s *Session, id string) Next {
	if !s.House.Duplicate(id) {
		return tooMany
	}
	s.EditedHouse()
	return Next{Last: true}
}

func deletePlace(s *Session, id string) Next {
	return Next{Confirm: &Confirm{Ask: "Delete " + s.Label(s.House.Place(id)) + "?", Then: func() Next {
		s.House.Delete(id)
		s.EditedHouse()
		return Next{}
	}}}
}

func propose(s *Session, _ string) Next {
	if len(house.Propose(s.List, s.House)) == 0 {
		return Next{Say: "Every kind of place that the shape calls for is there already."}
	}
	s.EditedHouse()
	return Next{}
}

func lookView(s *Session, _ string) (View, bool) {
	var rows []page.Action
	for _, p := range s.Plan.Places {
		rows = append(rows, page.Action{ID: Place, Arg: p.Surface.ID, Label: p.Surface.Label, Note: pages.Glance(p, s.Options())})
	}
	rows = append(rows,
		page.Action{ID: Report, Word: "report", Note: "everything, to read here"},
		page.Action{ID: Compare, Word: "compare", Note: "each place with every material: fits or not, price"},
		page.Action{ID: StepTo, Arg: StepNames[AtMatters], Key: "m", Tag: "what matters", Word: "matters", Note: "back to what matters"},
		page.Action{ID: StepTo, Arg: StepNames[AtMoney], Key: "n ctrl+n", Tag: "money", Word: "next", Note: "on to work and money"},
		page.Action{ID: Minds, Key: "w", Tag: "what would change it", Word: "what if", Note: "which priority would change the plan"},
		findOut, export,
		page.Action{ID: Plans, Key: "k", Tag: "saved plans", Word: "plans", Note: "saved plans: priorities and budget under a name"})
	return View{Step: AtLook, Kind: Cursor, Move: "place", Choose: "open it", Actions: rows, Page: func(int) page.Page { return pages.GlancePage(s.Plan, s.Options()) }}, true
}

func compareView(s *Session, _ string) (View, bool) {
	return s.reading(AtLook, blocks(func() []page.Block { return pages.LookBlocks(s.Plan, s.Options()) }))
}

func mindsView(s *Session, _ string) (View, bool) {
	v, ok := s.reading(AtLook, func(int) page.Page { return pages.MindPage(s.Minds(), s.Options()) })
	v.Slow = s.mind
	return v, ok
}

// plansView lists the saved plans: priorities and budget under a name.
func plansView(s *Session, _ string) (View, bool) {
	rows := []page.Action{{ID: KeepPlan, Word: "keep", Label: "Save the current priorities as a plan"}}
	for _, v := range s.House.Variants {
		rows = append(rows, page.Action{ID: UsePlan, Arg: v.Name, Label: v.Name, Note: pages.VariantText(s.Plan, s.Assess.OfVariant(v), v, s.System)})
	}
	intro := "A saved plan keeps priorities and budget under a name, in your house file. Choosing one puts its priorities and its budget in place."
	return View{Step: AtLook, Kind: Things, Page: titled("Saved plans", intro), Actions: rows}, true
}

func keepPlan(s *Session, _ string) Next {
	return Next{Prompt: &Prompt{Title: "Keep as a plan", Hint: "A name, for instance quiet house. One that is there already is replaced.", Take: func(name string) (Next, string) {
		switch {
		case len([]rune(name)) > house.MaxText:
			return Next{}, fmt.Sprintf("At most %d characters.", house.MaxText)
		case s.House.Variant(name) == nil && len(s.House.Variants) >= house.MaxVariants:
			return Next{}, fmt.Sprintf("A house can have at most %d saved plans.", house.MaxVariants)
		}
		s.Answered().KeepVariant(name, pages.Kept(s.settledPlan()))
		s.Edits++
		s.Saved, s.Changed = false, ""
		return Next{Say: "Kept as " + name}, ""
	}, Warn: func(name string) string {
		if s.House.Variant(name) == nil {
			return ""
		}
		return "There is a plan of that name: it will be replaced."
	}}}
}

// usePlan puts the priorities and the budget of a saved plan in place.
func usePlan(s *Session, name string) Next {
	before, v := s.Preferences(), s.House.Variant(name)
	s.House.Answers = v.Over(s.House).Answers
	s.EditedHouse()
	n := Go(AtLook)
	n.Say = pages.BudgetChange(before, s.Preferences(), s.System)
	return n
}

// ofPlace is a view that is read about one place.
func ofPlace(made func(s *Session, p plan.Place, o pages.Options, width int) page.Page) maker {
	return func(s *Session, id string) (View, bool) {
		p := s.Place(id)
		if p == nil {
			return View{}, false
		}
		return s.reading(AtLook, func(width int) page.Page { return made(s, *p, s.Options(), width) })
	}
}

// placeView is the result of one place, and what lies behind it.
func placeView(s *Session, id string) (View, bool) {
	p := s.Place(id)
	if p == nil {
		return View{}, false
	}
	rows := []page.Action{
		{ID: Why, Key: "w", Tag: "why", Word: "why", Note: "this one, and why not the others"},
		{ID: Picture, Key: "p", Tag: "picture", Word: "layers", Note: "what lies on what, from inside to outside"},
		Leads[Damp],
		Leads[How],
	}
	if s.Plan.Stage == "not-framed" && !p.Stopped() {
		rows = append(rows, page.Action{ID: Change, Key: "c", Tag: "what can still change", Word: "change", Note: "what can still be changed before it is framed"})
	}
	rows = append(rows,
		page.Action{ID: OwnForm, Key: "o", Tag: "what matters here", Word: "own", Note: "what matters just here"},
		Leads[PlaceForm],
		page.Action{ID: NextPlace, Key: "left/right right n ctrl+n", Tag: "other place", Word: "next", Note: "the next place"},
		page.Action{ID: LastPlace, Key: "left"})
	for i := range rows {
		rows[i].Arg = id
	}
	return View{Step: AtLook, Actions: rows, Page: func(int) page.Page { return pages.ResultPage(s.Plan, *p, s.Options()) }}, true
}

// beside is the place before or after another, round and round.
func (s *Session) beside(id string, by int) Next {
	n := len(s.Plan.Places)
	at := slices.IndexFunc(s.Plan.Places, func(p plan.Place) bool { return p.Surface.ID == id })
	if at < 0 {
		return Next{}
	}
	return Next{Close: 1, Open: At{Place, s.Plan.Places[(at+by+n)%n].Surface.ID}}
}

// moneyView says what the plan costs, under the questions about money and after
// them.
func moneyView(s *Session, _ string) (View, bool) {
	return View{Step: AtMoney, Page: func(int) page.Page { return pages.MoneyPage(s.Plan, s.Options()) }, Actions: []page.Action{
		{ID: StepTo, Arg: StepNames[AtOrder], Word: "next", Note: "on to what would be bought"},
		{ID: Ladder, Key: "l ctrl+l", Tag: "what the next dollars buy", Word: "ladder"},
		{ID: Export, Word: "export", Note: export.Note},
		{ID: FindOut, Word: "find out", Note: findOut.Note},
	}}, true
}

// ladder is what the next dollars buy, once it was worked out.
type ladder struct {
	rungs  []plan.Rung
	cursor int
}

// openLadder works the ladder out and shows it. In a large house that takes
// seconds, and an enter typed meanwhile must take none of its lines.
func openLadder(s *Session, _ string) Next {
	a, now, how := s.Assess, s.Plan, s.stakes()
	return Next{Work: &Work{Doing: "Working out what the next dollars buy", Do: func() func() Next {
		var x ladder
		x.rungs = a.Ladder(now, how)
		return func() Next {
			x.cursor = plan.HereOn(x.rungs)
			s.ladder = x
			return Next{Open: At{ID: Rungs}, Unread: true}
		}
	}}}
}

func (s *Session) stakes() string { return s.Answered().Text(house.Budget, nil, "stakes") }

func rungsView(s *Session, _ string) (View, bool) {
	x := s.ladder
	var rows []page.Action
	for i, r := range x.rungs {
		head := s.System.MoneyAbout(r.Cost)
		label := fmt.Sprintf("%-8s %s more", head, s.System.MoneyAbout(r.Extra))
		switch {
		case i == 0 && r.Least:
			label = fmt.Sprintf("%-8s the cheapest", head)
		case i == 0:
			label = head
		}
		if r.Here {
			label += "   (the plan is here)"
		}
		var changes []string
		for _, c := range r.Changes {
			changes = append(changes, c.Label+": "+pages.SwapText(c.From, c.To, s.System))
		}
		rows = append(rows, page.Action{ID: TakeRung, Arg: fmt.Sprint(i), Label: label, Note: strings.Join(changes, "\n")})
	}
	return View{
		Step: AtMoney, Kind: Cursor, Move: "more or less money", Choose: "make it the plan", Cursor: x.cursor, Actions: rows,
		Page: func(int) page.Page {
			return pages.LadderPage(len(x.rungs), s.stakes())
		},
	}, true
}

// takeRung makes a line of the ladder the plan.
func takeRung(s *Session, arg string) Next {
	var at int
	if _, err := fmt.Sscan(arg, &at); err != nil || at >= len(s.ladder.rungs) {
		return Next{Close: 1}
	}
	if s.ladder.rungs[at].Here {
		return Next{Close: 1, Say: "That is the plan already."}
	}
	s.ladder.rungs[at].Take(s.List, func(q house.Question, v house.Answer) { s.Answered().Store(q, nil, v) })
	s.EditedHouse()
	return Next{Close: 1, Say: "The budget is now " + s.System.Money(s.Preferences().Budget) + ", to be spent."}
}
