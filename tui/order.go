package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/page"
	"battwright/rules/report"
	"battwright/tui/style"
)

// The keys of the order step.
var (
	keyCut    = bind("c", "cut lists", "c")
	keyAsk    = bind("a", "asking sheet", "a")
	keyPrices = bind("p", "prices and labels", "p")
	keyCheck  = bind("n", "check", "n")
	keyTaped  = bind("m", "I measured these", "m")
)

// newOrder is the order step: the shopping list, and the ways on from it.
func newOrder() *reading {
	r := &reading{at: stepOrder, extra: []key.Binding{keyCut, keyAsk, keyPrices, keys.Export, keyCheck}}
	r.on = func(k tea.KeyMsg, s *state) tea.Cmd {
		switch {
		case key.Matches(k, keys.Next), key.Matches(k, keys.Accept):
			return send(goMsg{to: stepCheck})
		case key.Matches(k, keyCut):
			return send(pushMsg{newCutLists()})
		case key.Matches(k, keyAsk):
			return send(pushMsg{newAskSheet()})
		case key.Matches(k, keyPrices):
			return send(pushMsg{newPrices()})
		case key.Matches(k, keys.Export):
			return send(pushMsg{newOrderExport()})
		}
		return nil
	}
	r.draw = func(p *canvas, s *state) { showBlocks(p, s, report.ShoppingBlocks(s.Order(), s.Options())) }
	return r
}

// newAskSheet is what is carried to the stores.
func newAskSheet() *reading {
	r := &reading{at: stepOrder, extra: []key.Binding{keyPrices, keys.Export}}
	r.on = func(k tea.KeyMsg, _ *state) tea.Cmd {
		switch {
		case key.Matches(k, keyPrices):
			return send(replaceMsg{newPrices()})
		case key.Matches(k, keys.Export):
			return send(replaceMsg{newOrderExport()})
		}
		return nil
	}
	r.draw = func(p *canvas, s *state) { showBlocks(p, s, report.AskBlocks(s.Order(), s.Plan, s.Options())) }
	return r
}

// newCutLists picks the cut list of a place.
func newCutLists() *menu {
	m := &menu{title: "Cut lists", intro: "One a place, to follow with a knife. The last tells how to cut each blanket so that least is wasted.", at: stepOrder}
	m.rows = func(s *state) []choiceRow {
		var rows []choiceRow
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
			rows = append(rows, choiceRow{p.Label, note, func(*state) tea.Cmd { return send(pushMsg{newCutList(p.ID)}) }})
		}
		return append(rows, choiceRow{"How to cut each blanket", "", func(*state) tea.Cmd { return send(pushMsg{newCutList("")}) }})
	}
	return m
}

// newCutList is the cut list of one place; without a place, how to cut.
func newCutList(place string) *reading {
	r := &reading{at: stepOrder}
	if place != "" {
		r.extra = []key.Binding{keyTaped}
	}
	r.on = func(k tea.KeyMsg, s *state) tea.Cmd {
		if place != "" && key.Matches(k, keyTaped) {
			s.markMeasured(place)
		}
		return nil
	}
	r.draw = func(p *canvas, s *state) {
		var blocks []page.Block
		for _, b := range report.CutBlocks(s.Order(), s.Options()) {
			if b.Place == place {
				blocks = append(blocks, b)
			}
		}
		if len(blocks) == 0 {
			p.line(style.Dim, "Nothing is cut: every blanket goes in whole, or only areas are known.")
		}
		showBlocks(p, s, blocks)
	}
	return r
}

// markMeasured keeps that the sizes a place is counted by were measured. What
// was never answered cannot have been.
func (s *state) markMeasured(id string) {
	place := s.House.Place(id)
	if place == nil {
		return
	}
	for _, o := range s.Order().Places {
		if o.ID == id {
			if added := place.MarkMeasured(o.SizeKeys); added > 0 {
				s.edited(onePlace, id)
			}
			if o.NotMeasured() {
				s.notice = "Not answered yet, so not measured: answer it in the form of the place (step places, e)."
			}
		}
	}
}
