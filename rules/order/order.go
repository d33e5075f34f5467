// Package order is the bill of a plan as somebody buys and cuts by it: with what
// must be settled first, and why nothing is ordered for a place.
package order

import (
	"fmt"

	"battwright/rules/bill"
	"battwright/rules/candidate"
	"battwright/rules/house"
	"battwright/rules/plan"
)

// Order is the order of a whole house.
type Order struct {
	bill.Bill
	First []string // what must be settled for the whole house before anybody buys
	// InPlace says that blankets may lie already where it counts new ones.
	InPlace string
	Places  []Place
}

// Place is the order of one place.
type Place struct {
	bill.Place
	Skipped   string   // why nothing is ordered for it
	FindFirst []string // what must be found out before anybody buys for it or begins there
	Mind      []string // what whoever works there minds
	Settle    []string // what must be put right or answered before anybody begins there
	Idle      bool     // nothing is asked there: nothing is missing from the order
	Board     []string // what to know before its board is bought
	NearHeat  bool     // beside a chimney or pipe: no usual sealant
	Short     string   // by how much its blanket falls short of what is asked there
	Damp      candidate.Damp
	AllDamp   bool // gets damp, and no other blanket would be drier
}

// Make is the order of a plan. It never fails: a place that cannot be counted says
// why.
func Make(p plan.Plan, a house.Answered) Order {
	out := Order{First: p.First(), InPlace: p.InPlace(), Bill: p.BillOf(a)}
	for i := range p.Places {
		out.Places = append(out.Places, placeOf(&p.Places[i], out.Bill.Places[i], a))
	}
	return out
}

func placeOf(pl *plan.Place, counted bill.Place, a house.Answered) Place {
	c := a.List.Catalog()
	out := Place{
		Place: counted, FindFirst: pl.FindFirst(c, a.System), Settle: pl.SettleFirst(c, a.System), Mind: pl.Minds(a.System),
	}
	switch {
	case pl.Stopped():
		out.Skipped = pl.StopText()
	case pl.Surface.Held() != "":
		out.Skipped = pl.Surface.Held()
	case pl.Target.Idle:
		out.Skipped, out.Idle = "nothing is planned there: "+pl.Target.Text, true
	case pl.Choice == nil:
		out.Skipped = noneText(pl, a)
	case a.House.Place(pl.Surface.ID) == nil:
		out.Skipped = "no longer in the house"
	default:
		out.Board, out.NearHeat = pl.BoardCautions(), pl.Surface.Kind.BesideChimney
		out.Short = pl.ShortText(a.System)
		out.Damp, out.AllDamp = pl.Choice.Damp, pl.AllDamp()
	}
	return out
}

// noneText says why a place gets no blanket: none fits, or none may go there.
func noneText(pl *plan.Place, a house.Answered) string {
	for _, e := range pl.Entries {
		if e.NoFit == "" {
			return "no blanket may go there as it stands; the plan says why"
		}
	}
	if len(pl.Unfit) == 0 {
		return "no blanket may go there as it stands"
	}
	u := pl.Unfit[0]
	material, _ := a.List.Catalog().Material(u.Product.Material)
	return fmt.Sprintf("no blanket that is sold fits there as it stands (for instance %s %s: %s)", material.Name, a.System.R(u.Product.NominalR), u.Why)
}
