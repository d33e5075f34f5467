package ask

import (
	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/print"
	"battwright/rules/report"
	"battwright/tui/session"
)

// finished is the walk through the finished work, place by place.
func (a *app) finished() (stop, error) {
	return a.run(menu{name: "finished", back: up, head: func() {
		a.talk.title("Finished work")
		a.talk.say(session.WalkIntro)
	}, rows: a.finishedRows})
}

func (a *app) finishedRows() []row {
	var rows []row
	for _, p := range a.s.WalkResult().Places {
		id := p.Plan.Surface.ID
		rows = append(rows, row{text: p.Plan.Surface.Label + ": " + report.FoundNote(p), do: func(string) (stop, error) { return here, a.walkPlace(id) }})
	}
	return append(rows,
		row{word: "result", text: "what was found, compared with the plan", do: stays(func() { a.readPage(a.foundPage()) })},
		row{word: "write", text: "what was found to a file: " + session.WalkFile, do: a.writeFound},
		row{word: "write result", text: "the result to a file, to print", do: a.writes("finished.txt", "", func() (string, error) { return print.Text(a.foundPage(), 0), nil })},
		row{word: "open", text: "a file of finished work. " + session.TakesPlace, do: a.openFound},
		row{word: "form", text: "a form to fill in by hand, to read here", do: stays(func() { a.readPage(report.FormPage(a.s.Job())) })},
		row{word: "write form", text: "that form to a file", do: a.writes("form.txt", "", func() (string, error) { return print.Text(report.FormPage(a.s.Job()), 0), nil })})
}

func (a *app) foundPage() page.Page {
	return report.FoundPage(a.s.Job(), a.s.WalkResult(), a.s.Options())
}

func (a *app) writeFound(string) (stop, error) {
	path, err := a.writeTo("finished.toml", "", func() (string, error) { return a.s.Walk().Text(), nil })
	if path != "" {
		a.s.Walk().Written()
	}
	return here, err
}

// walkPlace asks about one place of the walk. The questions are asked as
// everywhere; their answers go into the walk and not into the house. What can
// hurt people is said as soon as it is known, all of it at the end.
func (a *app) walkPlace(id string) error {
	label, said := id, map[string]bool{}
	if pl := a.s.Place(id); pl != nil {
		label = pl.Surface.Label
	}
	asks := &app{talk: a.talk, seen: a.seen, of: a}
	asks.s = a.s.OnWalk(func() {
		asks.sayKept()
		a.newlyFailing(id, said)
	})
	a.failing(id, func(r page.Row) { said[r.Text] = true })
	_, err := asks.form("Finished work: "+label, session.WalkHint+" Say don't know where you are not sure.", id, func() []house.Question { return a.s.Walk().QuestionsAt(a.s.Job(), id) })
	if err != nil {
		return err
	}
	if found, ok := a.s.Walk().JudgeAt(a.s.Job(), id); ok {
		a.talk.title(label + ", as found")
		a.blocks([]page.Block{{Rows: report.FoundRows(found, a.s.Options())}})
	}
	return nil
}

// newlyFailing says the points of a place that an answer made fail.
func (a *app) newlyFailing(id string, said map[string]bool) {
	now := map[string]bool{}
	a.failing(id, func(r page.Row) {
		now[r.Text] = true
		if !said[r.Text] {
			a.row(r, "")
		}
	})
	clear(said)
	for text := range now {
		said[text] = true
	}
}

func (a *app) failing(id string, do func(page.Row)) {
	found, ok := a.s.Walk().JudgeAt(a.s.Job(), id)
	if !ok {
		return
	}
	for _, r := range report.FoundRows(found, a.s.Options()) {
		if r.Kind == page.Text {
			do(r)
		}
	}
}

// openFound reads a file of finished work as far as possible. It asks first
// where that would take away what no file holds.
func (a *app) openFound(string) (stop, error) {
	path, text, ok, err := a.file(session.PathOfFile("finished.toml"))
	if err != nil || !ok {
		return here, err
	}
	if a.s.Walk().Unsaved() {
		line, err := a.reply(session.UnsavedWalk + ". Go on? Type yes or no.")
		if err != nil {
			return here, err
		}
		if !saysYes(line) {
			return here, nil
		}
	}
	taken, problems := a.s.OpenWalk(path, text)
	if !taken {
		a.mistakes(session.NotRead(path)+".", problems)
		return here, nil
	}
	if problems != nil {
		a.mistakes(session.AsFarAsPossible(path)+".", problems)
	}
	a.talk.say("Finished work: " + report.FoundVerdict(a.s.WalkResult()))
	a.sayKept()
	return here, nil
}
