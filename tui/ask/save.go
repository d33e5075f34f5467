package ask

import (
	"errors"
	"io/fs"
	"strings"

	"battwright/rules/house"
	"battwright/rules/report"
	"battwright/tui/say"
)

// text asks for one line of text: a file name, a name. False means back.
func (a *app) text(hint, prompt string) (string, bool, error) {
	a.talk.say(hint + ". back leaves this.")
	for {
		line, err := a.line(prompt)
		if err != nil {
			return "", false, err
		}
		typed, quoted := unquoted(line)
		switch {
		case !quoted && wordIn(line) == wordBack:
			return "", false, nil
		case !quoted && wordIn(line) == wordHelp:
			a.talk.say(hint + ".")
		case typed == "":
			a.problem("type a name, or back.")
		default:
			return typed, true, nil
		}
	}
}

// save writes the person's own file. Where comments or somebody else's changes
// would be lost, or the file cannot be written, the name is asked again first.
func (a *app) save() error {
	s := a.s
	switch {
	case s.store == nil:
		a.problem(say.NoWriting)
		return nil
	case s.path == "":
		return a.saveAs()
	case s.store.Changed(s.path, s.onDisk):
		a.talk.say(say.ChangedByOther(s.path))
		return a.saveAs()
	case house.HasComments(s.onDisk):
		a.talk.say(say.DropsComments(s.path))
		return a.saveAs()
	}
	if err := s.store.Write(s.path, s.text(), true); err != nil {
		a.talk.say(say.NotSaved(err))
		return a.saveAs()
	}
	a.savedIn(s.path)
	return nil
}

func (a *app) savedIn(path string) {
	s := a.s
	had := !s.saved // else what is kept was never taken up, and stays
	if path != s.path {
		s.store.Belongs(path)
	}
	if s.walkBegun() {
		s.edits++ // no file of a house holds it: it is kept, for this file from now on
	}
	s.path, s.onDisk, s.saved = path, s.text(), true
	a.talk.say("Saved in " + path)
	if s.walkBegun() {
		s.failed = s.keep()
		a.sayKept()
		return
	}
	s.kept = s.edits // nothing is left to keep: the file has it all
	if !had {
		return
	}
	if err := s.store.Forget(); err != nil {
		a.problem(err.Error())
	}
}

func (a *app) saveAs() error {
	path, err := a.write("toml", say.PlainText, func() (string, error) { return a.s.text(), nil })
	if err == nil && path != "" {
		a.savedIn(path)
	}
	return err
}

// write asks for the name of a file about the house, and gives it the ending.
func (a *app) write(ext, note string, content func() (string, error)) (string, error) {
	return a.writeAs(say.NameOfFile("my-house."+ext)+". "+note, "."+ext, content)
}

// writeTo asks for the name of a file of another kind, writes it and says so.
// A name without the ending gets it.
func (a *app) writeTo(example, ending string, content func() (string, error)) (string, error) {
	if a.s.store == nil {
		a.problem(say.NoWriting)
		return "", nil
	}
	path, err := a.writeAs(say.NameOfFile(example), ending, content)
	if path != "" {
		a.talk.say(say.Written(path))
	}
	return path, err
}

// writes is a row that writes a file.
func (a *app) writes(example, ending string, content func() (string, error)) func(string) (stop, error) {
	return func(string) (stop, error) {
		_, err := a.writeTo(example, ending, content)
		return here, err
	}
}

// writeAs asks for a file name and writes to it. The same name a second time
// overwrites. It gives the name written to, empty when the person went back.
func (a *app) writeAs(hint, ending string, content func() (string, error)) (string, error) {
	sure := ""
	for {
		path, ok, err := a.text(hint, "File")
		if err != nil || !ok {
			return "", err
		}
		if sure != "" && saysYes(path) {
			path = sure // the answer to whether it may be overwritten
		}
		typed := path
		if !strings.HasSuffix(path, ending) {
			path += ending
		}
		text, err := content()
		if err == nil && a.s.store.Folder(typed) {
			err = say.IsFolder(typed)
		}
		if err == nil {
			err = a.writeOther(path, text, sure == path, ending == ".toml")
		}
		if err == nil {
			return path, nil
		}
		sure = ""
		if !errors.Is(err, fs.ErrExist) {
			a.problem(err.Error() + ".")
			continue
		}
		sure = path
		a.problem(err.Error() + ". Yes overwrites it.")
	}
}

// writeOther refuses to replace what the person's work is read from. The house
// itself is saved in its own file.
func (a *app) writeOther(path, text string, overwrite, saves bool) error {
	var inputs []string
	if a.s.path != "" && !saves {
		inputs = append(inputs, a.s.path)
	}
	for _, o := range a.s.offers {
		inputs = append(inputs, o.Path)
	}
	for _, in := range inputs {
		if a.s.store.Same(path, in) {
			return say.IsInput(path)
		}
	}
	return a.s.store.Write(path, text, overwrite)
}

// leave asks about unsaved answers; false means stay.
func (a *app) leave() (bool, error) {
	if a.s.saved || a.s.path == "" {
		return true, nil
	}
	for {
		a.talk.say(say.NotAllSaved + " Type yes, no or back.")
		line, _, err := a.talk.typed("Answer")
		if err != nil {
			return false, err
		}
		switch fold(line) {
		case "yes", "y":
			return a.saveAndLeave()
		case "no", "n", "quit":
			return true, nil
		case "back", "b", "stay":
			return false, nil
		}
		a.problem("type yes, no or back.")
	}
}

func (a *app) saveAndLeave() (bool, error) {
	err := a.save()
	return a.s.saved, err
}

// export writes the recommendation to a file.
func (a *app) export(string) (stop, error) {
	if a.s.store == nil {
		a.problem(say.NoWriting)
		return here, nil
	}
	to, err := a.run(menu{name: "export", back: up, head: func() { a.talk.title("Export the recommendation") }, rows: func() []row {
		var rows []row
		for _, f := range say.PlanFormats {
			rows = append(rows, row{text: "Write " + f.Name, do: func(string) (stop, error) {
				path, err := a.write(f.Ext, "The house itself is saved with save", func() (string, error) {
					return report.PlanFile(a.s.plan, a.ordered(), f.Ext, a.s.options(0))
				})
				if path == "" {
					return here, err
				}
				a.talk.say(say.Written(path))
				return up, err
			}})
		}
		return rows
	}})
	if to == up {
		to = here
	}
	return to, err
}
