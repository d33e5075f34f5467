package ask

import "battwright/tui/session"

// mayReplace asks before the house of a file, or a new one when target is
// empty, takes the place of answers that are in no file of the person.
func (a *app) mayReplace(target string) (bool, error) {
	lost := a.s.Replaced(a.s.Store, target)
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
	if a.s.Store == nil {
		return true
	}
	where, err := a.s.SetAside(lost)()
	if err != nil {
		a.problem(session.NoCopy + err.Error() + ".")
		return false
	}
	a.talk.say(session.CopyIn(where))
	return true
}

func saysYes(line string) bool {
	f := fold(line)
	return f == "yes" || f == "y"
}
