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
	return saysYes(line), err
}

func saysYes(line string) bool {
	f := fold(line)
	return f == "yes" || f == "y"
}
