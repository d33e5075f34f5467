package ask

import (
	"fmt"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/chart"
	"battwright/tui/say"
)

// placePage is the result of one place, and what lies behind it.
func (a *app) placePage(id string) (stop, error) {
	to, err := a.run(menu{name: "place", back: up, head: func() { a.placeResult(id) }, rows: func() []row {
		show := func(word, text string, tell func(plan.Place)) row {
			return row{word: word, text: text, do: stays(func() {
				if pl := a.s.place(id); pl != nil && !a.sayFirst(*pl) {
					tell(*pl)
				}
			})}
		}
		rows := []row{
			show("why", "this one, and why not the others", a.tellWhy),
			show("layers", "what lies on what, from inside to outside", a.tellLayers),
			show("damp", "the damp check, month by month", a.tellDamp),
			show("how", "how to put it in, with all cautions", a.tellHow),
			{word: "edit", text: "the answers of this place", do: func(string) (stop, error) { return here, a.placeForm(id) }},
			{word: "own", text: "what matters just here", do: func(string) (stop, error) { return here, a.ownMatters(id) }},
			{word: "next", text: "the next place", do: func(string) (stop, error) { id = a.nextPlace(id); return here, nil }},
		}
		if a.s.plan.Stage == "not-framed" {
			rows = append(rows, show("change", "what can still be changed before it is framed", a.tellStillOpen))
		}
		return rows
	}})
	if to == up {
		to = here
	}
	return to, err
}

// sayFirst says all there is to say of a stopped place, or else what must be
// found out first, whatever was asked about it; false when nothing stops it.
func (a *app) sayFirst(pl plan.Place) bool {
	for _, l := range pl.StopLines() {
		a.talk.say(l)
	}
	if !pl.Stopped() {
		for _, l := range report.FindFirst(pl, a.s.options(0)) {
			a.talk.say(l)
		}
		return false
	}
	for _, c := range report.Cautions(pl, a.s.options(0)) {
		a.talk.say(c)
	}
	a.talk.say(report.Closing)
	return true
}

func (a *app) nextPlace(id string) string {
	for i, pl := range a.s.plan.Places {
		if pl.Surface.ID == id {
			return a.s.plan.Places[(i+1)%len(a.s.plan.Places)].Surface.ID
		}
	}
	return id
}

func (a *app) placeResult(id string) {
	pl := a.s.place(id)
	if pl == nil {
		a.talk.say("This place is gone.")
		return
	}
	o := a.s.options(0)
	a.talk.title(fmt.Sprintf("%s: %s, %s", pl.Surface.Label, a.s.system.Area(pl.Surface.AreaFt2), report.FrameText(*pl, a.s.system)))
	lines := report.PlaceLines(*pl, o)
	for i, l := range lines {
		a.talk.labelled(l.Label, l.Text)
		if i == max(0, len(pl.Stops)+len(pl.Asks())+len(pl.Settles())-1) {
			a.cautions(*pl)
		}
	}
	if pl.Choice != nil {
		for _, w := range report.WhyLines(*pl) {
			label := "For it"
			if strings.HasPrefix(w.Text, "- ") {
				label = "Against it"
			}
			a.talk.labelled(label, unsigned(w.Text))
		}
		a.talk.labelled("Sure", report.SureText(*pl, o))
	}
	n := 0
	for _, u := range a.s.plan.Unknown {
		if u.Place == id {
			n++
		}
	}
	if n > 0 {
		a.talk.labelled("Guess", say.NotKnownYet(n)+": edit asks them")
	}
}

// cautions names the three that can hurt first.
func (a *app) cautions(pl plan.Place) {
	titles := report.CautionTitles(pl)
	for i, c := range titles {
		if i == 3 {
			a.talk.labelled("Care", fmt.Sprintf("and %d more: how tells all of them", len(titles)-3))
			return
		}
		a.talk.labelled("Care", unsigned(c))
	}
}

func (a *app) tellWhy(pl plan.Place) {
	o := a.s.options(0)
	a.talk.title("Why")
	a.talk.say("Every reason names its rule in brackets.")
	for _, r := range report.RankRows(pl, o) {
		if r.Rank == "" {
			a.talk.labelled(r.Name, "no, "+r.Minus)
			continue
		}
		a.talk.hang(r.Rank+". ", r.Text())
	}
	if text := report.SureNumbers(pl, o); text != "" {
		a.talk.labelled("Sure", text)
	}
	for _, l := range append(report.MoreLines(pl, o), report.WhyNotLines(pl, o)...) {
		a.talk.labelled(l.Label, l.Text)
	}
	for _, e := range pl.Entries {
		a.talk.title(e.Name)
		if !e.Usable() {
			for _, why := range report.WhyOut(e) {
				a.talk.hang("- ", why)
			}
			continue
		}
		for _, l := range report.Detail(pl, e, o) {
			a.talk.labelled(l.Label, l.Text)
		}
		for _, h := range e.Verdict.For {
			a.talk.labelled("For", h.Text+" ["+h.Rule.ID+"]")
		}
		for _, h := range e.Verdict.Against {
			a.talk.labelled("Against", h.Text+" ["+h.Rule.ID+"]")
		}
	}
}

// tellLayers says the layers in the order in which they are built, with the
// temperature at the inside face of each in the coldest month.
func (a *app) tellLayers(pl plan.Place) {
	a.talk.title("Layers, from inside to outside")
	if pl.Choice == nil {
		a.talk.say("Nothing to tell: no blanket is planned here.")
		return
	}
	d := pl.Choice.Damp
	if d.Checked {
		a.talk.labelled("Inside", a.s.system.Temp(d.InC)+" in the coldest month")
	}
	at := 0
	for i, l := range pl.Choice.Stack(pl.Surface, a.s.catalog(), pl.Target) {
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
		a.talk.labelled("Outside", a.s.system.Temp(d.OutC))
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
			return a.s.system.Temp(d.ColdestC[j]), j + 1
		}
	}
	return "", from
}

func (a *app) tellDamp(pl plan.Place) {
	a.talk.title("Damp check")
	if pl.Choice == nil {
		a.talk.say(say.NothingDamp)
		return
	}
	d := pl.Choice.Damp
	a.talk.say(report.DampText(d, a.s.system))
	if !d.Checked {
		return
	}
	limit := a.s.catalog().Settings.MoldRH
	opts := chart.MonthsOpts{What: "Humidity " + d.Where, Text: a.s.system.Percent, Limit: limit, LimitLabel: "mold may grow above"}
	values := d.RH
	if d.PeakGM2 > 0 {
		values, opts = d.HeldGM2, chart.MonthsOpts{What: "Water held at the dampest planes", Text: a.s.system.Moisture, Held: true}
	}
	a.talk.say(chart.Pen{}.Months(values, opts, a.talk.width).Sentence)
	for _, l := range report.DampLimits(d, a.s.catalog().Settings, a.s.system) {
		a.talk.say(l)
	}
}

func (a *app) tellHow(pl plan.Place) {
	a.talk.title("Care")
	for _, c := range report.Cautions(pl, a.s.options(0)) {
		a.talk.hang("- ", c)
	}
	steps := report.Steps(pl)
	if len(steps) > 0 {
		a.talk.title("How")
	}
	for _, h := range steps {
		a.talk.hang("- ", h)
	}
	for _, n := range pl.Target.Notes {
		a.talk.labelled("Note", n)
	}
	a.talk.say(report.Closing)
}

// tellStillOpen compares what can still be changed about a place before it is
// framed.
func (a *app) tellStillOpen(pl plan.Place) {
	a.talk.title(say.StillOpen(pl.Surface.Label))
	list := a.s.assess.StillOpen(a.s.preferences(), pl.Surface.ID)
	if len(list) == 0 {
		a.talk.say(say.NothingOpen)
		return
	}
	a.talk.say(say.StillOpenHow)
	until := ""
	for _, x := range list {
		if x.Until != until {
			until = x.Until
			a.talk.title("Decide " + until)
		}
		now := ""
		if x.Now {
			now = " (as it is)"
		}
		a.talk.hang("- ", x.What+now+": "+report.StillOpenText(x, a.s.options(0)))
	}
}
