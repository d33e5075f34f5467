package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/report"
	"battwright/tui/session"
)

func newOffers() *menu {
	m := &menu{title: "Offers", intro: session.OffersIntro(report.MaxOffers), at: stepCheck}
	m.rows = func(s *state) []choiceRow {
		var rows []choiceRow
		if len(s.Offers) < report.MaxOffers {
			rows = append(rows, choiceRow{"Open an offer file", "", func(*state) tea.Cmd { return send(pushMsg{newOpenOffer()}) }})
		}
		rows = append(rows, choiceRow{"Write an offer file to fill in", "with a table for each place of the plan", func(*state) tea.Cmd {
			return send(pushMsg{newWriteText("A file to fill in", "offer.toml", func(s *state) (string, error) { return inspect.OfferTemplate(s.Job()), nil })})
		}})
		if len(s.Offers) > 0 {
			rows = append(rows, choiceRow{"Compare", "", func(*state) tea.Cmd { return send(pushMsg{newPageView(offersShown, "offers.txt")}) }})
		}
		for i, o := range s.Offers {
			rows = append(rows, choiceRow{"Close " + o.Path, report.OpenOfferNote(s.Job(), o), func(s *state) tea.Cmd {
				s.Offers = inspect.WithoutOffer(s.Offers, i)
				return nil
			}})
		}
		return rows
	}
	return m
}

func offersShown(s *state) (page.Page, error) {
	return report.OpenOffersPage(s.Job(), s.Offers, s.Options()), nil
}

// newOpenOffer reads an offer; one with mistakes is read as far as possible.
func newOpenOffer() *prompt {
	var x *prompt
	x = newPrompt(stepCheck, "Open an offer file", session.PathOfFile("offer.toml"), func(path string, s *state) (tea.Cmd, string) {
		return x.readThen(s, path, func(s *state, text string) tea.Cmd {
			s.Offers = inspect.WithOffer(s.Offers, inspect.OpenOffer{Path: path, Text: text})
			return send(replaceMsg{newPageView(offersShown, "offers.txt")})
		})
	})
	return x
}
