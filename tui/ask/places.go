package ask

import (
	"fmt"

	"battwright/rules/house"
	"battwright/rules/report"
	"battwright/tui/session"
)

// places lists the places of the house: add, copy, delete, edit.
func (a *app) places() (stop, error) {
	return a.run(menu{name: "places", back: atHouse, head: a.placesHead, rows: a.placesRows})
}

func (a *app) placesHead() {
	a.talk.title("The places to insulate")
	a.talk.say("Proposed from the shape of the house. Sizes are guesses until you measure.")
	if len(a.s.House.Places) == 0 {
		a.talk.say("There is no place yet.")
	}
}

func (a *app) placesRows() []row {
	var rows []row
	for i := range a.s.House.Places {
		p := &a.s.House.Places[i]
		id := p.ID
		rows = append(rows, row{text: a.placeLine(p), do: func(string) (stop, error) { return here, a.placeForm(id) }})
	}
	rows = append(rows, row{word: "next", text: a.onwardTo(), do: func(string) (stop, error) { return a.onward() }},
		row{word: "add", text: "a place that is missing", do: func(string) (stop, error) { return a.addPlace() }})
	if len(a.s.House.Places) > 0 {
		rows = append(rows,
			row{word: "edit", arg: "number", text: "the answers of that place; the number alone does the same", do: a.editPlace},
			row{word: "copy", arg: "number", text: "that place a second time", do: a.copyPlace},
			row{word: "delete", arg: "number", text: "that place; you are asked first", do: a.deletePlace})
	}
	return append(rows,
		row{word: "propose", text: "again from the shape; only what is missing is added", do: func(string) (stop, error) { a.propose(); return here, nil }},
		row{word: "not covered", text: "what somebody else must be asked about", do: stays(a.notCovered)})
}

// placeLine is one place: name, size and how it is known, frame.
func (a *app) placeLine(p *house.Place) string {
	known := "assumed"
	if a.s.Answered().AreaGiven(p) {
		known = "your figure"
	}
	frame := ""
	if pl := a.s.Place(p.ID); pl != nil {
		frame = ", " + report.FrameText(*pl, a.s.System)
	}
	return fmt.Sprintf("%s: %s, %s%s", a.s.Label(p), a.s.System.Area(a.s.Answered().NetAreaFt2(p)), known, frame)
}

func (a *app) editPlace(arg string) (stop, error) {
	if p := a.placeFor("edit", arg); p != nil {
		return here, a.placeForm(p.ID)
	}
	return same, nil
}

func (a *app) copyPlace(arg string) (stop, error) {
	p := a.placeFor("copy", arg)
	switch {
	case p == nil:
		return same, nil
	case a.s.House.Duplicate(p.ID):
		a.sayChange()
	default:
		a.tooMany()
	}
	return here, nil
}

func (a *app) deletePlace(arg string) (stop, error) {
	p := a.placeFor("delete", arg)
	if p == nil {
		return same, nil
	}
	id := p.ID
	line, err := a.reply("Delete " + a.s.Label(p) + "? Type yes or no.")
	if err != nil {
		return here, err
	}
	if f := fold(line); f != "yes" && f != "y" {
		a.talk.say("Nothing is deleted.")
		return same, nil
	}
	a.s.House.Delete(id)
	a.sayChange()
	return here, nil
}

func (a *app) propose() {
	if len(house.Propose(a.s.List, a.s.House)) == 0 {
		a.talk.say(session.AllProposed)
		return
	}
	a.sayChange()
}

// sayChange works out what follows from a change of the list of places.
func (a *app) sayChange() {
	a.s.EditedHouse()
	a.edited()
}

func (a *app) tooMany() {
	a.problem(session.TooManyPlaces())
}

// addPlace offers the kinds of place; the answers of the new one are asked.
func (a *app) addPlace() (stop, error) {
	to, err := a.run(menu{name: "add", back: up, head: func() { a.talk.title("Add a place") }, rows: func() []row {
		var rows []row
		for _, id := range a.s.List.PlaceKinds() {
			k, _ := a.s.Catalog().Kind(id)
			rows = append(rows, row{text: k.Name, do: func(string) (stop, error) {
				if len(a.s.House.Places) >= house.MaxPlaces {
					a.tooMany()
					return up, nil
				}
				added := a.s.House.Add(id).ID
				a.sayChange()
				return up, a.placeForm(added)
			}})
		}
		return rows
	}})
	if to == up {
		to = here
	}
	return to, err
}

func (a *app) notCovered() {
	a.talk.title("Not covered")
	a.talk.say("Ask somebody else, so that nobody thinks these are done:")
	for _, n := range a.s.Plan.NotCovered {
		a.talk.hang("- ", n)
	}
}
