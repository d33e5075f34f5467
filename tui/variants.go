package tui

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/report"
	"battwright/tui/session"
	"battwright/tui/style"
)

// newVariants lists the saved plans: priorities and budget under a name.
func newVariants() *menu {
	m := &menu{title: "Saved plans", intro: session.PlansIntro, at: stepLook}
	m.rows = func(s *state) []choiceRow {
		rows := []choiceRow{{"Save the current priorities as a plan", "", func(*state) tea.Cmd { return send(pushMsg{newKeep()}) }}}
		for _, v := range s.House.Variants {
			rows = append(rows, choiceRow{v.Name, variantNote(s, v), func(s *state) tea.Cmd { return useVariant(s, v) }})
		}
		return rows
	}
	return m
}

// variantNote says what the saved plan would change against the one shown.
func variantNote(s *state, v house.Variant) string {
	other := s.Assess.OfVariant(v)
	return report.VariantText(s.Plan, other, v, s.System)
}

func useVariant(s *state, v house.Variant) tea.Cmd {
	s.notice, s.drop = "", ""
	if money := s.UsePlan(v); money != "" {
		s.notice = strings.TrimSpace(money + " " + s.Changed)
	}
	return send(goMsg{to: stepLook})
}

func newKeep() *prompt {
	x := newPrompt(stepLook, "Keep as a plan", "A name, for instance quiet house.", func(name string, s *state) (tea.Cmd, string) {
		switch {
		case name == "":
			return nil, "Type a name."
		case len([]rune(name)) > house.MaxText:
			return nil, fmt.Sprintf("At most %d characters.", house.MaxText)
		case s.House.Variant(name) == nil && len(s.House.Variants) >= house.MaxVariants:
			return nil, session.Sentence(session.TooManyPlans())
		}
		s.KeepPlan(name)
		s.notice = "Kept as " + name
		return send(backMsg{}), ""
	})
	x.below = func(p *canvas, s *state, typed string) {
		if s.House.Variant(typed) != nil {
			p.line(style.Warn, "There is a plan of that name: it will be replaced.")
		}
	}
	return x
}
