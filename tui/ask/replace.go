package ask

// mayReplace asks before another house takes the place of answers that are in
// no file of the person.
func (a *app) mayReplace() (bool, error) {
	s := a.s
	kept := false
	if s.saved && s.path == "" && s.edits == s.opened && s.store != nil {
		_, _, kept = s.store.Resume()
	}
	if s.saved && !kept {
		return true, nil
	}
	text := "Your answers are in no file of yours and would be replaced. Go on? Type yes or no."
	if s.saved {
		text = "Answers of an earlier time are kept and would be replaced. Go on? Type yes or no."
	}
	line, err := a.reply(text)
	if err != nil {
		return false, err
	}
	f := fold(line)
	return f == "yes" || f == "y", nil
}
