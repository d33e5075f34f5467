package ask

import "battwright/tui/say"

// keptBeside asks first when the program starts with a house file while answers
// from an earlier time are kept that the file does not hold.
func (a *app) keptBeside(text string) (stop, error) {
	if path, ok := say.KeptBeside(a.s.store, text); ok {
		return a.keptChoice(path)
	}
	return a.firstStop(), nil
}

// keptChoice offers the answers kept for a file. It reads lines as they are,
// without the words that work everywhere: save would write the file anew and
// drop what is kept.
func (a *app) keptChoice(path string) (stop, error) {
	a.talk.title(say.KeptTitle)
	a.talk.say(say.KeptWhose(path))
	for {
		a.talk.hang("1. ", say.KeptGoOn)
		a.talk.hang("2. ", say.Row{Label: say.KeptLeave(a.s.fresh != ""), Note: say.KeptNote(path, a.s.path)}.Text())
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
			if say.SameFile(path, a.s.path) && !a.setAside(say.KeptEarlier) {
				continue
			}
			if a.s.fresh != "" { // there is no such file: how to begin it is asked
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
