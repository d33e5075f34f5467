package session

import (
	"fmt"
	"strings"

	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
)

// What can be done in the last step.
const (
	Check       page.ActionID = "check"
	Cover       page.ActionID = "cover"
	Sheets      page.ActionID = "sheets"
	Sheet       page.ActionID = "sheet"
	AllSheets   page.ActionID = "all sheets"
	Persons     page.ActionID = "persons"
	Person      page.ActionID = "person"
	Offers      page.ActionID = "offers"
	OpenOffer   page.ActionID = "open offer"
	BlankOffer  page.ActionID = "blank offer"
	AllOffers   page.ActionID = "all offers"
	OneOffer    page.ActionID = "one offer"
	CloseOffer  page.ActionID = "close offer"
	Finished    page.ActionID = "finished"
	Result      page.ActionID = "result"
	PaperForm   page.ActionID = "paper form"
	WriteFound  page.ActionID = "write found"
	OpenFound   page.ActionID = "open found"
	Ready       page.ActionID = "ready"
	Write       page.ActionID = "write"
	WritePerson page.ActionID = "write person"
)

func init() {
	add(map[page.ActionID]maker{
		Check: checkView, Cover: coverView, Sheets: sheetsView, Persons: personsView, Offers: offersView, Finished: finishedView,
		Sheet:     sheetView,
		AllSheets: printed(func(s *Session, _ string) page.Page { return s.handover("") }),
		Person:    printed(func(s *Session, who string) page.Page { return s.handover(who) }),
		AllOffers: printed(func(s *Session, _ string) page.Page { return pages.OpenOffersPage(s.Job(), s.Offers, s.Options()) }),
		OneOffer:  printed(oneOfferPage),
		Result:    printed(func(s *Session, _ string) page.Page { return pages.FoundPage(s.Job(), s.WalkResult(), s.Options()) }),
		PaperForm: printed(func(s *Session, _ string) page.Page { return pages.FormPage(s.Job()) }),
		Ready: func(s *Session, _ string) (View, bool) {
			return s.reading(AtCheck, blocks(func() []page.Block { return pages.ReadyBlocks(s.Job(), s.WalkResult()) }))
		},
	}, map[page.ActionID]doer{
		WritePerson: func(s *Session, who string) Next { return writePage(s, string(Person)+"|"+who) },
		Write:       writePage, OpenOffer: openOffer, CloseOffer: closeOffer, OpenFound: openFound,
		BlankOffer: func(s *Session, _ string) Next {
			return written("A file to fill in", "offer.toml", "", func() (string, error) { return inspect.OfferTemplate(s.Job()), nil })
		},
		WriteFound: func(s *Session, _ string) Next {
			n := written("Finished work", "finished.toml", "", func() (string, error) { return s.Walk().Text(), nil })
			n.Prompt.Written = func(path string) Next {
				s.Walk().Written()
				return Next{Say: Written(path)}
			}
			return n
		},
	})
}

// checkView is the last step: what is handed over, what is offered, what was
// done, and what must be seen before anything is covered.
func checkView(s *Session, _ string) (View, bool) {
	return View{
		Step: AtCheck, First: At{ID: Cover}, Page: titled("Hand over and check", "Write down what is agreed, compare offers, measure what was done. Do not cover a blanket before the insulation inspection."),
		Actions: []page.Action{
			{ID: Cover, Word: "before covering", Label: "Before anything is covered", Note: "the cautions and steps of every place"},
			{ID: Sheets, Word: "sheets", Label: "Handover sheets", Note: "what is agreed, place by place, with the points it is accepted by"},
			{ID: Persons, Word: "pages", Label: "A page per person", Note: "framer, electrician, plumber, installer, inspector, store, yourself"},
			{ID: Offers, Word: "offers", Label: "Offers", Note: pages.OffersNote(len(s.Offers))},
			{ID: Finished, Word: "finished work", Label: "Finished work", Note: pages.WalkNote(s.Job(), s.Walk())},
			{ID: Ready, Word: "ready", Label: "Ready to close", Note: "what to see, sign, photograph and keep"},
			{ID: FindOut, Word: "find out", Label: "Find-out list", Key: "f n ctrl+n", Tag: "find out"},
			{ID: Export, Word: "export", Label: "Export the recommendation", Key: "x", Tag: "export"},
			{ID: StepTo, Arg: StepNames[AtLook], Word: "next", Note: "the house at a glance again"},
		},
	}, true
}

// coverView gathers the cautions of the whole house before the walls close.
func coverView(s *Session, _ string) (View, bool) {
	return s.reading(AtCheck, blocks(func() []page.Block { return pages.CoverBlocks(s.Plan, s.Options()) }),
		page.Action{ID: FindOut, Key: "f n enter ctrl+n", Tag: "find out"}, page.Action{ID: Export, Key: "x", Tag: "export"})
}

func sheetsView(s *Session, _ string) (View, bool) {
	var rows []page.Action
	for _, p := range s.Plan.Places {
		rows = append(rows, page.Action{ID: Sheet, Arg: p.Surface.ID, Label: p.Surface.Label, Note: pages.Glance(p, s.Options())})
	}
	return View{Step: AtCheck, Kind: Things, Page: titled("Handover sheets", "One sheet for each place: what goes in, what comes first, what stays clear, the points it is accepted by."), Actions: append(rows,
		page.Action{ID: Write, Arg: string(AllSheets), Word: "write", Label: "Write all sheets to a file"})}, true
}

func sheetView(s *Session, id string) (View, bool) {
	return ofPlace(func(s *Session, p plan.Place, o pages.Options, _ int) page.Page {
		return page.Page{Blocks: pages.SheetBlocks(s.Job(), p, o)}
	})(s, id)
}

func personsView(*Session, string) (View, bool) {
	var rows []page.Action
	for _, who := range inspect.Persons() {
		rows = append(rows, page.Action{ID: Person, Arg: who, Label: inspect.PageTitle(who)})
	}
	return View{Step: AtCheck, Page: titled("A page per person", "What each must know, on one page; also fits a phone."), Actions: append(rows,
		page.Action{ID: WritePerson, Of: Person, Word: "write", Note: "that page to a file, for instance: write 1"})}, true
}

func (s *Session) handover(person string) page.Page {
	d, err := pages.Handover{Job: s.Job(), Person: person}.Page(s.Options())
	if err != nil {
		return *problems("", "", err)
	}
	return d
}

// files are the usual names of what is printed.
var files = map[page.ActionID]string{AllSheets: "handover.txt", AllOffers: "offers.txt", OneOffer: "offer.txt", Result: "finished.txt", PaperForm: "form.txt"}

// printed is a page that is also written to a file.
func printed(made func(s *Session, arg string) page.Page) maker {
	return func(s *Session, arg string) (View, bool) {
		v, _ := s.reading(AtCheck, func(int) page.Page { return made(s, arg) })
		v.Prints = true
		return v, true
	}
}

// writePage asks for a file and writes a page to it; arg names the page.
func writePage(s *Session, arg string) Next {
	id, of, _ := strings.Cut(arg, "|")
	at := At{page.ActionID(id), of}
	file, title := files[at.ID], "Write to a file"
	switch at.ID {
	case Person:
		file = inspect.PageFile(of)
	case AllSheets:
		title = "Handover sheets"
	}
	return written(title, file, "", func() (string, error) {
		v, ok := s.View(at)
		if !ok {
			return "", fmt.Errorf("there is nothing to write")
		}
		return print.Text(v.Page(0), 0), nil
	})
}

// offersView lays offers beside the plan.
func offersView(s *Session, _ string) (View, bool) {
	rows := []page.Action{
		{ID: OpenOffer, Word: "open", Label: "Open an offer file", Note: "one that is open already is read again"},
		{ID: BlankOffer, Word: "blank", Label: "Write an offer file to fill in", Note: "with a table for each place of the plan"},
	}
	if len(s.Offers) > 0 {
		rows = append(rows,
			page.Action{ID: AllOffers, Word: "compare", Label: "Compare", Note: "all that are open, beside the plan"},
			page.Action{ID: Write, Arg: string(AllOffers), Word: "write", Note: "that comparison to a file"})
	}
	for i, o := range s.Offers {
		rows = append(rows, page.Action{ID: OneOffer, Arg: fmt.Sprint(i), Label: o.Path, Note: pages.OpenOfferNote(s.Job(), o)})
	}
	if len(s.Offers) > 0 {
		rows = append(rows, page.Action{ID: CloseOffer, Of: OneOffer, Key: "x", Tag: "close that offer", Word: "close", Note: "that offer"})
	}
	intro := fmt.Sprintf("Up to %d offers beside the plan: what is missing, what does not add up, what to ask on the phone.", pages.MaxOffers)
	return View{Step: AtCheck, Kind: Things, Page: titled("Offers", intro), Actions: rows}, true
}

func (s *Session) offer(arg string) int {
	var at int
	if _, err := fmt.Sscan(arg, &at); err != nil || at >= len(s.Offers) {
		return -1
	}
	return at
}

func oneOfferPage(s *Session, arg string) page.Page {
	at := s.offer(arg)
	if at < 0 {
		return Gone()
	}
	return pages.OpenOffersPage(s.Job(), s.Offers[at:at+1], s.Options())
}

// openOffer reads an offer; one with mistakes is read as far as possible.
func openOffer(s *Session, _ string) Next {
	return read("Open an offer file", PathOfFile("offer.toml"), func(path, text string) Next {
		open := inspect.WithOffer(s.Offers, inspect.OpenOffer{Path: path, Text: text})
		if len(open) > pages.MaxOffers {
			return Next{Say: fmt.Sprintf("%d offers are open: close one first.", pages.MaxOffers)}
		}
		s.Offers = open
		return Next{Open: At{ID: AllOffers}}
	})
}

func closeOffer(s *Session, arg string) Next {
	at := s.offer(arg)
	if at < 0 {
		return Next{}
	}
	n := Next{Say: "Closed: " + s.Offers[at].Path}
	s.Offers = inspect.WithoutOffer(s.Offers, at)
	return n
}

// finishedView is the walk through the finished work, place by place.
func finishedView(s *Session, _ string) (View, bool) {
	var rows []page.Action
	for _, p := range s.WalkResult().Places {
		rows = append(rows, page.Action{ID: WalkForm, Arg: p.Plan.Surface.ID, Label: p.Plan.Surface.Label, Note: pages.FoundNote(p)})
	}
	return View{Step: AtCheck, Kind: Things, Page: titled("Finished work", "Room by room, while all is open: labels, thickness, gaps. Stop whenever you like; what you typed is kept."), Actions: append(rows,
		page.Action{ID: Result, Word: "result", Label: "The result"},
		page.Action{ID: WriteFound, Word: "write", Label: "Write it to a file", Note: "plain text that you can read, change and open again"},
		page.Action{ID: Write, Arg: string(Result), Word: "write result", Note: "the result to a file, to print"},
		page.Action{ID: OpenFound, Word: "open", Label: "Open a file of finished work"},
		page.Action{ID: PaperForm, Word: "form", Label: "A form to fill in by hand"},
		page.Action{ID: Write, Arg: string(PaperForm), Word: "write form", Note: "that form to a file"})}, true
}

// openFound reads a file of finished work as far as possible. It asks first
// where that would take away what no file holds.
func openFound(s *Session, _ string) Next {
	return read("Open finished work", PathOfFile("finished.toml")+". It takes the place of what was typed here.", func(path, text string) Next {
		take := func() Next { return s.takeFound(path, text) }
		if !s.WalkUnsaved() {
			return take()
		}
		return Next{Confirm: &Confirm{Lost: UnsavedWalk, Choice: "walk " + path, Then: take}}
	})
}

func (s *Session) takeFound(path, text string) Next {
	taken, wrong := s.Walk().Open(s.Job(), path, text)
	title := path + " was read as far as possible"
	if taken {
		s.Edits++
		s.Changed = ""
	} else {
		title = path + " could not be read; what was noted is still here"
	}
	if len(wrong) > 0 {
		return Next{Page: problems(title, "", wrong)}
	}
	return Next{Say: "Finished work: " + pages.FoundVerdict(s.WalkResult())}
}
