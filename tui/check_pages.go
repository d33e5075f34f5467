package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/inspect"
	"battwright/rules/report"
	"battwright/tui/say"
	"battwright/tui/style"
)

// newSheets lists the places; each opens its handover sheet.
func newSheets() *menu {
	m := &menu{title: "Handover sheets", intro: say.SheetsIntro, at: stepCheck}
	m.rows = func(s *session) []choiceRow {
		var rows []choiceRow
		for _, p := range s.plan.Places {
			id := p.Surface.ID
			rows = append(rows, choiceRow{p.Surface.Label, report.Glance(p, s.options()), func(*session) tea.Cmd { return send(pushMsg{newSheet(id)}) }})
		}
		return append(rows, choiceRow{"Write all sheets to a file", "", func(*session) tea.Cmd {
			return send(pushMsg{newWriteText("Handover sheets", "handover.txt", func(s *session) (string, error) {
				return report.Handover{Job: s.job()}.Text(s.options())
			})})
		}})
	}
	return m
}

func newSheet(id string) *reading {
	return &reading{at: stepCheck, draw: func(p *page, s *session) {
		pl := s.place(id)
		if pl == nil {
			p.line(style.Warn, "This place is gone.")
			return
		}
		checkRows(p, s, report.SheetBlocks(s.job(), *pl, s.options()))
	}}
}

// newPages lists the people on the site.
func newPages() *menu {
	m := &menu{title: "A page per person", intro: say.PagesIntro, at: stepCheck}
	m.rows = func(*session) []choiceRow {
		var rows []choiceRow
		for _, person := range inspect.Persons() {
			rows = append(rows, choiceRow{inspect.PageTitle(person), "", func(*session) tea.Cmd { return send(pushMsg{newPersonPage(person)}) }})
		}
		return rows
	}
	return m
}

// newPersonPage shows one page; w writes it to a file.
func newPersonPage(person string) *reading {
	text := func(s *session, width int) (string, error) {
		o := s.options()
		o.Width = width
		return report.Handover{Job: s.job(), Person: person}.Text(o)
	}
	return newText(text, inspect.PageFile(person))
}

// newText shows a report as it would be printed at the width of the window;
// w writes it to a file.
func newText(text func(*session, int) (string, error), file string) *reading {
	r := &reading{at: stepCheck, extra: nil}
	r.extra = append(r.extra, keyWrite)
	r.on = func(k tea.KeyMsg, s *session) tea.Cmd {
		if !key.Matches(k, keyWrite) {
			return nil
		}
		return send(pushMsg{newWriteText("Write to a file", file, func(s *session) (string, error) { return text(s, 0) })})
	}
	r.draw = func(p *page, s *session) {
		out, err := text(s, min(p.width, 100))
		if err != nil {
			p.para(style.Danger, 0, sentence(err))
			return
		}
		for _, l := range strings.Split(out, "\n") {
			tone := style.Plain
			if strings.Contains(l, "STOP") {
				tone = style.Danger
			}
			p.line(tone, l)
		}
	}
	return r
}

// newWriteText asks for a file name and writes a text to it.
func newWriteText(title, example string, text func(*session) (string, error)) *prompt {
	var x *prompt
	x = newPrompt(stepCheck, title, say.NameOfFile(example), func(path string, s *session) (tea.Cmd, string) {
		if path == "" {
			return nil, "Type the name of a file."
		}
		out, err := text(s)
		if err != nil {
			return nil, sentence(err)
		}
		return x.write(s, path, out, func(s *session) tea.Cmd {
			if x.written != nil {
				x.written(s)
			}
			s.notice = say.Written(path)
			return send(backMsg{})
		}), ""
	})
	return x
}
