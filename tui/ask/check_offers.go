package ask

import (
	"fmt"

	"battwright/rules/inspect"
	"battwright/rules/print"
	"battwright/rules/report"
	"battwright/tui/session"
)

// offers lays offers beside the plan. Picked by its number, one is read alone.
func (a *app) offers() (stop, error) {
	return a.run(menu{name: "offers", back: up, head: func() {
		a.talk.title("Offers")
		a.talk.say(session.OffersIntro(report.MaxOffers))
	}, rows: a.offerRows})
}

func (a *app) offerRows() []row {
	var rows []row
	for _, o := range a.s.Offers {
		rows = append(rows, row{text: o.Path + ": " + report.OpenOfferNote(a.s.Job(), o), do: stays(func() { a.readOffers([]inspect.OpenOffer{o}) })})
	}
	rows = append(rows,
		row{word: "open", text: "an offer file; one that is open already is read again", do: a.openOffer},
		row{word: "blank", text: session.OfferBlank, do: a.writes("offer.toml", "", func() (string, error) { return inspect.OfferTemplate(a.s.Job()), nil })})
	if len(a.s.Offers) == 0 {
		return rows
	}
	return append(rows,
		row{word: "compare", text: "all that are open, beside the plan", do: stays(func() { a.readOffers(a.s.Offers) })},
		row{word: "write", text: "that comparison to a file", do: a.writes("offers.txt", "", func() (string, error) {
			return print.Text(report.OpenOffersPage(a.s.Job(), a.s.Offers, a.s.Options()), 0), nil
		})},
		row{word: "close", arg: "number", text: "that offer", do: a.closeOffer})
}

func (a *app) readOffers(list []inspect.OpenOffer) {
	a.readPage(report.OpenOffersPage(a.s.Job(), list, a.s.Options()))
}

// openOffer reads an offer; one with mistakes is read as far as possible.
func (a *app) openOffer(string) (stop, error) {
	path, text, ok, err := a.file(session.PathOfFile("offer.toml"))
	if err != nil || !ok {
		return here, err
	}
	open := inspect.WithOffer(a.s.Offers, inspect.OpenOffer{Path: path, Text: text})
	if len(open) > report.MaxOffers {
		a.problem(fmt.Sprintf("%d offers are open: close one first, for instance: close 1.", report.MaxOffers))
		return same, nil
	}
	a.s.Offers = open
	a.readOffers(a.s.Offers)
	return here, nil
}

func (a *app) closeOffer(arg string) (stop, error) {
	n := a.numberFor("close", arg, len(a.s.Offers))
	if n == 0 {
		return same, nil
	}
	a.talk.say("Closed: " + a.s.Offers[n-1].Path)
	a.s.Offers = inspect.WithoutOffer(a.s.Offers, n-1)
	return here, nil
}
