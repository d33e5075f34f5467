package order

import (
	"fmt"
	"testing"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/testdata/demo"
)

func TestDump(t *testing.T) {
	c, err := catalog.Load(data.Files, nil)
	if err != nil {
		t.Fatal(err)
	}
	l := house.NewList(c)
	for _, n := range demo.Names() {
		h, err := house.Read(l, n, demo.Text(n))
		if err != nil {
			t.Fatal(err)
		}
		a := house.Answered{List: l, House: h}
		o := Make(plan.Make(a), a)
		for _, x := range o.Lines {
			fmt.Println("LINE", x.Product.ID, x.Facing, x.WidthIn, x.LengthIn, "stock", x.Stock, "packs", x.Packages, "spare", x.Spare, "cost", x.Cost, x.Places)
		}
		for _, g := range o.Goods {
			fmt.Println("GOODS", g.ID, g.Qty, g.Unit, g.Count, g.Cost, g.Places)
		}
		for _, g := range o.Gear {
			fmt.Println("GEAR", g.ID, g.Count, g.Cost)
		}
		for _, p := range o.Places {
			fmt.Println("PLACE", p.ID, p.Skipped, p.Problem, p.How, p.Notes, "ASSUMED", p.Assumed, p.Measured, p.Sizes, p.Hours, p.Money.Total)
			for _, l := range p.Layers {
				fmt.Println("   ", l.Product.ID, l.Stock, l.Packages, l.Bays, l.Cut, l.Joints)
			}
		}
		fmt.Printf("%+v\n\n", o.Money)
	}
}
