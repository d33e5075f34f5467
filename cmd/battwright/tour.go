package main

import (
	"fmt"
	"io"
	"strings"

	"battwright/rules/house"
	"battwright/rules/plan"
)

// runTour says what to look at in the demo house, and in which order.
func runTour(o options, e env) int {
	if len(o.files) > 0 {
		return usage(e, "tour takes nothing; it shows the demo house")
	}
	c, err := e.loadCatalog("")
	if err != nil {
		return fail(e, err)
	}
	l := house.NewList(c)
	h, err := demoHouse(l)
	if err != nil {
		return fail(e, err)
	}
	if _, err := io.WriteString(e.stdout, tourText(plan.Make(house.Answered{List: l, House: h}), l.Counts(true).House)); err != nil {
		return fail(e, err)
	}
	return exitDone
}

// tourText is the tour of a plan: its places are named as they really are, the
// commands are meant to be typed as they stand. answers is how many the rough look
// asks for.
func tourText(p plan.Plan, answers int) string {
	place, cautions := "a place", 0
	for _, x := range p.Places {
		if x.Choice != nil && len(x.Safety) > cautions {
			place, cautions = x.Surface.Label, len(x.Safety)
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "A TOUR in six steps, on the demo house (%s, %d places).\n", strings.TrimSuffix(p.Name, " (invented)"), len(p.Places))
	fmt.Fprintf(&b, `It is invented, and nothing you do to it can harm anything.

1. See the whole result once. Read the first page: each place in one line.
     battwright plan
2. Look at one place: %s. Use is what to buy, Gives is
   what the finished surface does, Care is what can hurt you.
3. Ask what it rests on: at the end stand what was assumed, what is not known
   yet and whether it MATTERS, and where the figures are from.
4. Change your mind, and see what changes:
     battwright plan --priority cost=5 --priority sound=0
5. A word you do not know:
     battwright words kraft
6. Then your own house: a rough look takes about %d answers, and
   "don't know" is an answer. In screens, or line by line:
     battwright
     battwright ask
   In the screens the demo house is in the first list: open it and press keys.
   w tells why, d the damp check, p draws the layers, b always goes back.

Your answers stay on this machine. Before you buy: measure, read the label,
and ask your building office.
`, place, answers)
	return b.String()
}
