package ask

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"battwright/rules/page"
	"battwright/tui/session"
)

// act does what an action says.
func (a *app) act(x page.Action) (stop, error) {
	return a.done(func() session.Next { return a.s.Act(x) })
}

// done does something to the session, keeps and says what it changed, and goes on
// with what comes of it.
func (a *app) done(do func() session.Next) (stop, error) {
	edits := a.s.Edits
	n := do()
	if n.Say != "" {
		a.talk.say(n.Say)
		n.Say = ""
	}
	if a.s.Edits != edits {
		a.edited()
	}
	return a.next(n)
}

// next does what comes next. What it opens is said before it leads elsewhere.
func (a *app) next(n session.Next) (stop, error) {
	switch {
	case n.Problem != "":
		return same, nil
	case n.Confirm != nil:
		ask := n.Confirm.Ask
		if ask == "" {
			ask = n.Confirm.Lost + ". Go on?"
		}
		line, err := a.reply(ask + " Type yes or no.")
		if err != nil {
			return here, err
		}
		if !saysYes(line) {
			a.talk.say("Nothing is changed.")
			return same, nil
		}
		return a.done(n.Confirm.Then)
	case n.Work != nil:
		return a.done(n.Work.Do())
	case n.Prompt != nil:
		return a.prompt(*n.Prompt)
	case n.Quit:
		leave, err := a.leave()
		if err == nil && leave {
			err = errQuit
		}
		return here, err
	case n.Saved && !a.s.WalkBegun():
		a.kept = a.s.Edits // nothing is left to keep: the file has it all
	}
	to, err := a.opened(n)
	switch {
	case err != nil || to > up:
		return to, err
	case n.Go:
		return n.To, nil
	case n.Close > 0:
		return up, nil
	}
	return to, nil
}

// opened shows what comes up, if anything does.
func (a *app) opened(n session.Next) (stop, error) {
	switch f, isForm := a.s.Form(n.Open); {
	case n.Page != nil:
		a.readPage(*n.Page)
		return here, nil
	case isForm:
		to, err := a.form(f)
		if to == up {
			to = here
		}
		return to, err
	case n.Open.ID == session.Words:
		a.glossary("")
		return same, nil
	case n.Open.ID == session.Kept:
		return a.keptChoice(n.Open.Arg)
	case n.Open.ID != "":
		to, err := a.view(n.Open, up)
		if to == up {
			to = here
		}
		return to, err
	}
	return here, nil
}

// read says a view that is only read.
func (a *app) read(v session.View) (stop, error) {
	if v.Slow != nil {
		if work := v.Slow(); work != nil {
			if _, err := a.done(work.Do()); err != nil {
				return here, err
			}
		}
	}
	a.readPage(v.Page(a.talk.width - 2))
	return same, nil
}

// isRead reports whether nothing can be chosen from a view in words.
func isRead(v session.View) bool {
	return !slices.ContainsFunc(v.Actions, func(x page.Action) bool { return x.Word != "" || x.Label != "" })
}

// view shows a view until something chosen from it leads elsewhere. A view that
// is only read is read. Its page is said again when it changed.
func (a *app) view(at session.At, back stop) (stop, error) {
	var said page.Page
	for first := true; ; first = false {
		v, ok := a.s.View(at)
		if ok && v.Slow != nil && !isRead(v) {
			if work := v.Slow(); work != nil {
				if _, err := a.done(work.Do()); err != nil {
					return here, err
				}
				v, ok = a.s.View(at)
			}
		}
		switch {
		case !ok:
			a.readPage(session.Gone())
			return back, nil
		case isRead(v):
			return a.read(v)
		case first && v.First.ID != "":
			if cover, ok := a.s.View(v.First); ok {
				_, _ = a.read(cover)
			}
		}
		d := v.Page(a.talk.width - 2)
		if first || a.again || !reflect.DeepEqual(d, said) {
			a.readPage(d)
		} else {
			a.talk.title(d.Title)
		}
		said, a.again = d, false
		a.list(string(at.ID), v)
		to, err := a.chosen(v, back)
		if err != nil || to != here {
			return to, err
		}
	}
}

// prompt asks for one line of text. The same name a second time, or yes,
// overwrites a file.
func (a *app) prompt(p session.Prompt) (stop, error) {
	if a.s.Store == nil && (p.Write != nil || p.Read != nil) {
		a.problem(map[bool]string{true: session.NoWriting, false: session.NoReading}[p.Write != nil])
		return same, nil
	}
	if p.Why != "" {
		a.talk.say(p.Why)
	}
	again := ""
	for {
		typed, word, err := a.text(p, strings.TrimSuffix(p.Hint, "."))
		switch {
		case err != nil:
			return here, err
		case word == wordBack || word == wordSkip:
			return same, nil
		}
		problem := ""
		to, err := a.done(func() session.Next {
			n := a.s.Take(p, typed, &again)
			for n.Work != nil {
				n = n.Work.Do()()
			}
			problem = n.Problem
			return n
		})
		switch {
		case err != nil:
			return here, err
		case problem == "" && to == same: // what can be chosen may be something else now
			return here, nil
		case problem == "":
			return to, nil
		case p.Take != nil:
			problem = spokenProblem(problem)
		}
		a.problem(problem)
	}
}

// text reads one line of text, or back, or for a figure that may be left or taken
// away, skip; a text taken away is empty.
func (a *app) text(p session.Prompt, hint string) (typed string, w word, err error) {
	label := "File"
	if p.Write == nil && p.Read == nil {
		label = "Answer"
	}
	ways := ". back leaves this."
	if p.Optional {
		ways = ". An empty line leaves it as it is, clear takes it away."
	}
	a.talk.say(hint + ways)
	for {
		line, err := a.line(label)
		if err != nil {
			return "", noWord, err
		}
		typed, quoted := unquoted(line)
		w := wordIn(line)
		switch {
		case !quoted && (w == wordBack || p.Optional && (w == wordSkip || w == wordDone)):
			return "", wordBack, nil
		case !quoted && p.Optional && (w == wordClear || w == wordDontKnow):
			return "", noWord, nil
		case !quoted && w == wordHelp:
			a.talk.say(hint + ".")
		case typed == "":
			a.problem(fmt.Sprintf("%s Or type back.", p.Empty()))
		default:
			return typed, noWord, nil
		}
	}
}
