package tui

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/report"
	"battwright/rules/units"
	"battwright/tui/session"
)

// newPrices lists the blankets of the order: what their labels and the stores
// say goes in here.
func newPrices() *menu {
	m := &menu{title: "Prices and labels", intro: "Type what came back from the stores. The plan and the order are worked out again at once; the face of a blanket is in its price.", at: stepOrder}
	m.rows = func(s *state) []choiceRow {
		var rows []choiceRow
		for _, l := range s.Order().Lines {
			rows = append(rows, choiceRow{
				report.OrderLineName(l, s.System),
				quoteNote(s, l), func(s *state) tea.Cmd { return send(pushMsg{newQuote(l, s)}) },
			})
		}
		for _, l := range s.Order().Unused {
			rows = append(rows, choiceRow{
				report.OrderLineName(l, s.System),
				quoteNote(s, l) + "; " + session.NotOrdered, func(s *state) tea.Cmd { return send(pushMsg{newQuote(l, s)}) },
			})
		}
		if len(rows) == 0 {
			rows = append(rows, choiceRow{"Nothing is ordered yet", "", func(*state) tea.Cmd { return send(backMsg{}) }})
		}
		return rows
	}
	return m
}

// quoteOf is what is kept about a line, made if there is nothing yet.
func quoteOf(s *state, l order.Line) house.Quote {
	if q, ok := house.FindQuote(s.House.Quotes, l.Product.ID, l.Facing); ok {
		return q
	}
	return house.Quote{Product: l.Product.ID, Facing: l.Facing}
}

func quoteNote(s *state, l order.Line) string {
	q := quoteOf(s, l)
	var parts []string
	if q.Priced() {
		parts = append(parts, q.PriceText(s.System))
	} else {
		parts = append(parts, "no price typed yet")
	}
	if !l.Label {
		parts = append(parts, "label not typed")
	}
	if q.Have > 0 {
		parts = append(parts, fmt.Sprintf("you have %d", q.Have))
	}
	return strings.Join(parts, ", ")
}

// figureRows are the figures of a label in the order they stand on it.
var figureRows = []struct {
	key, name string
	hint      units.Prose
}{
	{"pieces", "Pieces in a package", "A whole number, from the label."},
	{"width_in", "Width", "{In inches|With its unit}, from the label."},
	{"length_in", "Length", "{In inches|With its unit}, from the label."},
	{"coverage_ft2", "Coverage of a package", "{In square feet|With its unit}, from the label."},
	{"have", "Packages you have already", "A whole number. They are taken off the order."},
}

// newQuote shows one label; each line of it can be typed.
func newQuote(l order.Line, s *state) *menu {
	m := &menu{title: fmt.Sprintf("%s, %s", l.Material.Name, s.System.R(l.Product.NominalR)), intro: "Empty takes a figure away again.", at: stepOrder}
	m.rows = func(s *state) []choiceRow {
		q := quoteOf(s, l)
		price := "not typed; ours: " + s.System.MoneyRange(units.CentsOver(l.PerPack, 1)) + " a package"
		if q.Priced() {
			price = q.PriceText(s.System)
		}
		rows := []choiceRow{{"Price", price, func(s *state) tea.Cmd { return send(pushMsg{newPrice(l, s.System)}) }}}
		for _, f := range figureRows {
			rows = append(rows, choiceRow{f.name, figureText(q, f.key, s.System), func(s *state) tea.Cmd { return send(pushMsg{newFigure(l, f.key, f.name, f.hint.In(s.System))}) }})
		}
		return rows
	}
	return m
}

func figureText(q house.Quote, key string, s units.System) string {
	v := q.Figure(key)
	if v == 0 {
		return "not typed"
	}
	question, _ := house.QuoteQuestion(key)
	return question.Show(house.Number(v), s)
}

const priceHint units.Prose = "Like 62.50 a package, or {1.15 per ft2}. Empty: no price."

// newPrice asks for a price. A price per package says little without the
// label, so the size counted with is written down beside it, to be corrected.
func newPrice(l order.Line, system units.System) *prompt {
	return newPrompt(stepOrder, "Price", priceHint.In(system), func(typed string, s *state) (tea.Cmd, string) {
		q := quoteOf(s, l)
		q.USD, q.Per = 0, ""
		if typed != "" {
			usd, per, err := house.ParsePrice(typed, s.System)
			if err != nil {
				return nil, sentence(err)
			}
			q.USD, q.Per = usd, per
			if per == house.PerPackage && q.PackageFt2() <= 0 {
				q.Pieces, q.WidthIn, q.LengthIn = l.PerPackage, l.WidthIn, l.LengthIn
				s.notice = session.UsualSize
			}
		}
		return keepQuote(s, q)
	})
}

func newFigure(l order.Line, key, name, hint string) *prompt {
	return newPrompt(stepOrder, name, hint+" Empty: not known.", func(typed string, s *state) (tea.Cmd, string) {
		q := quoteOf(s, l)
		question, _ := house.QuoteQuestion(key)
		if problem := house.BareOnLabel(question, typed, s.System); problem != "" {
			return nil, problem
		}
		a, err := question.Parse(typed)
		if err != nil {
			return nil, sentence(err)
		}
		if a.State == house.Unknown {
			a = house.Answer{}
		}
		return keepQuote(s, q.With(key, a.Number))
	})
}

// keepQuote keeps what was typed, when it makes sense together.
func keepQuote(s *state, q house.Quote) (tea.Cmd, string) {
	if err := q.Check(s.System); err != nil {
		return nil, sentence(err)
	}
	notice := s.notice
	s.House.SetQuote(q)
	s.edited(wholeHouse, "")
	if s.notice == "" {
		s.notice = notice
	}
	return send(backMsg{}), ""
}

func newOrderExport() *menu {
	m := &menu{title: "Export the order", intro: "Write it to a file to carry along.", at: stepOrder}
	m.rows = func(*state) []choiceRow {
		var rows []choiceRow
		for _, f := range session.OrderFormats {
			rows = append(rows, choiceRow{f.Name, "", func(*state) tea.Cmd { return send(pushMsg{newOrderTo(f.What, f.Ext)}) }})
		}
		return append(rows, choiceRow{"The recommendation itself", "Text, Markdown, JSON or CSV of the plan.", func(*state) tea.Cmd { return send(replaceMsg{newExport()}) }})
	}
	return m
}

func newOrderTo(what, ext string) *prompt {
	var x *prompt
	x = newPrompt(stepOrder, "Export the order", session.NameOfFile(what+"."+ext), func(path string, s *state) (tea.Cmd, string) {
		if path == "" {
			return nil, "Type the name of a file."
		}
		if !strings.HasSuffix(path, "."+ext) {
			path += "." + ext
		}
		text, err := report.OrderFile(s.Order(), s.Plan, what, ext, s.Options())
		if err != nil {
			return nil, sentence(err)
		}
		return x.write(s, path, text, func(s *state) tea.Cmd {
			s.notice = session.Written(path)
			return tea.Sequence(send(backMsg{}), send(backMsg{}))
		}), ""
	})
	return x
}
