package pages

import (
	"fmt"

	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/strict"
)

// OpenOffersPage holds the offers that are open against the plan as it is now.
func OpenOffersPage(j inspect.Job, open []inspect.OpenOffer, o Options) page.Page {
	var all []inspect.OfferResult
	var problems strict.Problems
	for _, x := range open {
		r, ps := x.Judge(j)
		all, problems = append(all, r), append(problems, ps...)
	}
	return OffersPage(j, all, problems, o)
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
