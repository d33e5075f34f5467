package report

import (
	"fmt"

	"battwright/rules/inspect"
	"battwright/rules/strict"
)

// OpenOffersText holds the offers that are open against the plan as it is now,
// after what could not be read of their files.
func OpenOffersText(j inspect.Job, open []inspect.OpenOffer, o Options) string {
	var all []inspect.OfferResult
	var problems strict.Problems
	for _, x := range open {
		r, ps := x.Judge(j)
		all, problems = append(all, r), append(problems, ps...)
	}
	text := OffersText(j, all, o)
	if len(problems) > 0 {
		text = unread(problems, o) + "\n" + text
	}
	return text
}

// OpenOfferNote is an open offer in a few words.
func OpenOfferNote(j inspect.Job, x inspect.OpenOffer) string {
	r, problems := x.Judge(j)
	note := r.Offer.From() + ", " + plural(len(r.Questions), "question") + " to phone"
	if len(problems) > 0 {
		note += ", " + plural(len(problems), "line") + " could not be read"
	}
	return note
}

// OffersNote tells how many offers are open, or what there is to do.
func OffersNote(n int) string {
	if n > 0 {
		return fmt.Sprintf("%d open, up to %d side by side", n, MaxOffers)
	}
	return "open an offer file, or make one to fill in"
}

// unread lists what could not be read, each problem on lines of its own.
func unread(problems strict.Problems, o Options) string {
	t := &writer{width: o.Width}
	if t.width <= 0 {
		t.width = textWidth
	}
	t.line("COULD NOT BE READ")
	for _, p := range problems {
		t.hanging("", p.Error())
	}
	return t.String()
}
