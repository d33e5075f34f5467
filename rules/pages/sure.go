package pages

import (
	"fmt"
	"math"
	"strings"

	"battwright/rules/plan"
	"battwright/rules/rank"
)

// AboutEqual is the bound below which two scores are about equal. It is a
// figure of the catalog; a report without one uses the same.
func (o Options) aboutEqual() float64 { return o.Catalog.Settings.AboutEqual }

// SureText says how firmly a choice stands and what would change it, in words
// first, and which answer that nobody gave it hangs on. It never speaks of the chance
// of being right.
func SureText(p plan.Place, o Options) string {
	text := sureText(p, o)
	if len(p.Hinges) == 0 {
		return text
	}
	if clear, ok := strings.CutPrefix(text, "Clear"); ok {
		text = "Clear only as assumed" + clear
	}
	text += " An answer that nobody gave decides here."
	for _, h := range p.Hinges {
		text += " " + upperFirst(h.Text("", o.System)) + "."
	}
	return text
}

func sureText(p plan.Place, o Options) string {
	s := p.SureOf(o.aboutEqual())
	switch {
	case !s.Known:
		return "not worked out"
	case budgetChose(p):
		return "The budget chose it: by itself this place would get something else."
	case s.Only && others(p) > 0:
		return "Clear: the others fall short, get damp or always rank below."
	case s.Only:
		return "Nothing else may go here."
	}
	var b strings.Builder
	runner := ""
	if e := p.EntryOf(s.RunnerUp); e != nil {
		runner = e.Name
	}
	equal, word := s.Equal && runner != "", s.Strength
	if equal { // whoever wins most often, the points lie too near to call it clear
		word = rank.CloseCall
	}
	b.WriteString(upperFirst(word.String()))
	if equal {
		fmt.Fprintf(&b, ": about equal with %s, %s", runner, equalAdvice(p, s, o))
	}
	if s.Shaky {
		b.WriteString("; some of the figures are rough, and others could turn it")
	}
	b.WriteString(".")
	if text := switchText(p, s, o); text != "" {
		b.WriteString(" " + text)
	}
	return b.String()
}

// budgetChose reports whether a place gets something else than by itself, and not
// because the person keeps to a material.
func budgetChose(p plan.Place) bool {
	return p.Best != nil && p.Surface.Pin != p.Choice.MaterialID
}

// equalAdvice says what to do with two equals: take either, unless one costs
// plainly more.
func equalAdvice(p plan.Place, s plan.Sure, o Options) string {
	e := p.EntryOf(s.RunnerUp)
	now := p.Cost.Total.Typical
	other := now + p.More(&e.Assessed)
	const plainly = 1.2
	switch {
	case other.Dollars() > now.Dollars()*plainly:
		return "which costs about " + o.System.MoneyAbout(other-now) + " more"
	case now.Dollars() > other.Dollars()*plainly:
		return "which costs about " + o.System.MoneyAbout(now-other) + " less"
	}
	return "take whichever the store has"
}

// others counts the usable materials beside the choice.
func others(p plan.Place) int {
	n := -1
	for _, e := range p.Entries {
		if e.Usable() {
			n++
		}
	}
	return n
}

// SureNumbers is the figure behind the word, for the why page.
func SureNumbers(p plan.Place, o Options) string {
	s := p.SureOf(o.aboutEqual())
	if !s.Known || s.Only || budgetChose(p) {
		return ""
	}
	return fmt.Sprintf("If we weigh your priorities differently but keep their order, it comes first in about %d of 100 cases and the runner-up in %d. This is not the chance that the choice is right.", s.WinsOf100, s.RunnerWins)
}

// switchText names the smallest change of one priority that changes the
// choice.
func switchText(p plan.Place, s plan.Sure, o Options) string {
	best, size := -1, math.Inf(1)
	for i, c := range s.Switches {
		if d := math.Abs(float64(c.Whole) - p.Levels[c.Priority]); d < size {
			best, size = i, d
		}
	}
	if best < 0 {
		return "No single priority changes it."
	}
	return SwitchLine(p, s.Switches[best], o)
}

// SwitchLine says one switch: "With lowest price at 5 instead of 3:
// fiberglass."
func SwitchLine(p plan.Place, c plan.Switch, o Options) string {
	e := p.EntryOf(c.To)
	if e == nil || c.Priority >= len(o.Catalog.Criteria) {
		return ""
	}
	return fmt.Sprintf("With %s at %d instead of %g: %s%s.", o.Catalog.Criteria[c.Priority].Name, c.Whole, p.Levels[c.Priority], e.Name, ifAfforded(p, *e))
}

// ifAfforded follows a material that wins by priorities alone: where it costs
// more than the choice, the budget of the whole house has a say too.
func ifAfforded(p plan.Place, e plan.Entry) string {
	if !p.Limited || p.Choice == nil || p.More(&e.Assessed) <= 0 {
		return ""
	}
	return ", if the budget allows"
}

type jsonSure struct {
	Word      string       `json:"word"`
	WinsOf100 int          `json:"wins_of_100"`
	Switches  []jsonSwitch `json:"switches,omitempty"`
	Hinges    []jsonHinge  `json:"hinges,omitempty"`
}

// jsonHinge is an answer that nobody gave and with which the place would get another
// blanket, or neither get wet nor mold.
type jsonHinge struct {
	Key  string `json:"key"`
	Text string `json:"text"`
}

type jsonSwitch struct {
	Priority string  `json:"priority"`
	Beyond   float64 `json:"beyond"`
	To       string  `json:"to"`
}

func jsonSureOf(p plan.Place, o Options) *jsonSure {
	s := p.SureOf(o.aboutEqual())
	if !s.Known {
		return nil
	}
	out := &jsonSure{Word: s.Strength.String(), WinsOf100: s.WinsOf100}
	switch {
	case budgetChose(p):
		out.Word = "budget"
	case s.Equal:
		out.Word = "about equal"
	}
	for _, c := range s.Switches {
		out.Switches = append(out.Switches, jsonSwitch{o.Catalog.Criteria[c.Priority].ID, round(c.Beyond, 3), c.To})
	}
	for _, h := range p.Hinges {
		out.Hinges = append(out.Hinges, jsonHinge{h.Key, h.Text("", o.System)})
	}
	return out
}
