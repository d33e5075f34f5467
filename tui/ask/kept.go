package ask

// keptBeside asks first when a house file is opened while answers from an
// earlier time are kept that the file does not hold: the first change would
// replace them. It reads lines as they are, without the words that work
// everywhere: save would write the file anew and drop what is kept.
func (a *app) keptBeside(text string) (stop, error) {
	if a.s.store == nil {
		return a.firstStop(), nil
	}
	kept, path, ok := a.s.store.Resume()
	if !ok || kept == text {
		return a.firstStop(), nil
	}
	whose := path
	if whose == "" {
		whose = "a house that is in no file"
	}
	a.talk.title("Answers were kept that are not saved")
	a.talk.say("They are for " + whose + ". The program ended before they were saved.")
	for {
		a.talk.hang("1. ", "Go on with the kept answers")
		a.talk.hang("2. ", "Go on with the file as it is. The kept answers are dropped once you change something.")
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
			return a.firstStop(), nil
		case wordIn(line) == wordQuit:
			return here, errQuit
		case wordIn(line) != wordHelp:
			a.problem("type 1, 2 or quit.")
		}
	}
}
