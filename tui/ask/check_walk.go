package ask

import (
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/print"
	"battwright/rules/report"
	"battwright/tui/say"
)

// finished is the walk through the finished work, place by place.
func (a *app) finished() (stop, error) {
	return a.run(menu{name: "finished", back: up, head: func() {
		a.talk.title("Finished work")
		a.talk.say(say.WalkIntro)
	}, rows: a.finishedRows})
}

func (a *app) finishedRows() []row {
	var rows []row
	for _, p := range a.s.walk().Judge(a.s.job()).Places {
		id := p.Plan.Surface.ID
		rows = append(rows, row{text: p.Plan.Surface.Label + ": " + report.FoundNote(p), do: func(string) (stop, error) { return here, a.walkPlace(id) }})
	}
	return append(rows,
		row{word: "result", text: "what was found, compared with the plan", do: stays(func() { a.readPage(a.foundPage()) })},
		row{word: "write", text: "what was found to a file: " + say.WalkFile, do: a.writeFound},
		row{word: "write result", text: "the result to a file, to print", do: a.writes("finished.txt", "", func() (string, error) { return print.Text(a.foundPage(), 0), nil })},
		row{word: "open", text: "a file of finished work. " + say.TakesPlace, do: a.openFound},
		row{word: "form", text: "a form to fill in by hand, to read here", do: stays(func() { a.readPage(report.FormPage(a.s.job())) })},
		row{word: "write form", text: "that form to a file", do: a.writes("form.txt", "", func() (string, error) { return print.Text(report.FormPage(a.s.job()), 0), nil })})
}

func (a *app) foundPage() page.Page {
	return report.FoundPage(a.s.job(), a.s.walk().Judge(a.s.job()), a.s.options(0))
}

func (a *app) writeFound(string) (stop, error) {
	path, err := a.writeTo("finished.toml", "", func() (string, error) { return a.s.walk().Text(), nil })
	if path != "" {
		a.s.walk().Written()
	}
	return here, err
}

// walkPlace asks about one place of the walk. The questions are asked as
// everywhere; their answers go into the walk and not into the house. What can
// hurt people is said as soon as it is known, all of it at the end.
func (a *app) walkPlace(id string) error {
	w := a.s.walk()
	label, said := id, map[string]bool{}
	if pl := a.s.place(id); pl != nil {
		label = pl.Surface.Label
	}
	asks := &app{talk: a.talk, seen: a.seen, of: a, s: &session{list: w.List, house: w.House, system: a.s.system}}
	asks.s.noted = func() {
		w.Changed()
		a.s.edits++ // kept with the answers about the house
		asks.s.failed = a.s.keep()
		a.newlyFailing(id, said)
	}
	a.failing(id, func(r page.Row) { said[r.Text] = true })
	_, err := asks.form("Finished work: "+label, say.WalkHint+" Say don't know where you are not sure.", id, func() []house.Question { return w.QuestionsAt(a.s.job(), id) })
	if err != nil {
		return err
	}
	if found, ok := w.JudgeAt(a.s.job(), id); ok {
		a.talk.title(label + ", as found")
		a.blocks([]page.Block{{Rows: report.FoundRows(found, a.s.options(0))}})
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
	found, ok := a.s.walk().JudgeAt(a.s.job(), id)
	if !ok {
		return
	}
	for _, r := range report.FoundRows(found, a.s.options(0)) {
		if r.Kind == page.Text {
			do(r)
		}
	}
}

// openFound reads a file of finished work as far as possible. It asks first
// where that would take away what no file holds.
func (a *app) openFound(string) (stop, error) {
	path, text, ok, err := a.file(say.PathOfFile("finished.toml"))
	if err != nil || !ok {
		return here, err
	}
	if a.s.walk().Unsaved() {
		line, err := a.reply(say.UnsavedWalk + ". Go on? Type yes or no.")
		if err != nil {
			return here, err
		}
		if !saysYes(line) {
			return here, nil
		}
	}
	taken, problems := a.s.walk().Open(a.s.job(), path, text)
	if !taken {
		a.mistakes(say.NotRead(path)+".", problems)
		return here, nil
	}
	a.s.edits++
	a.s.failed = a.s.keep()
	if len(problems) > 0 {
		a.mistakes(say.AsFarAsPossible(path)+".", problems)
	}
	a.talk.say("Finished work: " + report.FoundVerdict(a.s.walk().Judge(a.s.job())))
	a.sayKept()
	return here, nil
}

// job is the house with its plan as it is now.
func (s *session) job() inspect.Job { return inspect.NewJob(s.assess, s.plan, s.system) }

// walk gives the walk through the finished work with every place that has a
// plan now.
func (s *session) walk() *inspect.Walk {
	if s.found == nil {
		s.found = inspect.NewWalk(s.catalog())
	}
	s.found.Follow(s.job())
	return s.found
}

func (s *session) walkBegun() bool { return s.found != nil && s.found.Begun() }

func (s *session) walkUnsaved() bool { return s.found != nil && s.found.Unsaved() }

// keptText is what is kept: which way the questions go, the house, and the walk
// as far as it went.
func (s *session) keptText() string {
	out := say.KeptWay(s.rough, s.sized) + s.text()
	if s.found != nil {
		out += s.found.Kept()
	}
	return out
}

// wayChanged keeps the way with answers that are kept anyhow.
func (s *session) wayChanged() {
	if !s.saved {
		s.edits++
		s.failed = s.keep()
	}
}

// keptWalk takes the walk back when a file is opened whose answers were kept.
func (s *session) keptWalk(path string) {
	if s.store == nil || path == "" {
		return
	}
	if text, kept, ok := s.store.Resume(); ok && say.SameFile(kept, path) {
		s.takeWalk(text)
	}
}

// takeWalk takes the walk out of kept answers, where they hold one.
func (s *session) takeWalk(text string) {
	if house.FinishedWork(text) != "" {
		s.walk().TakeUp(s.job(), text)
	}
}
