package inspect

import (
	"slices"

	"battwright/rules/strict"
)

// OpenOffer is an offer file that was read: its text, so that it is judged
// again when the plan changes.
type OpenOffer struct{ Path, Text string }

// Judge reads the offer as far as possible and holds it against the plan of
// the job. The problems are what could not be read.
func (o OpenOffer) Judge(j Job) (OfferResult, strict.Problems) {
	offer, problems := ReadOffer(j, o.Path, o.Text)
	return JudgeOffer(j, offer), problems
}

// WithOffer lays one more offer beside those that are open; a file that is open
// already is taken as it is now. The list that is handed in is not changed.
func WithOffer(open []OpenOffer, o OpenOffer) []OpenOffer {
	out := slices.Clone(open)
	if at := slices.IndexFunc(out, func(x OpenOffer) bool { return x.Path == o.Path }); at >= 0 {
		out[at] = o
		return out
	}
	return append(out, o)
}

// WithoutOffer closes the offer of that number, counted from 0.
func WithoutOffer(open []OpenOffer, at int) []OpenOffer {
	return slices.Delete(slices.Clone(open), at, at+1)
}
