package pages

import (
	"battwright/rules/bill"
	"battwright/rules/order"
	"battwright/rules/plan"
	"battwright/rules/takeoff"
	"battwright/rules/units"
)

type jsonOrder struct {
	Schema   int              `json:"schema"`
	House    string           `json:"house,omitempty"`
	First    []string         `json:"find_out_first"`
	InPlace  string           `json:"in_place,omitempty"` // that blankets may lie already where it counts new ones
	Shopping []jsonLine       `json:"shopping"`
	Other    []jsonGoods      `json:"other"`
	Extras   []jsonGoods      `json:"extras"`
	Gear     []jsonGoods      `json:"gear"`
	Places   []jsonOrderPlace `json:"places"`
	Money    jsonOrderMoney   `json:"money"`
	Closing  string           `json:"closing"`
}

type jsonLine struct {
	Product    string      `json:"product"`
	Text       string      `json:"text"`
	Facing     string      `json:"facing"`
	WidthIn    float64     `json:"width_in"`
	LengthIn   float64     `json:"length_in"`
	Thickness  float64     `json:"thickness_in"`
	PerPackage int         `json:"pieces_per_package"`
	PackageFt2 float64     `json:"package_ft2"`
	FromLabel  bool        `json:"label_typed"`
	Pieces     int         `json:"pieces"`
	Spare      int         `json:"spare_pieces"`
	Packages   int         `json:"packages"`
	Have       int         `json:"have"`
	Buy        int         `json:"buy"`
	Returns    int         `json:"returns"`
	Ft3        float64     `json:"ft3"`
	Places     []string    `json:"places"`
	OnlyIf     []string    `json:"only_if_out,omitempty"` // those where what is in has to come out first
	FireMark   string      `json:"fire_mark,omitempty"`
	Patterns   []jsonCut   `json:"patterns,omitempty"`
	ShortOf    int         `json:"maybe_fewer,omitempty"`
	Quoted     bool        `json:"own_price"`
	Year       int         `json:"price_year,omitempty"`
	Known      string      `json:"price_known,omitempty"`
	Money      jsonCents   `json:"money"`
	From       []string    `json:"from"`
	PerPackUSD jsonDollars `json:"package_usd"`
}

type jsonDollars struct {
	Low     float64 `json:"low"`
	Typical float64 `json:"typical"`
	High    float64 `json:"high"`
}

type jsonGoods struct {
	ID     string     `json:"id"`
	Name   string     `json:"name"`
	Count  int        `json:"count"`
	Unit   string     `json:"unit"`
	Qty    float64    `json:"quantity"`
	Quote  bool       `json:"get_a_quote,omitempty"`
	Places []string   `json:"places,omitempty"`
	Note   string     `json:"note,omitempty"`
	Money  *jsonCents `json:"money,omitempty"`
	From   []string   `json:"from,omitempty"`
}

type jsonOrderPlace struct {
	ID          string          `json:"id"`
	Label       string          `json:"label"`
	First       []string        `json:"find_out_first"`
	Settle      []string        `json:"settle_first"`   // before anybody begins there
	Mind        []string        `json:"mind,omitempty"` // by whoever works there
	Damp        *jsonOrderDamp  `json:"damp,omitempty"`
	Board       []string        `json:"board_caution,omitempty"`
	Skipped     string          `json:"skipped,omitempty"`
	Problem     string          `json:"problem,omitempty"`
	Convention  string          `json:"convention,omitempty"`
	NotMeasured []string        `json:"not_measured,omitempty"`
	Disagree    string          `json:"sizes_disagree,omitempty"`
	Notes       []string        `json:"notes,omitempty"`
	Order       []jsonOrderLine `json:"order,omitempty"`
	HoursLow    float64         `json:"hours_low,omitempty"`
	Hours       float64         `json:"hours_typical,omitempty"`
	HoursHigh   float64         `json:"hours_high,omitempty"`
	Own         bool            `json:"own_work"`
	Money       jsonPlaceMoney  `json:"money"`
}

// jsonOrderDamp is the damp check of what is bought for a place, as the plan
// names it, and what must be settled before that.
type jsonOrderDamp struct {
	Verdict string `json:"verdict"`
	AllDamp bool   `json:"all_damp,omitempty"`
	Settle  string `json:"settle_first,omitempty"`
}

func jsonOrderDampOf(p order.Place) *jsonOrderDamp {
	if p.Damp.Word == "" {
		return nil // nothing is bought for it
	}
	return &jsonOrderDamp{p.Damp.Word, p.AllDamp, dampBeforeBuying(p)}
}

type jsonPlaceMoney struct {
	Blankets jsonCents `json:"blankets"`
	Extras   jsonCents `json:"extras"`
	Gear     jsonCents `json:"gear"`
	Labour   jsonCents `json:"labor"`
	Total    jsonCents `json:"total"`
}

type jsonOrderMoney struct {
	jsonPlaceMoney
	Year        int          `json:"price_year,omitempty"`
	Known       string       `json:"price_known,omitempty"`
	OwnPrices   int          `json:"places_at_own_prices"`
	Places      int          `json:"places"`
	Budget      *units.Cents `json:"budget_cents,omitempty"`
	Word        string       `json:"budget_word,omitempty"` // holds, may-hold, does-not-hold
	HoldsApart  *float64     `json:"budget_holds_share_apart,omitempty"`
	HoldsAsOne  *float64     `json:"budget_holds_share_together,omitempty"`
	Enough      *units.Cents `json:"enough_9_in_10_cents,omitempty"`
	WithoutCost []string     `json:"not_in_it,omitempty"`
}

// jsonOrderLine is a blanket of one place: the order group of the plan.
type jsonOrderLine struct {
	Product  string     `json:"product"`
	Facing   string     `json:"facing"`
	WidthIn  float64    `json:"width_in"`
	LengthIn float64    `json:"length_in"`
	Pieces   int        `json:"pieces"`
	Packages int        `json:"packages"`
	Spare    int        `json:"spare_pieces"`
	Across   bool       `json:"across,omitempty"`
	Counted  string     `json:"convention"`
	Guessed  bool       `json:"not_measured,omitempty"`
	Bays     []jsonBay  `json:"bays,omitempty"`
	Cut      []jsonSize `json:"cut,omitempty"`
	From     []string   `json:"from"`
}

type jsonBay struct {
	Kind string `json:"kind"`
	jsonSize
}

type jsonSize struct {
	WidthIn  float64 `json:"width_in"`
	LengthIn float64 `json:"length_in"`
	Count    int     `json:"count"`
}

type jsonCut struct {
	Count    int        `json:"count"`
	Slots    []jsonSlot `json:"cuts"`
	OffcutIn float64    `json:"left_in"`
}

type jsonSlot struct {
	Times  int        `json:"times"`
	Pieces []jsonSize `json:"side_by_side"`
}

// OrderJSON writes an order as one JSON object, indented or on one line.
func OrderJSON(o order.Order, p plan.Plan, opts Options, oneLine bool) ([]byte, error) {
	return encode(jsonOrderOf(o, p, opts), oneLine)
}

func jsonOrderOf(o order.Order, p plan.Plan, opts Options) jsonOrder {
	out := jsonOrder{
		Schema: Schema, House: p.Name, Closing: Closing, First: cleanAll(o.First), InPlace: clean(o.InPlace), Shopping: []jsonLine{}, Other: []jsonGoods{}, Extras: []jsonGoods{}, Gear: []jsonGoods{}, Places: []jsonOrderPlace{},
	}
	for _, l := range o.Lines {
		out.Shopping = append(out.Shopping, jsonLineOf(l, opts))
	}
	for _, g := range o.Goods {
		if g.Quote {
			out.Other = append(out.Other, jsonGoodsOf(g))
			continue
		}
		out.Extras = append(out.Extras, jsonGoodsOf(g))
	}
	for _, g := range o.Gear {
		out.Gear = append(out.Gear, jsonGoodsOf(g))
	}
	for _, place := range o.Places {
		out.Places = append(out.Places, jsonOrderPlace{
			ID: place.ID, Label: place.Label, First: append([]string{}, place.FindFirst...), Settle: append([]string{}, place.Settle...), Mind: place.Mind, Damp: jsonOrderDampOf(place), Board: place.Board, Skipped: place.Skipped, Problem: place.Problem, Convention: string(place.How), NotMeasured: place.Assumed, Disagree: place.Differ, Notes: place.Notes,
			Order: jsonOrderLines(place), HoursLow: round(place.Hours.Low, 1), Hours: round(place.Hours.Typical, 1), HoursHigh: round(place.Hours.High, 1), Own: place.Self,
			Money: jsonPlaceMoneyOf(place.Money),
		})
	}
	out.Money = jsonOrderMoneyOf(o.Money)
	return out
}

func jsonLineOf(l bill.Line, opts Options) jsonLine {
	out := jsonLine{
		Product: l.Product.ID, Text: lineText(l, opts.System), FireMark: fireMark(l), Facing: l.Facing, WidthIn: l.WidthIn, LengthIn: l.LengthIn, Thickness: l.Product.ThicknessIn,
		PerPackage: l.PerPackage, PackageFt2: round(l.PackageFt2, 2), FromLabel: l.Label, Pieces: l.Stock, Spare: l.Spare, Packages: l.Packages, Have: l.Have, Buy: l.Buy,
		Returns: l.Returns, Ft3: round(l.Ft3, 1), Places: l.Places, OnlyIf: l.OnlyIf, ShortOf: l.Short, Quoted: l.Quoted, Year: l.Year, Known: string(l.Ref.Known), Money: centsOf(l.Cost),
		PerPackUSD: jsonDollars{round(l.PerPack.Low, 2), round(l.PerPack.Typical, 2), round(l.PerPack.High, 2)}, From: []string{l.Product.Source},
	}
	if l.Ref.Source != "" {
		out.From = append(out.From, l.Ref.Source)
	}
	for _, p := range l.Patterns {
		c := jsonCut{Count: p.Count, OffcutIn: round(p.OffcutIn, 3)}
		for _, slot := range p.Slots {
			c.Slots = append(c.Slots, jsonSlot{slot.Count, jsonSizes(slot.Pieces)})
		}
		out.Patterns = append(out.Patterns, c)
	}
	return out
}

func jsonSizes(pieces []takeoff.Piece) []jsonSize {
	var out []jsonSize
	for _, q := range pieces {
		out = append(out, jsonSize{round(q.WidthIn, 3), round(q.LengthIn, 3), q.Count})
	}
	return out
}

func jsonGoodsOf(g bill.Goods) jsonGoods {
	out := jsonGoods{ID: g.ID, Name: g.Name, Count: g.Count, Unit: g.Unit, Qty: round(g.Qty, 1), Quote: g.Quote, Places: g.Places, Note: g.Note}
	if g.Priced {
		c := centsOf(g.Cost)
		out.Money = &c
	}
	if g.Ref.Source != "" {
		out.From = []string{g.Ref.Source}
	}
	return out
}

func jsonOrderLines(p order.Place) []jsonOrderLine {
	var out []jsonOrderLine
	for _, l := range p.Layers {
		x := jsonOrderLine{
			Product: l.Product.ID, Facing: l.Facing, WidthIn: l.WidthIn, LengthIn: l.LengthIn, Pieces: l.Stock, Packages: l.Packages, Spare: l.Spare, Across: l.Across,
			Counted: string(p.How), Guessed: p.NotMeasured(), Cut: jsonSizes(l.Cut), From: []string{l.Product.Source},
		}
		for _, b := range l.Bays {
			x.Bays = append(x.Bays, jsonBay{string(b.Kind), jsonSize{round(b.WidthIn, 3), round(b.HeightIn, 3), b.Count}})
		}
		out = append(out, x)
	}
	return out
}

func jsonPlaceMoneyOf(m bill.PlaceMoney) jsonPlaceMoney {
	return jsonPlaceMoney{centsOf(m.Blankets), centsOf(m.Extras), centsOf(m.Gear), centsOf(m.Labour), centsOf(m.Total)}
}

func jsonOrderMoneyOf(m bill.Money) jsonOrderMoney {
	out := jsonOrderMoney{jsonPlaceMoney: jsonPlaceMoneyOf(m.PlaceMoney), Year: m.Year, Known: string(m.Known), OwnPrices: m.Quoted, Places: m.Priced, WithoutCost: m.Without}
	if m.HasBudget {
		out.Budget, out.Word = &m.Budget, m.Word()
	}
	if m.Odds != nil {
		apart, together := round(m.Odds.Independent, 3), round(m.Odds.Together, 3)
		out.HoldsApart, out.HoldsAsOne = &apart, &together
	}
	if m.Enough != nil {
		most := max(m.Enough.Independent, m.Enough.Together)
		out.Enough = &most
	}
	return out
}

// orderOf is the order group of one place of the plan, when the order was made.
func orderOf(p plan.Place, o Options) []jsonOrderLine {
	if o.Order == nil {
		return nil
	}
	for _, place := range o.Order.Places {
		if place.ID == p.Surface.ID {
			return jsonOrderLines(place)
		}
	}
	return nil
}
