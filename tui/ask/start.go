package ask

import (
	"strings"

	"battwright/rules/house"
	"battwright/testdata/demo"
	"battwright/tui/say"
)

func (a *app) welcome() {
	a.talk.say("Battwright, line by line. " + say.Purpose)
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
	case a.s.edits > 0 || a.s.path != "" && a.s.fresh == "" || len(a.s.house.Places) > 0:
		rows = append(rows, row{text: "Go on with " + a.houseName(), do: func(string) (stop, error) { return a.firstStop(), nil }})
	case a.s.store != nil:
		if _, path, ok := a.s.store.Resume(); ok {
			rows = append(rows, row{text: say.KeptAtStart(path).Text(), do: func(string) (stop, error) { return a.resume(), nil }})
		}
	}
	return append(rows,
		row{text: say.Rough(a.s.list).Text(), do: func(string) (stop, error) { return a.begin(true) }},
		row{text: say.Whole(a.s.list).Text(), do: func(string) (stop, error) { return a.begin(false) }},
		row{text: say.Demo.Text(), do: func(string) (stop, error) { return a.demo() }},
		row{text: say.Open.Label, do: func(string) (stop, error) { return a.openFile() }},
		row{text: say.Words.Label, do: stays(func() { a.glossary("") })},
		row{text: "Quit", do: func(string) (stop, error) {
			leave, err := a.leave()
			if err == nil && leave {
				err = errQuit
			}
			return here, err
		}},
	)
}

func (a *app) houseName() string {
	if n := a.s.answered().Text(house.Top, nil, "name"); n != "" {
		return n
	}
	if a.s.path != "" {
		return a.s.path
	}
	return "this house"
}

func (a *app) begin(rough bool) (stop, error) {
	path := a.s.fresh
	if yes, err := a.mayReplace(path); !yes || err != nil {
		return here, err
	}
	a.s.open(house.New(), path, "")
	a.s.rough = rough
	return atHouse, nil
}

func (a *app) demo() (stop, error) {
	if yes, err := a.mayReplace(""); !yes || err != nil {
		return here, err
	}
	h, err := house.Read(a.s.list, demo.Default, demo.Text(demo.Default))
	if err != nil {
		a.problem(say.NoDemo + ".")
		return here, nil
	}
	a.s.open(h, "", "")
	return atLook, nil
}

// resume takes the kept answers back, with the file they belong to.
func (a *app) resume() stop {
	text, path, ok := a.s.store.Resume()
	if !ok {
		a.problem("nothing was kept.")
		return here
	}
	h, err := house.Read(a.s.list, "kept answers", text)
	if err != nil {
		a.mistakes(say.KeptWrong+".", err)
		return here
	}
	onDisk := ""
	if path != "" {
		onDisk, _ = a.s.store.Read(path)
	}
	a.s.open(h, path, onDisk)
	a.s.found = nil // what is kept is newer than the file
	a.s.takeWalk(text)
	a.s.saved = false
	a.s.rough, a.s.sized = say.WayOf(text)
	if a.unsized() >= 0 {
		return atSizes
	}
	return a.firstStop()
}

// openFile reads a house file; a broken one leaves the open house alone.
func (a *app) openFile() (stop, error) {
	path, text, ok, err := a.file(say.PathOfFile("my-house.toml"))
	if err != nil || !ok {
		return here, err
	}
	h, err := house.Read(a.s.list, path, text)
	if err != nil {
		a.mistakes(path+" has mistakes. The house that was open is still open and unchanged.", err)
		return here, nil
	}
	if yes, err := a.mayReplace(path); !yes || err != nil {
		return here, err
	}
	a.s.open(h, path, text)
	if kept, ok := say.KeptBeside(a.s.store, text); ok && say.SameFile(kept, path) {
		return a.keptChoice(kept)
	}
	return a.firstStop(), nil
}

// file asks for a file and reads it; false means back.
func (a *app) file(hint string) (path, text string, ok bool, err error) {
	if a.s.store == nil {
		a.problem(say.NoReading)
		return "", "", false, nil
	}
	for {
		path, ok, err := a.text(hint, "File")
		if err != nil || !ok {
			return "", "", false, err
		}
		text, err := a.s.store.Read(path)
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
