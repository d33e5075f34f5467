package ask

import (
	"strings"

	"battwright/rules/house"
	"battwright/tui/session"
)

func (a *app) welcome() {
	a.talk.say("Battwright, line by line. " + session.Purpose)
	a.talk.say("You answer what you know; what you do not know is assumed and said. Nothing is sent anywhere.")
	a.talk.say("Type help at any question.")
}

// start is the first menu: go on, begin, or look around.
func (a *app) start() (stop, error) {
	return a.run(menu{name: "start", head: func() { a.talk.title("Start") }, rows: a.startRows})
}

func (a *app) startRows() []row {
	var rows []row
	switch {
	case a.s.Edits > 0 || a.s.Path != "" && a.s.Fresh == "" || len(a.s.House.Places) > 0:
		rows = append(rows, row{text: "Go on with " + a.s.Name(), do: func(string) (stop, error) { return a.firstStop(), nil }})
	case a.s.Store != nil:
		if _, path, ok := a.s.Store.Resume(); ok {
			rows = append(rows, row{text: session.KeptAtStart(path).Text(), do: func(string) (stop, error) { return a.resume(), nil }})
		}
	}
	return append(rows,
		row{text: session.Rough(a.s.List).Text(), do: func(string) (stop, error) { return a.begin(true) }},
		row{text: session.Whole(a.s.List).Text(), do: func(string) (stop, error) { return a.begin(false) }},
		row{text: session.Demo.Text(), do: func(string) (stop, error) { return a.demo() }},
		row{text: session.Open.Label, do: func(string) (stop, error) { return a.openFile() }},
		row{text: session.Words.Label, do: stays(func() { a.glossary("") })},
		row{text: "Quit", do: func(string) (stop, error) {
			leave, err := a.leave()
			if err == nil && leave {
				err = errQuit
			}
			return here, err
		}},
	)
}

func (a *app) begin(rough bool) (stop, error) {
	if yes, err := a.mayReplace(a.s.Fresh); !yes || err != nil {
		return here, err
	}
	a.s.Begin(rough)
	return atHouse, nil
}

func (a *app) demo() (stop, error) {
	if yes, err := a.mayReplace(""); !yes || err != nil {
		return here, err
	}
	h, err := a.s.Demo()
	if err != nil {
		a.problem(session.NoDemo + ".")
		return here, nil
	}
	a.open(h, "", "")
	return atLook, nil
}

// resume takes the kept answers back, with the file they belong to.
func (a *app) resume() stop {
	text, path, ok := a.s.Store.Resume()
	if !ok {
		a.problem("nothing was kept.")
		return here
	}
	onDisk := ""
	if path != "" {
		onDisk, _ = a.s.Store.Read(path)
	}
	if err := a.s.TakeUp(text, path, onDisk); err != nil {
		a.mistakes(session.KeptWrong+".", err)
		return here
	}
	if a.s.Unsized() >= 0 {
		return atSizes
	}
	return a.firstStop()
}

// openFile reads a house file; a broken one leaves the open house alone.
func (a *app) openFile() (stop, error) {
	path, text, ok, err := a.file(session.PathOfFile("my-house.toml"))
	if err != nil || !ok {
		return here, err
	}
	h, err := house.Read(a.s.List, path, text)
	if err != nil {
		a.mistakes(path+" has mistakes. The house that was open is still open and unchanged.", err)
		return here, nil
	}
	if yes, err := a.mayReplace(path); !yes || err != nil {
		return here, err
	}
	a.open(h, path, text)
	if kept, ok := session.KeptBeside(a.s.Store, text); ok && session.SameFile(kept, path) {
		return a.keptChoice(kept)
	}
	return a.firstStop(), nil
}

// file asks for a file and reads it; false means back.
func (a *app) file(hint string) (path, text string, ok bool, err error) {
	if a.s.Store == nil {
		a.problem(session.NoReading)
		return "", "", false, nil
	}
	for {
		path, ok, err := a.text(hint, "File")
		if err != nil || !ok {
			return "", "", false, err
		}
		text, err := a.s.Store.Read(path)
		if err == nil {
			return path, text, true, nil
		}
		a.problem(err.Error())
	}
}

// mistakes says everything that is wrong with a file, each on a line of its
// own.
func (a *app) mistakes(what string, err error) {
	a.talk.say(what)
	for _, l := range strings.Split(err.Error(), "\n") {
		a.talk.say(l)
	}
}
