package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/print"
	"battwright/rules/report"
	"battwright/tui/session"
	"battwright/tui/style"
)

// newSheets lists the places; each opens its handover sheet.
func newSheets() *menu {
	m := &menu{title: "Handover sheets", intro: session.SheetsIntro, at: stepCheck}
	m.rows = func(s *state) []choiceRow {
		var rows []choiceRow
		for _, p := range s.Plan.Places {
			id := p.Surface.ID
			rows = append(rows, choiceRow{p.Surface.Label, report.Glance(p, s.Options()), func(*state) tea.Cmd { return send(pushMsg{newSheet(id)}) }})
		}
		return append(rows, choiceRow{"Write all sheets to a file", "", func(*state) tea.Cmd {
			return send(pushMsg{newWriteText("Handover sheets", "handover.txt", func(s *state) (string, error) {
				d, err := report.Handover{Job: s.Job()}.Page(s.Options())
				return print.Text(d, 0), err
			})})
		}})
	}
	return m
}

func newSheet(id string) *reading {
	return &reading{at: stepCheck, draw: func(p *canvas, s *state) {
		pl := s.Place(id)
		if pl == nil {
			p.line(style.Warn, "This place is gone.")
			return
		}
		showBlocks(p, s, report.SheetBlocks(s.Job(), *pl, s.Options()))
	}}
}

// newPages lists the people on the site.
func newPages() *menu {
	m := &menu{title: "A page per person", intro: session.PagesIntro, at: stepCheck}
	m.rows = func(*state) []choiceRow {
		var rows []choiceRow
		for _, person := range inspect.Persons() {
			rows = append(rows, choiceRow{inspect.PageTitle(person), "", func(*state) tea.Cmd { return send(pushMsg{newPersonPage(person)}) }})
		}
		return rows
	}
	return m
}

// newPersonPage shows one page; w writes it to a file.
func newPersonPage(person string) *reading {
	return newPageView(func(s *state) (page.Page, error) {
		return report.Handover{Job: s.Job(), Person: person}.Page(s.Options())
	}, inspect.PageFile(person))
}

// newPageView shows a page that is also printed; w writes it to a file.
func newPageView(made func(*state) (page.Page, error), file string) *reading {
	r := &reading{at: stepCheck, extra: nil}
	r.extra = append(r.extra, keyWrite)
	r.on = func(k tea.KeyMsg, s *state) tea.Cmd {
		if !key.Matches(k, keyWrite) {
			return nil
		}
		return send(pushMsg{newWriteText("Write to a file", file, func(s *state) (string, error) {
			d, err := made(s)
			return print.Text(d, 0), err
		})})
	}
	r.draw = func(p *canvas, s *state) {
		d, err := made(s)
		if err != nil {
			p.para(style.Danger, 0, sentence(err))
			return
		}
		p.para(style.Title, 0, d.Title)
		showPage(p, s, d)
	}
	return r
}

// newWriteText asks for a file name and writes a text to it.
func newWriteText(title, example string, text func(*state) (string, error)) *prompt {
	var x *prompt
	x = newPrompt(stepCheck, title, session.NameOfFile(example), func(path string, s *state) (tea.Cmd, string) {
		if path == "" {
			return nil, "Type the name of a file."
		}
		out, err := text(s)
		if err != nil {
			return nil, sentence(err)
		}
		return x.write(s, path, out, func(s *state) tea.Cmd {
			if x.written != nil {
				x.written(s)
			}
			s.notice = session.Written(path)
			return send(backMsg{})
		}), ""
	})
	return x
}
