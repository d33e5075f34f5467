package ask

import (
	"fmt"

	"battwright/rules/candidate"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/chart"
)

// placePage is the result of one place, and what lies behind it.
func (a *app) placePage(id string) (stop, error) {
	to, err := a.run(menu{name: "place", back: up, head: func() { a.placeResult(id) }, rows: func() []row {
		show := func(word, text string, tell func(plan.Place)) row {
			return row{word: word, text: text, do: stays(func() {
				if pl := a.s.Place(id); pl != nil {
					tell(*pl)
				}
			})}
		}
		o := a.s.Options()
		rows := []row{
			show("why", "this one, and why not the others", func(pl plan.Place) { a.readPage(report.WhyPage(pl, o)) }),
			show("layers", "what lies on what, from inside to outside", a.tellLayers),
			show("damp", "the damp check, month by month", a.tellDamp),
			show("how", "how to put it in, with all cautions", func(pl plan.Place) { a.readPage(report.HowPage(pl, o)) }),
			{word: "edit", text: "the answers of this place", do: func(string) (stop, error) { return here, a.placeForm(id) }},
			{word: "own", text: "what matters just here", do: func(string) (stop, error) { return here, a.ownMatters(id) }},
			{word: "next", text: "the next place", do: func(string) (stop, error) { id = a.nextPlace(id); return here, nil }},
		}
		if a.s.Plan.Stage == "not-framed" {
			rows = append(rows, show("change", "what can still be changed before it is framed", a.tellStillOpen))
		}
		return rows
	}})
	if to == up {
		to = here
	}
	return to, err
}

func (a *app) nextPlace(id string) string {
	for i, pl := range a.s.Plan.Places {
		if pl.Surface.ID == id {
			return a.s.Plan.Places[(i+1)%len(a.s.Plan.Places)].Surface.ID
		}
	}
	return id
}

func (a *app) placeResult(id string) {
	pl := a.s.Place(id)
	if pl == nil {
		a.talk.say("This place is gone.")
		return
	}
	a.readPage(report.ResultPage(a.s.Plan, *pl, a.s.Options()))
}

// tellLayers says the layers in the order in which they are built, with the
// temperature at the inside face of each in the coldest month.
func (a *app) tellLayers(pl plan.Place) {
	page, stopped := report.PicturePage(pl, a.s.Options())
	a.readPage(page)
	if stopped {
		return
	}
	if pl.Choice == nil {
		a.talk.say("Nothing to tell: no blanket is planned here.")
		return
	}
	d := pl.Choice.Damp
	if d.Checked {
		a.talk.labelled("Inside", a.s.System.Temp(d.InC)+" in the coldest month")
	}
	at := 0
	for i, l := range pl.Choice.Stack(pl.Surface, a.s.Catalog(), pl.Target) {
		text := l.Name
		if l.Note != "" {
			text += ", " + l.Note
		}
		var temp string
		if temp, at = a.faceTemp(d, l.Name, at); temp != "" {
			text += "; " + temp + " at its inside face"
		}
		a.talk.hang(fmt.Sprintf("%d. ", i+1), text)
	}
	if d.Checked {
		a.talk.labelled("Outside", a.s.System.Temp(d.OutC))
	}
}

// faceTemp finds a layer of the picture in the damp check by name, from a
// plane on: both have the same layers in the same order.
func (a *app) faceTemp(d candidate.Damp, name string, from int) (text string, next int) {
	if !d.Checked {
		return "", from
	}
	for j := from; j < len(d.Layers) && j < len(d.ColdestC); j++ {
		if d.Layers[j] == name {
			return a.s.System.Temp(d.ColdestC[j]), j + 1
		}
	}
	return "", from
}

func (a *app) tellDamp(pl plan.Place) {
	page, nothing := report.DampPage(pl, a.s.Options())
	a.readPage(page)
	if nothing {
		return
	}
	d := pl.Choice.Damp
	limit := a.s.Catalog().Settings.MoldRH
	opts := chart.MonthsOpts{What: "Humidity " + d.Where, Text: a.s.System.Percent, Limit: limit, LimitLabel: "mold may grow above"}
	values := d.RH
	if d.PeakGM2 > 0 {
		values, opts = d.HeldGM2, chart.MonthsOpts{What: "Water held at the dampest planes", Text: a.s.System.Moisture, Held: true}
	}
	a.talk.say(chart.Pen{}.Months(values, opts, a.talk.width).Sentence)
	for _, l := range report.DampLimits(d, a.s.Catalog().Settings, a.s.System) {
		a.talk.say(l)
	}
}

// tellStillOpen compares what can still be changed about a place before it is
// framed.
func (a *app) tellStillOpen(pl plan.Place) {
	list := a.s.Assess.StillOpen(a.s.Preferences(), pl.Surface.ID)
	a.readPage(report.StillOpenPage(pl, list, a.s.Options()))
}
