package ask

import "battwright/tui/say"

// mayReplace asks before the house of a file, or a new one when target is
// empty, takes the place of answers that are in no file of the person.
func (a *app) mayReplace(target string) (bool, error) {
	lost := say.Replaced(a.s.saved, a.s.walkUnsaved(), a.s.store, target)
	if lost == "" {
		return true, nil
	}
	line, err := a.reply(lost + ". Go on? Type yes or no.")
	if err != nil || !saysYes(line) {
		return false, err
	}
	return a.setAside(lost), nil
}

// setAside keeps a copy of what is about to be replaced, and says where. False:
// there is none, so nothing is replaced.
func (a *app) setAside(lost string) bool {
	if a.s.store == nil {
		return true
	}
	text := ""
	if lost != say.KeptEarlier {
		text = a.s.keptText()
	}
	where, err := a.s.store.SetAside(text)
	if err != nil {
		a.problem(say.NoCopy + err.Error() + ".")
		return false
	}
	a.talk.say(say.CopyIn(where))
	return true
}

func saysYes(line string) bool {
	f := fold(line)
	return f == "yes" || f == "y"
}
