package tui

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/say"
	"battwright/tui/style"
)

// newVariants lists the saved plans: priorities and budget under a name.
func newVariants() *menu {
	m := &menu{title: "Saved plans", intro: say.PlansIntro, at: stepLook}
	m.rows = func(s *session) []choiceRow {
		rows := []choiceRow{{"Save the current priorities as a plan", "", func(*session) tea.Cmd { return send(pushMsg{newKeep()}) }}}
		for _, v := range s.house.Variants {
			rows = append(rows, choiceRow{v.Name, variantNote(s, v), func(s *session) tea.Cmd { return useVariant(s, v) }})
		}
		return rows
	}
	return m
}

// variantNote says what the saved plan would change against the one shown.
func variantNote(s *session, v house.Variant) string {
	other := s.assess.OfVariant(v)
	return report.VariantText(s.plan, other, v, s.system)
}

func useVariant(s *session, v house.Variant) tea.Cmd {
	before := plan.PreferencesOf(s.answered(), nil)
	s.house.Answers = v.Over(s.house).Answers
	s.edited(wholeHouse, "")
	if money := report.BudgetChange(before, plan.PreferencesOf(s.answered(), nil), s.system); money != "" {
		s.notice = strings.TrimSpace(money + " " + s.changed)
	}
	return send(goMsg{to: stepLook})
}

func newKeep() *prompt {
	x := newPrompt(stepLook, "Keep as a plan", "A name, for instance quiet house.", func(name string, s *session) (tea.Cmd, string) {
		switch {
		case name == "":
			return nil, "Type a name."
		case len([]rune(name)) > house.MaxText:
			return nil, fmt.Sprintf("At most %d characters.", house.MaxText)
		case s.house.Variant(name) == nil && len(s.house.Variants) >= house.MaxVariants:
			return nil, say.Sentence(say.TooManyPlans())
		}
		keep(s, name)
		s.notice = "Kept as " + name
		return send(backMsg{}), ""
	})
	x.below = func(p *canvas, s *session, typed string) {
		if s.house.Variant(typed) != nil {
			p.line(style.Warn, "There is a plan of that name: it will be replaced.")
		}
	}
	return x
}

func keep(s *session, name string) {
	s.answered().KeepVariant(name, report.Kept(s.plan))
	s.edits++
	s.saved = false
}
