package ask

import (
	"fmt"

	"battwright/rules/inspect"
	"battwright/rules/print"
	"battwright/rules/report"
	"battwright/tui/say"
)

// offers lays offers beside the plan. Picked by its number, one is read alone.
func (a *app) offers() (stop, error) {
	return a.run(menu{name: "offers", back: up, head: func() {
		a.talk.title("Offers")
		a.talk.say(say.OffersIntro(report.MaxOffers))
	}, rows: a.offerRows})
}

func (a *app) offerRows() []row {
	var rows []row
	for _, o := range a.s.offers {
		rows = append(rows, row{text: o.Path + ": " + report.OpenOfferNote(a.s.job(), o), do: stays(func() { a.readOffers([]inspect.OpenOffer{o}) })})
	}
	rows = append(rows,
		row{word: "open", text: "an offer file; one that is open already is read again", do: a.openOffer},
		row{word: "blank", text: say.OfferBlank, do: a.writes("offer.toml", "", func() (string, error) { return inspect.OfferTemplate(a.s.job()), nil })})
	if len(a.s.offers) == 0 {
		return rows
	}
	return append(rows,
		row{word: "compare", text: "all that are open, beside the plan", do: stays(func() { a.readOffers(a.s.offers) })},
		row{word: "write", text: "that comparison to a file", do: a.writes("offers.txt", "", func() (string, error) {
			return print.Text(report.OpenOffersPage(a.s.job(), a.s.offers, a.s.options(0)), 0), nil
		})},
		row{word: "close", arg: "number", text: "that offer", do: a.closeOffer})
}

func (a *app) readOffers(list []inspect.OpenOffer) {
	a.readPage(report.OpenOffersPage(a.s.job(), list, a.s.options(0)))
}

// openOffer reads an offer; one with mistakes is read as far as possible.
func (a *app) openOffer(string) (stop, error) {
	path, text, ok, err := a.file(say.PathOfFile("offer.toml"))
	if err != nil || !ok {
		return here, err
	}
	open := inspect.WithOffer(a.s.offers, inspect.OpenOffer{Path: path, Text: text})
	if len(open) > report.MaxOffers {
		a.problem(fmt.Sprintf("%d offers are open: close one first, for instance: close 1.", report.MaxOffers))
		return same, nil
	}
	a.s.offers = open
	a.readOffers(a.s.offers)
	return here, nil
}

func (a *app) closeOffer(arg string) (stop, error) {
	n := a.numberFor("close", arg, len(a.s.offers))
	if n == 0 {
		return same, nil
	}
	a.talk.say("Closed: " + a.s.offers[n-1].Path)
	a.s.offers = inspect.WithoutOffer(a.s.offers, n-1)
	return here, nil
}
