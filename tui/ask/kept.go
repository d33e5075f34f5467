package ask

import "battwright/tui/session"

// keptBeside asks first when the program starts with a house file while answers
// from an earlier time are kept that the file does not hold.
func (a *app) keptBeside(text string) (stop, error) {
	if path, ok := session.KeptBeside(a.s.Store, text); ok {
		return a.keptChoice(path)
	}
	return a.firstStop(), nil
}

// keptChoice offers the answers kept for a file. It reads lines as they are,
// without the words that work everywhere: save would write the file anew and
// drop what is kept.
func (a *app) keptChoice(path string) (stop, error) {
	a.talk.title(session.KeptTitle)
	a.talk.say(session.KeptWhose(path))
	for {
		a.talk.hang("1. ", session.KeptGoOn)
		a.talk.hang("2. ", session.Row{Label: session.KeptLeave(a.s.Fresh != ""), Note: session.KeptNote(path, a.s.Path)}.Text())
		line, _, err := a.talk.typed("Your choice")
		if err != nil {
			return here, err
		}
		switch {
		case countIn(fold(line)) == 1:
			if to := a.resume(); to != here {
				return to, nil
			}
			return a.firstStop(), nil
		case countIn(fold(line)) == 2:
			if session.SameFile(path, a.s.Path) && !a.setAside(session.KeptEarlier) {
				continue
			}
			if a.s.Fresh != "" { // there is no such file: how to begin it is asked
				return atStart, nil
			}
			return a.firstStop(), nil
		case wordIn(line) == wordQuit:
			return here, errQuit
		case wordIn(line) != wordHelp:
			a.problem("type 1, 2 or quit.")
		}
	}
}
