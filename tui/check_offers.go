package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/inspect"
	"battwright/rules/report"
	"battwright/rules/strict"
	"battwright/tui/style"
)

// openOffer is an offer file that was read: its text, so that it is judged
// again when the plan changes.
type openOffer struct{ path, text string }

// checkState is what the last step keeps beside the house.
type checkState struct {
	offers []openOffer
	walk   walkState
}

func newOffers() *menu {
	m := &menu{title: "Offers", intro: fmt.Sprintf("Up to %d offers beside the plan: what is missing, what does not add up, what to ask on the phone.", report.MaxOffers), at: stepCheck}
	m.rows = func(s *session) []choiceRow {
		var rows []choiceRow
		if len(s.check.offers) < report.MaxOffers {
			rows = append(rows, choiceRow{"Open an offer file", "", func(*session) tea.Cmd { return send(pushMsg{newOpenOffer()}) }})
		}
		rows = append(rows, choiceRow{"Write an offer file to fill in", "with a table for each place of the plan", func(*session) tea.Cmd {
			return send(pushMsg{newWriteText("A file to fill in", "offer.toml", func(s *session) (string, error) { return inspect.OfferTemplate(s.job()), nil })})
		}})
		if len(s.check.offers) > 0 {
			rows = append(rows, choiceRow{"Compare", "", func(*session) tea.Cmd { return send(pushMsg{newText(offersShown, "offers.txt")}) }})
		}
		for i, o := range s.check.offers {
			rows = append(rows, choiceRow{"Close " + o.path, offerNote(s, o), func(s *session) tea.Cmd {
				s.check.offers = slices.Delete(slices.Clone(s.check.offers), i, i+1)
				return nil
			}})
		}
		return rows
	}
	return m
}

func (s *session) judged(o openOffer) (inspect.OfferResult, strict.Problems) {
	j := s.job()
	offer, problems := inspect.ReadOffer(j, o.path, o.text)
	return inspect.JudgeOffer(j, offer), problems
}

func offerNote(s *session, o openOffer) string {
	r, problems := s.judged(o)
	note := fmt.Sprintf("%s, %d questions to phone", r.Offer.From(), len(r.Questions))
	if len(problems) > 0 {
		note += fmt.Sprintf(", %d lines could not be read", len(problems))
	}
	return note
}

func offersShown(s *session, width int) (string, error) {
	var all []inspect.OfferResult
	var problems strict.Problems
	for _, o := range s.check.offers {
		r, ps := s.judged(o)
		all, problems = append(all, r), append(problems, ps...)
	}
	o := s.options()
	o.Width = width
	text := report.OffersText(s.job(), all, o)
	if len(problems) > 0 {
		text = "COULD NOT BE READ\n" + problems.Error() + "\n\n" + text
	}
	return text, nil
}

// newOpenOffer reads an offer; one with mistakes is read as far as possible.
func newOpenOffer() *prompt {
	return newPrompt(stepCheck, "Open an offer file", "The path of a .toml file, for instance offer.toml", func(path string, s *session) (tea.Cmd, string) {
		text, problem := s.readFile(path)
		if problem != "" {
			return nil, problem
		}
		s.check.offers = append(slices.Clone(s.check.offers), openOffer{path, text})
		return send(replaceMsg{newText(offersShown, "offers.txt")}), ""
	})
}

// problemRows lists what could not be read.
func problemRows(p *page, problems strict.Problems) {
	for _, x := range problems {
		p.para(style.Warn, 2, x.Error())
	}
}
