package session

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/bill"
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/units"
)

// What can be done with the order.
const (
	Order       page.ActionID = "order"
	Shopping    page.ActionID = "shopping"
	Cuts        page.ActionID = "cuts"
	CutList     page.ActionID = "cut list"
	CutAll      page.ActionID = "cut all"
	Measured    page.ActionID = "measured"
	AskSheet    page.ActionID = "asking sheet"
	Prices      page.ActionID = "prices"
	Quote       page.ActionID = "quote"
	TypePrice   page.ActionID = "price"
	TypeFigure  page.ActionID = "figure"
	OrderExport page.ActionID = "export order"
	WriteOrder  page.ActionID = "write order"
)

func init() {
	add(map[page.ActionID]maker{
		Order: orderView, Shopping: shoppingView, Cuts: cutsView, CutList: cutListView, CutAll: cutAllView, AskSheet: askView, Prices: pricesView, Quote: quoteView, OrderExport: orderExportView,
	}, map[page.ActionID]doer{
		Measured: measured, TypePrice: typePrice, TypeFigure: typeFigure, WriteOrder: writeOrder,
	})
}

// orderView is the shopping list, and the ways on from it.
func orderView(s *Session, _ string) (View, bool) {
	v, _ := shoppingView(s, "")
	v.Actions = []page.Action{
		{ID: Shopping, Word: "shopping list", Note: "what to buy and what it costs, as it is now"},
		{ID: Cuts, Key: "c", Tag: "cut lists", Word: "cut lists", Note: "what to cut, place by place, and that its sizes were measured"},
		{ID: AskSheet, Key: "a", Tag: "asking sheet", Word: "asking sheet", Note: "what to ask at the stores"},
		{ID: Prices, Key: "p", Tag: "prices and labels", Word: "prices", Note: "what the stores ask and what the labels say"},
		{ID: OrderExport, Key: "x", Tag: "export", Word: "export", Note: "this order, the asking sheet or the recommendation to a file"},
		{ID: FindOut, Word: "find out", Note: findOut.Note},
		{ID: StepTo, Arg: StepNames[AtCheck], Key: "n enter ctrl+n", Tag: "check", Word: "next", Note: "on to the check before anything is covered"},
	}
	return v, true
}

func shoppingView(s *Session, _ string) (View, bool) {
	return s.reading(AtOrder, blocks(func() []page.Block { return pages.ShoppingBlocks(s.Order(), s.Options()) }))
}

// askView is what is carried to the stores.
func askView(s *Session, _ string) (View, bool) {
	return s.reading(AtOrder, blocks(func() []page.Block { return pages.AskBlocks(s.Order(), s.Plan, s.Options()) }),
		page.Action{ID: Prices, Key: "p", Tag: "prices and labels"}, page.Action{ID: OrderExport, Key: "x", Tag: "export"})
}

// cutsView picks the cut list of a place.
func cutsView(s *Session, _ string) (View, bool) {
	var rows []page.Action
	for _, p := range s.Order().Places {
		note := ""
		switch {
		case p.Skipped != "":
			note = "nothing ordered"
		case p.Problem != "":
			note = "NOT COUNTED"
		case p.NotMeasured():
			note = "NOT MEASURED"
		}
		rows = append(rows, page.Action{ID: CutList, Arg: p.ID, Label: p.Label, Note: note})
	}
	return View{Step: AtOrder, Kind: Things, Page: titled("Cut lists", "One a place, to follow with a knife. The last tells how to cut each blanket so that least is wasted."), Actions: append(rows,
		page.Action{ID: CutList, Label: "How to cut each blanket"},
		page.Action{ID: CutAll, Word: "all", Note: "all of them, one after the other"},
		page.Action{ID: Measured, Of: CutList, Word: "measured", Note: "the sizes of that place were measured"})}, true
}

// cutListView is the cut list of one place; without a place, how to cut.
func cutListView(s *Session, place string) (View, bool) {
	v, _ := s.reading(AtOrder, blocks(func() []page.Block {
		out := slices.DeleteFunc(pages.CutBlocks(s.Order(), s.Options()), func(b page.Block) bool { return b.Place != place })
		if len(out) == 0 {
			b := page.Block{Rows: []page.Row{{Tone: page.Quiet, Text: "Nothing is cut: every blanket goes in whole, or only areas are known."}}}
			return []page.Block{b}
		}
		return out
	}))
	if place != "" {
		v.Actions = []page.Action{{ID: Measured, Arg: place, Key: "m", Tag: "I measured these"}}
	}
	return v, true
}

func cutAllView(s *Session, _ string) (View, bool) {
	return s.reading(AtOrder, blocks(func() []page.Block { return pages.CutBlocks(s.Order(), s.Options()) }))
}

// measured keeps that the sizes a place is counted by were measured. What was
// never answered cannot have been.
func measured(s *Session, id string) Next {
	p := s.House.Place(id)
	places := s.Order().Places
	at := slices.IndexFunc(places, func(o order.Place) bool { return o.ID == id })
	if p == nil || at < 0 {
		return Next{}
	}
	added := p.MarkMeasured(places[at].SizeKeys) > 0
	if added {
		s.EditedHouse()
	}
	switch {
	case places[at].NotMeasured():
		return Next{Say: "Not answered yet, so not measured: answer it in the form of the place, under places."}
	case added:
		return Next{Say: "Noted as measured: " + s.Label(p)}
	}
	return Next{Say: "All sizes of " + s.Label(p) + " are noted as measured already."}
}

// pricesView lists the blankets of the order: what their labels and the stores
// say goes in here.
func pricesView(s *Session, _ string) (View, bool) {
	made := s.Order()
	var rows []page.Action
	for i, l := range slices.Concat(made.Lines, made.Unused) {
		note := s.quoteNote(l)
		if i >= len(made.Lines) {
			note += "; not in the order as the plan is now"
		}
		rows = append(rows, page.Action{ID: Quote, Arg: lineID(l), Label: pages.OrderLineName(l, s.System), Note: note})
	}
	if len(rows) == 0 {
		rows = append(rows, page.Action{ID: Order, Label: "Nothing is ordered yet"})
	}
	return View{Step: AtOrder, Kind: Things, Page: titled("Prices and labels", "Type what came back from the stores. The plan and the order are worked out again at once; the face of a blanket is in its price."), Actions: rows}, true
}

// lineID names a line of the order by what its label is kept for.
func lineID(l bill.Line) string { return l.Product.ID + " " + l.Facing }

// quoted finds a line again with what is kept about it, made if there is nothing
// yet; key is the figure that an action is about.
func (s *Session) quoted(arg string) (l bill.Line, q house.Quote, key string, ok bool) {
	arg, key, _ = strings.Cut(arg, "|")
	made := s.Order()
	for _, l := range slices.Concat(made.Lines, made.Unused) {
		if lineID(l) != arg {
			continue
		}
		if q, ok := house.FindQuote(s.House.Quotes, l.Product.ID, l.Facing); ok {
			return l, q, key, true
		}
		return l, house.Quote{Product: l.Product.ID, Facing: l.Facing}, key, true
	}
	return bill.Line{}, house.Quote{}, "", false
}

func (s *Session) quoteNote(l bill.Line) string {
	_, q, _, _ := s.quoted(lineID(l))
	note := "no price typed yet"
	if q.Priced() {
		note = q.PriceText(s.System)
	}
	if !l.Label {
		note += ", label not typed"
	}
	if q.Have > 0 {
		note += fmt.Sprintf(", you have %d", q.Have)
	}
	return note
}

// figure is one figure of a label.
type figure struct {
	key, name string
	hint      units.Prose
}

// labelFigures are they in the order they stand on it.
var labelFigures = []figure{
	{"pieces", "Pieces in a package", "A whole number, from the label."},
	{"width_in", "Width", "{In inches|With its unit}, from the label."},
	{"length_in", "Length", "{In inches|With its unit}, from the label."},
	{"coverage_ft2", "Coverage of a package", "{In square feet|With its unit}, from the label."},
	{"have", "Packages you have already", "A whole number. They are taken off the order."},
}

// quoteView shows one label; each line of it can be typed.
func quoteView(s *Session, arg string) (View, bool) {
	l, q, _, ok := s.quoted(arg)
	if !ok {
		return View{}, false
	}
	price := "not typed; ours: " + s.System.MoneyRange(units.CentsOver(l.PerPack, 1)) + " a package"
	if q.Priced() {
		price = q.PriceText(s.System)
	}
	rows := []page.Action{{ID: TypePrice, Arg: arg, Label: "Price", Note: price}}
	for _, f := range labelFigures {
		note := "not typed"
		if v := q.Figure(f.key); v != 0 {
			question, _ := house.QuoteQuestion(f.key)
			note = question.Show(house.Number(v), s.System)
		}
		rows = append(rows, page.Action{ID: TypeFigure, Arg: arg + "|" + f.key, Label: f.name, Note: note})
	}
	title := fmt.Sprintf("%s, %s", l.Material.Name, s.System.R(l.Product.NominalR))
	return View{Step: AtOrder, Kind: Things, Page: titled(title, "Empty takes a figure away again."), Actions: rows}, true
}

// typePrice asks for a price. A price per package says little without the label,
// so the size counted with is written down beside it, to be corrected.
func typePrice(s *Session, arg string) Next {
	hint := units.Prose("Like 62.50 a package, or {1.15 per ft2}. Empty: no price.").In(s.System)
	return Next{Prompt: &Prompt{Title: "Price", Hint: hint, Optional: true, Take: func(typed string) (Next, string) {
		l, q, _, _ := s.quoted(arg)
		q.USD, q.Per = 0, ""
		var n Next
		if typed != "" {
			usd, per, err := house.ParsePrice(typed, s.System)
			if err != nil {
				return Next{}, Refusal(err)
			}
			q.USD, q.Per = usd, per
			if per == house.PerPackage && q.PackageFt2() <= 0 {
				q.Pieces, q.WidthIn, q.LengthIn = l.PerPackage, l.WidthIn, l.LengthIn
				n.Say = "The usual size of a package was put beside the price: compare it with the label."
			}
		}
		return n, s.keepQuote(q)
	}}}
}

func typeFigure(s *Session, arg string) Next {
	_, _, key, _ := s.quoted(arg)
	question, ok := house.QuoteQuestion(key)
	at := slices.IndexFunc(labelFigures, func(f figure) bool { return f.key == key })
	if at < 0 || !ok {
		return Next{}
	}
	f := labelFigures[at]
	return Next{Prompt: &Prompt{Title: f.name, Hint: f.hint.In(s.System) + " Empty: not known.", Optional: true, Take: func(typed string) (Next, string) {
		_, q, _, _ := s.quoted(arg)
		if problem := house.BareOnLabel(question, typed, s.System); problem != "" {
			return Next{}, problem
		}
		a, err := question.Parse(typed)
		switch {
		case err != nil:
			return Next{}, Refusal(err)
		case a.State == house.Unknown:
			a = house.Answer{}
		}
		return Next{}, s.keepQuote(q.With(key, a.Number))
	}}}
}

// keepQuote keeps what was typed, when it makes sense together.
func (s *Session) keepQuote(q house.Quote) (problem string) {
	if err := q.Check(s.System); err != nil {
		return Refusal(err)
	}
	s.House.SetQuote(q)
	s.EditedHouse()
	return ""
}

func orderExportView(*Session, string) (View, bool) {
	var rows []page.Action
	for i, f := range OrderFormats {
		rows = append(rows, page.Action{ID: WriteOrder, Arg: fmt.Sprint(i), Label: f.Name})
	}
	return View{Step: AtOrder, Page: titled("Export the order", "Write it to a file to carry along."), Actions: append(rows,
		page.Action{ID: Export, Word: "recommendation", Label: "The recommendation itself", Note: "Text, Markdown, JSON or CSV of the plan."})}, true
}

func writeOrder(s *Session, arg string) Next {
	var at int
	_, _ = fmt.Sscan(arg, &at)
	f := OrderFormats[at]
	return written("Export the order", f.What+"."+f.Ext, "."+f.Ext, func() (string, error) {
		p := s.settledPlan()
		return pages.OrderFile(s.Order(), p, f.What, f.Ext, s.Options())
	})
}
