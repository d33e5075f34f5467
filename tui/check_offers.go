package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/report"
	"battwright/rules/strict"
	"battwright/tui/say"
	"battwright/tui/style"
)

// checkState is what the last step keeps beside the house.
type checkState struct {
	offers []inspect.OpenOffer
	walk   *inspect.Walk
	bad    strict.Problems // what could not be read of a file of finished work
}

func newOffers() *menu {
	m := &menu{title: "Offers", intro: say.OffersIntro(report.MaxOffers), at: stepCheck}
	m.rows = func(s *session) []choiceRow {
		var rows []choiceRow
		if len(s.check.offers) < report.MaxOffers {
			rows = append(rows, choiceRow{"Open an offer file", "", func(*session) tea.Cmd { return send(pushMsg{newOpenOffer()}) }})
		}
		rows = append(rows, choiceRow{"Write an offer file to fill in", "with a table for each place of the plan", func(*session) tea.Cmd {
			return send(pushMsg{newWriteText("A file to fill in", "offer.toml", func(s *session) (string, error) { return inspect.OfferTemplate(s.job()), nil })})
		}})
		if len(s.check.offers) > 0 {
			rows = append(rows, choiceRow{"Compare", "", func(*session) tea.Cmd { return send(pushMsg{newPageView(offersShown, "offers.txt")}) }})
		}
		for i, o := range s.check.offers {
			rows = append(rows, choiceRow{"Close " + o.Path, report.OpenOfferNote(s.job(), o), func(s *session) tea.Cmd {
				s.check.offers = inspect.WithoutOffer(s.check.offers, i)
				return nil
			}})
		}
		return rows
	}
	return m
}

func offersShown(s *session) (page.Page, error) {
	return report.OpenOffersPage(s.job(), s.check.offers, s.options()), nil
}

// newOpenOffer reads an offer; one with mistakes is read as far as possible.
func newOpenOffer() *prompt {
	var x *prompt
	x = newPrompt(stepCheck, "Open an offer file", say.PathOfFile("offer.toml"), func(path string, s *session) (tea.Cmd, string) {
		return x.readThen(s, path, func(s *session, text string) tea.Cmd {
			s.check.offers = inspect.WithOffer(s.check.offers, inspect.OpenOffer{Path: path, Text: text})
			return send(replaceMsg{newPageView(offersShown, "offers.txt")})
		})
	})
	return x
}

// problemRows lists what could not be read.
func problemRows(p *canvas, problems strict.Problems) {
	for _, x := range problems {
		p.para(style.Warn, 2, x.Error())
	}
}
