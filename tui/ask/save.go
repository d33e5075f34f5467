package ask

import (
	"errors"
	"io/fs"
	"strings"

	"battwright/rules/report"
	"battwright/tui/session"
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
	switch {
	case a.s.Store == nil:
		a.problem(session.NoWriting)
		return nil
	case a.s.Path == "":
		return a.saveAs()
	}
	if why := a.s.Save()(); why != "" {
		a.talk.say(why)
		return a.saveAs()
	}
	a.savedIn(a.s.Path)
	return nil
}

func (a *app) savedIn(path string) {
	forget := a.s.SavedIn(path, a.s.Text())
	a.talk.say("Saved in " + path)
	if a.s.WalkBegun() {
		a.sayKept()
		return
	}
	a.kept = a.s.Edits // nothing is left to keep: the file has it all
	if !forget {
		return
	}
	if err := a.s.Store.Forget(); err != nil {
		a.problem(err.Error())
	}
}

func (a *app) saveAs() error {
	path, err := a.write("toml", session.PlainText, func() (string, error) { return a.s.Text(), nil })
	if err == nil && path != "" {
		a.savedIn(path)
	}
	return err
}

// write asks for the name of a file about the house, and gives it the ending.
func (a *app) write(ext, note string, content func() (string, error)) (string, error) {
	return a.writeAs(session.NameOfFile("my-house."+ext)+". "+note, "."+ext, content)
}

// writeTo asks for the name of a file of another kind, writes it and says so.
// A name without the ending gets it.
func (a *app) writeTo(example, ending string, content func() (string, error)) (string, error) {
	if a.s.Store == nil {
		a.problem(session.NoWriting)
		return "", nil
	}
	path, err := a.writeAs(session.NameOfFile(example), ending, content)
	if path != "" {
		a.talk.say(session.Written(path))
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
		if err == nil {
			err = a.s.Write(typed, path, text, sure == path, ending == ".toml")()
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
	return a.s.Saved, err
}

// export writes the recommendation to a file.
func (a *app) export(string) (stop, error) {
	if a.s.Store == nil {
		a.problem(session.NoWriting)
		return here, nil
	}
	to, err := a.run(menu{name: "export", back: up, head: func() { a.talk.title("Export the recommendation") }, rows: func() []row {
		var rows []row
		for _, f := range session.PlanFormats {
			rows = append(rows, row{text: "Write " + f.Name, do: func(string) (stop, error) {
				path, err := a.write(f.Ext, "The house itself is saved with save", func() (string, error) {
					return report.PlanFile(a.s.Plan, a.s.Order(), f.Ext, a.s.Options())
				})
				if path == "" {
					return here, err
				}
				a.talk.say(session.Written(path))
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
