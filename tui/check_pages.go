package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/report"
	"battwright/rules/units"
	"battwright/tui/style"
)

// newSheets lists the places; each opens its handover sheet.
func newSheets() *menu {
	m := &menu{title: "Handover sheets", intro: "One sheet for each place: what goes in, what comes first, what stays clear, the points it is accepted by.", at: stepCheck}
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
		p.line(style.Title, pl.Surface.Label)
		sheet, ok := inspect.SheetOf(s.job(), *pl)
		if !ok {
			p.para(style.Danger, 0, "No sheet: "+report.Glance(*pl, s.options()))
			return
		}
		for _, l := range report.SheetLines(sheet, s.options()) {
			tone := style.Plain
			if l.Label == "Gap" || l.Label == "Plus" {
				tone = style.Danger
			}
			p.labelled(tone, l.Label, labelColumn, l.Text)
		}
		notes := func(title string, list []catalog.HandoverNote) {
			if len(list) > 0 {
				p.blank()
				p.line(style.Title, title)
			}
			for _, n := range list {
				p.para(style.Plain, 2, s.g.NoTick+" "+n.Text.In(s.system))
			}
		}
		notes("First", sheet.First)
		notes("Stays clear", sheet.Clear)
		p.blank()
		p.line(style.Title, "Accepted by these points")
		for _, x := range sheet.Points {
			p.para(style.Plain, 2, s.g.NoTick+" "+report.PointText(x, s.system))
		}
		notes("Left behind", sheet.Leave)
		for _, n := range sheet.Hold {
			p.blank()
			p.para(style.Warn, 0, n.Text.In(s.system))
		}
	}}
}

// newPages lists the people on the site.
func newPages() *menu {
	m := &menu{title: "A page per person", intro: "What each must know, also for a narrow paper or a telephone.", at: stepCheck}
	m.rows = func(*session) []choiceRow {
		var rows []choiceRow
		for _, person := range catalog.Persons {
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
	return newText(text, "for-the-"+person+".txt")
}

// newText shows a report as it would be printed at the width of the window;
// w writes it to a file.
func newText(text func(*session, int) (string, error), file string) *reading {
	r := &reading{at: stepCheck, extra: nil}
	r.extra = append(r.extra, bind("w", "write to a file", "w"))
	r.on = func(k tea.KeyMsg, s *session) tea.Cmd {
		if k.String() != "w" {
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
		for _, l := range splitLines(out) {
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
	x = newPrompt(stepCheck, title, units.Prose("The name of a file, for instance "+example), func(path string, s *session) (tea.Cmd, string) {
		if path == "" {
			return nil, "Type the name of a file."
		}
		out, err := text(s)
		if err != nil {
			return nil, sentence(err)
		}
		if problem := x.write(s, path, out); problem != "" {
			return nil, problem
		}
		s.notice = "Written to " + path
		return send(backMsg{}), ""
	})
	return x
}
