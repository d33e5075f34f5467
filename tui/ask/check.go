package ask

import (
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/print"
	"battwright/rules/report"
	"battwright/tui/session"
)

// check is the last step: what must be seen before anything is covered, then
// what is handed over, offered and done.
func (a *app) check() (stop, error) {
	a.cautionList()
	return a.run(menu{name: "check", back: atOrder, head: func() {
		a.talk.title(session.Check)
		a.talk.say(session.CheckIntro)
	}, rows: a.checkRows})
}

func (a *app) checkRows() []row {
	return []row{
		{word: "before covering", text: session.CoverNote, do: stays(a.cautionList)},
		{word: "sheets", text: "handover sheets: " + session.SheetsNote, do: into(a.sheets)},
		{word: "pages", text: "a page per person: " + session.PagesNote, do: into(a.pages)},
		{word: "offers", text: report.OffersNote(len(a.s.Offers)), do: into(a.offers)},
		{word: "finished work", text: report.WalkNote(a.s.Job(), a.s.Walk()), do: into(a.finished)},
		{word: "ready", text: session.ReadyNote, do: stays(func() { a.blocks(report.ReadyBlocks(a.s.Job(), a.s.WalkResult())) })},
		{word: "find out", text: session.FindOutNote, do: stays(a.findOut)},
		{word: "export", text: "the recommendation to a file", do: a.export},
		{word: "next", text: "the house at a glance again", do: goTo(atLook)},
	}
}

// into is a row that opens a menu below this one.
func into(below func() (stop, error)) func(string) (stop, error) {
	return func(string) (stop, error) {
		to, err := below()
		if to == up {
			to = here
		}
		return to, err
	}
}

func (a *app) cautionList() { a.blocks(report.CoverBlocks(a.s.Plan, a.s.Options())) }

// sheets reads the handover sheet of a place, or writes all of them.
func (a *app) sheets() (stop, error) {
	return a.run(menu{name: "sheets", back: up, head: func() {
		a.talk.title("Handover sheets")
		a.talk.say(session.SheetsIntro)
	}, rows: func() []row {
		var rows []row
		for _, p := range a.s.Plan.Places {
			id := p.Surface.ID
			rows = append(rows, row{text: p.Surface.Label + ": " + report.Glance(p, a.s.Options()), do: stays(func() {
				if pl := a.s.Place(id); pl != nil {
					a.blocks(report.SheetBlocks(a.s.Job(), *pl, a.s.Options()))
				}
			})})
		}
		return append(rows, row{word: "write", text: "all sheets to a file", do: a.writes("handover.txt", "", func() (string, error) {
			d, err := report.Handover{Job: a.s.Job()}.Page(a.s.Options())
			return print.Text(d, 0), err
		})})
	}})
}

// pages reads the page of a person, or writes it.
func (a *app) pages() (stop, error) {
	return a.run(menu{name: "pages", back: up, head: func() {
		a.talk.title("A page per person")
		a.talk.say(session.PagesIntro)
	}, rows: func() []row {
		var rows []row
		for _, person := range inspect.Persons() {
			rows = append(rows, row{text: inspect.PageTitle(person), do: stays(func() { a.readPerson(person) })})
		}
		return append(rows, row{word: "write", arg: "number", text: "that page to a file, for instance: write 1", do: a.writePage})
	}})
}

func (a *app) personPage(person string) (page.Page, error) {
	return report.Handover{Job: a.s.Job(), Person: person}.Page(a.s.Options())
}

func (a *app) readPerson(person string) {
	d, err := a.personPage(person)
	if err != nil {
		a.problem(sentence(err))
		return
	}
	a.readPage(d)
}

func (a *app) writePage(arg string) (stop, error) {
	persons := inspect.Persons()
	n := a.numberFor("write", arg, len(persons))
	if n == 0 {
		return same, nil
	}
	person := persons[n-1]
	return a.writes(inspect.PageFile(person), "", func() (string, error) {
		d, err := a.personPage(person)
		return print.Text(d, 0), err
	})("")
}
