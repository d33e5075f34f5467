package ask

import "battwright/tui/session"

// keptChoice offers the answers kept for a file. It reads lines as they are,
// without the words that work everywhere: save would write the file anew and
// drop what is kept.
func (a *app) keptChoice(path string) (stop, error) {
	v, _ := a.s.View(session.At{ID: session.Kept, Arg: path})
	a.readPage(v.Page(a.talk.width))
	for {
		a.sayNumbered(v)
		line, _, err := a.talk.typed("Your choice")
		if err != nil {
			return here, err
		}
		switch n := countIn(fold(line)); {
		case n >= 1 && n <= len(v.Actions):
			if to, err := a.act(v.Actions[n-1]); err != nil || to > up {
				return to, err
			}
		case wordIn(line) == wordQuit:
			return here, errQuit
		case wordIn(line) != wordHelp:
			a.problem("type 1, 2 or quit.")
		}
	}
}

func (a *app) save() error {
	_, err := a.done(a.s.Save)
	return err
}

// leave asks about unsaved answers; false means stay.
func (a *app) leave() (bool, error) {
	if a.s.Saved || a.s.Path == "" {
		return true, nil
	}
	for {
		a.talk.say(session.NotAllSaved + " Type yes, no or back.")
		line, _, err := a.talk.typed("Answer")
		if err != nil {
			return false, err
		}
		switch fold(line) {
		case "yes", "y":
			err := a.save()
			return a.s.Saved, err
		case "no", "n", "quit":
			return true, nil
		case "back", "b", "stay":
			return false, nil
		}
		a.problem("type yes, no or back.")
	}
}

func saysYes(line string) bool {
	f := fold(line)
	return f == "yes" || f == "y"
}
