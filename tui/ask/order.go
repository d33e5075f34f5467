package ask

import (
	"slices"

	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/report"
	"battwright/rules/units"
	"battwright/tui/session"
)

// order says what would be bought, once and whenever it is asked for, and takes
// what labels and stores say.
func (a *app) order() (stop, error) {
	a.shopping()
	return a.run(menu{name: "order", back: atMoney, head: func() {
		a.talk.title("Blankets of the order, for price and label")
	}, rows: a.orderRows})
}

func (a *app) shopping() {
	a.blocks(report.ShoppingBlocks(a.s.Order(), a.s.Options()))
}

func (a *app) orderRows() []row {
	var rows []row
	for _, l := range a.s.Order().Lines {
		rows = append(rows, row{text: a.lineName(l) + ": " + a.quoteText(l), do: func(string) (stop, error) { return here, a.askQuote(l) }})
	}
	for _, l := range a.s.Order().Unused {
		rows = append(rows, row{text: a.lineName(l) + ": " + a.quoteText(l) + "; " + session.NotOrdered, do: func(string) (stop, error) { return here, a.askQuote(l) }})
	}
	return append(rows,
		row{word: "shopping list", text: "what to buy and what it costs, as it is now", do: stays(a.shopping)},
		row{word: "cut lists", text: "what to cut, place by place", do: stays(func() { a.blocks(report.CutBlocks(a.s.Order(), a.s.Options())) })},
		row{word: "asking sheet", text: "what to ask at the stores", do: stays(func() { a.blocks(report.AskBlocks(a.s.Order(), a.s.Plan, a.s.Options())) })},
		row{word: "measured", arg: "number", text: "the sizes of that place, as numbered under places, were measured", do: a.measured},
		row{word: "export", text: "this order, the asking sheet or the recommendation to a file", do: into(a.exportOrder)},
		row{word: "find out", text: session.FindOutNote, do: stays(a.findOut)},
		row{word: "next", text: "on to the check before anything is covered", do: goTo(atCheck)})
}

func (a *app) lineName(l order.Line) string {
	return report.OrderLineName(l, a.s.System)
}

// quoteOf is what is kept about a line, made if there is nothing yet.
func (a *app) quoteOf(l order.Line) house.Quote {
	if q, ok := house.FindQuote(a.s.House.Quotes, l.Product.ID, l.Facing); ok {
		return q
	}
	return house.Quote{Product: l.Product.ID, Facing: l.Facing}
}

func (a *app) quoteText(l order.Line) string {
	q := a.quoteOf(l)
	text := "no price typed yet"
	if q.Priced() {
		text = q.PriceText(a.s.System)
	}
	if !l.Label {
		text += ", label not typed"
	}
	return text
}

// quoteFigures are the figures of a label in the order they stand on it.
var quoteFigures = []struct {
	key  string
	name units.Prose
}{
	{"pieces", "Pieces in a package"},
	{"width_in", "Width, {inches|with its unit}"},
	{"length_in", "Length, {inches|with its unit}"},
	{"coverage_ft2", "Coverage of a package, {square feet|with its unit}"},
	{"have", "Packages you have already"},
}

// askQuote asks for the label of a blanket and its price. Nothing is kept
// until all of it makes sense together.
func (a *app) askQuote(l order.Line) error {
	q := a.quoteOf(l)
	a.talk.title(a.lineName(l))
	a.talk.say("From the label and the store. An empty line leaves a figure as it is, clear takes it away, back leaves all of it.")
	for _, f := range quoteFigures {
		question, ok := house.QuoteQuestion(f.key)
		if !ok {
			continue
		}
		q2, left, err := a.askFigure(q, question, f.name.In(a.s.System))
		if err != nil || left {
			return err
		}
		q = q2
	}
	q, left, err := a.askPrice(q, l)
	if err != nil || left {
		return err
	}
	if err := q.Check(a.s.System); err != nil {
		a.problem(sentence(err))
		return nil
	}
	a.s.House.SetQuote(q)
	a.sayChange()
	return nil
}

func (a *app) askFigure(q house.Quote, question house.Question, name string) (_ house.Quote, left bool, err error) {
	for {
		now := "not typed"
		if v := q.Figure(question.Key); v != 0 {
			now = a.shown(question, house.Number(v))
		}
		line, err := a.reply(name + ": " + now + ".")
		if err != nil {
			return q, false, err
		}
		switch wordIn(line) {
		case wordSkip, wordDone, wordDontKnow:
			return q, false, nil
		case wordBack:
			return q, true, nil
		case wordClear:
			return q.With(question.Key, 0), false, nil
		case wordHelp:
			a.talk.say("It stands on the label of the package.")
			continue
		}
		v, problem := answerTo(question, line)
		if problem == "" {
			problem = house.BareOnLabel(question, line, a.s.System)
		}
		if problem == "" {
			return q.With(question.Key, v.Number), false, nil
		}
		a.problem(problem)
	}
}

// askPrice asks for the price. A price per package says little without the
// label, so the size counted with is put beside it, to be corrected.
func (a *app) askPrice(q house.Quote, l order.Line) (_ house.Quote, left bool, err error) {
	for {
		line, err := a.reply(units.Prose("Price, like 62.50 a package or {1.15 per ft2}: ").In(a.s.System) + a.quoteText(l) + ".")
		if err != nil {
			return q, false, err
		}
		switch wordIn(line) {
		case wordSkip, wordDone, wordDontKnow:
			return q, false, nil
		case wordBack:
			return q, true, nil
		case wordClear:
			q.USD, q.Per = 0, ""
			return q, false, nil
		case wordHelp:
			a.talk.say("What the store asks, the face included.")
			continue
		}
		usd, per, err := house.ParsePrice(line, a.s.System)
		if err != nil {
			a.problem(sentence(err))
			continue
		}
		q.USD, q.Per = usd, per
		if per == house.PerPackage && q.PackageFt2() <= 0 {
			q.Pieces, q.WidthIn, q.LengthIn = l.PerPackage, l.WidthIn, l.LengthIn
			a.talk.say(session.UsualSize)
		}
		return q, false, nil
	}
}

// measured keeps that the sizes a place is counted by were measured.
func (a *app) measured(arg string) (stop, error) {
	p := a.placeFor("measured", arg)
	if p == nil {
		return same, nil
	}
	places := a.s.Order().Places
	at := slices.IndexFunc(places, func(o order.Place) bool { return o.ID == p.ID })
	if at < 0 {
		a.talk.say("Nothing of " + a.s.Label(p) + " is in the order, so nothing is counted by its sizes.")
		return same, nil
	}
	noted := p.MarkMeasured(places[at].SizeKeys) > 0
	if noted {
		a.talk.say("Noted as measured: " + a.s.Label(p))
		a.sayChange()
	}
	switch {
	case places[at].NotMeasured():
		a.talk.say("What was not answered yet cannot have been measured: type places, then the number of the place.")
	case !noted:
		a.talk.say("All sizes of " + a.s.Label(p) + " are noted as measured already.")
	}
	if noted {
		return here, nil
	}
	return same, nil
}

// exportOrder writes the order or the asking sheet to a file.
func (a *app) exportOrder() (stop, error) {
	return a.run(menu{name: "export order", back: up, head: func() { a.talk.title("Export the order") }, rows: func() []row {
		var rows []row
		for _, f := range session.OrderFormats {
			rows = append(rows, row{text: f.Name, do: a.writes(f.What+"."+f.Ext, "."+f.Ext, func() (string, error) {
				return report.OrderFile(a.s.Order(), a.s.Plan, f.What, f.Ext, a.s.Options())
			})})
		}
		return append(rows, row{word: "recommendation", text: "the plan itself", do: a.export})
	}})
}
