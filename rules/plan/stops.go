package plan

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/units"
)

// Stop is a danger that leaves a place without a plan.
type Stop struct {
	Danger string // id of the rule
	Say    string // what to do, in full
	Call   string // who must come, empty when nobody licensed is needed
	Ref    catalog.Ref
}

// Brief is the first sentence, to follow a colon.
func (s Stop) Brief() string {
	first, _, _ := strings.Cut(s.Say, ". ")
	r, size := utf8.DecodeRuneInString(first)
	return string(unicode.ToLower(r)) + strings.TrimSuffix(first[size:], ".")
}

// stopsOf are the stops of a verdict. Its cautions come worst first, and the
// severity of a stop says who goes first: it is data, not decided here.
func stopsOf(v rules.Verdict) []Stop {
	var out []Stop
	for _, h := range v.Safety {
		if h.Rule.Effect.Stops && len(h.Unknown) == 0 {
			out = append(out, Stop{h.Rule.ID, h.Text, h.Rule.Effect.Call, refOf(h)})
		}
	}
	return out
}

func refOf(h rules.Hit) catalog.Ref {
	return catalog.Ref{Source: h.Rule.Source, Known: catalog.Known(h.Rule.Known)}
}

// Stopped reports whether a danger leaves the place without a plan.
func (p Place) Stopped() bool { return len(p.Stops) > 0 }

// StopLines say everything that stops the place, in the order of who goes
// first. Every view of a stopped place begins with them.
func (p Place) StopLines() []string {
	out := make([]string, len(p.Stops))
	for i, s := range p.Stops {
		out[i] = stopHead(i) + s.Say
	}
	for _, s := range p.Also {
		out = append(out, AlsoHead+s.Say)
	}
	return out
}

// AlsoHead stands before what is not known at a stopped place: whoever is called
// goes in, and must know it too.
const AlsoHead = "STOP, before anybody goes in: "

// alsoAsk gathers what could stop a stopped place as well and nobody has found
// out, and what must be found out before anybody opens it.
func (p *Place) alsoAsk(c *catalog.Catalog) {
	p.Also = nil
	for _, h := range p.Safety {
		if e := h.Rule.Effect; p.Stopped() && (e.Stops && len(h.Unknown) > 0 || h.AsksFirst() && !e.Stops) {
			p.Also = append(p.Also, Stop{h.Rule.ID, c.Caution(h, p.Surface.System), h.Rule.Effect.Call, refOf(h)})
		}
	}
}

func stopHead(i int) string {
	if i == 0 {
		return "STOP: "
	}
	return "STOP, after that: "
}

// StopText is all of StopLines in one line.
func (p Place) StopText() string { return strings.Join(p.StopLines(), " ") }

// Asks are what must be found out first at a place that nothing is known to
// stop, worst first.
func (p Place) Asks() []rules.Hit {
	if p.Stopped() {
		return nil
	}
	var out []rules.Hit
	for _, h := range p.Safety {
		if h.AsksFirst() {
			out = append(out, h)
		}
	}
	return out
}

// Settles are what must be put right, or answered while nobody knows, before
// anybody begins at a place that nothing is known to stop, worst first.
func (p Place) Settles() []rules.Hit {
	if p.Stopped() {
		return nil
	}
	var out []rules.Hit
	for _, h := range p.Safety {
		if h.Rule.Effect.SettleFirst {
			out = append(out, h)
		}
	}
	return out
}

// SettleFirst says what must be put right or answered before anybody begins at
// the place. Every view of the place has it behind FindFirst and SettleHead.
func (p Place) SettleFirst(c *catalog.Catalog, s units.System) []string {
	var out []string
	for _, h := range p.Settles() {
		out = append(out, c.Caution(h, s))
	}
	return out
}

// SettleTitle names in a few words what must be settled first.
func SettleTitle(h rules.Hit) string {
	if len(h.Unknown) > 0 {
		return h.Rule.Title + " (not known yet)"
	}
	return h.Rule.Title
}

// SettleHead stands before what must be settled before work begins.
const SettleHead = "BEFORE YOU BEGIN: "

// FindFirst says what must be found out before anybody buys for the place or
// begins there. Every view of the place begins with it, behind AskHead.
func (p Place) FindFirst(c *catalog.Catalog, s units.System) []string {
	var out []string
	for _, h := range p.Asks() {
		text := c.Caution(h, s)
		if there := p.Elsewhere[h.Rule.ID]; len(there) > 0 {
			text += " This house has it elsewhere (" + strings.Join(there, ", ") + "), so it may be here too."
		}
		out = append(out, text)
	}
	return out
}

// AskHead stands before what must be found out first.
const AskHead = "FIND OUT FIRST: "

// mindFrom is the severity from which a caution stands on every paper.
const mindFrom = 3

// MindHead stands before the cautions of a place that a paper does not say in
// full.
const MindHead = "MIND: "

// Minds are the cautions of severity 3 and more in a sentence each, worst first,
// apart from those in Heads, and what the rules require that has such a sentence. A rule without its sentence gives its title.
func (p Place) Minds(s units.System) []string {
	var out []string
	for _, h := range p.Safety {
		e := h.Rule.Effect
		if e.Severity < mindFrom || e.Stops || e.SettleFirst || h.AsksFirst() {
			continue
		}
		text := h.Rule.Title + "."
		if e.Mind != "" {
			text = units.Prose(e.Mind).In(s)
		}
		if !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	for _, h := range p.Require {
		if h.Rule.Effect.Mind != "" {
			out = append(out, units.Prose(h.Rule.Effect.Mind).In(s))
		}
	}
	return out
}

// MindText is all of Minds in one line, empty where there is nothing to mind.
func (p Place) MindText(s units.System) string {
	if minds := p.Minds(s); len(minds) > 0 {
		return MindHead + strings.Join(minds, " ")
	}
	return ""
}

// PaperHeads begin a paper of the place that does not say its cautions in full:
// Heads, then MindText.
func (p Place) PaperHeads(c *catalog.Catalog, s units.System) []string {
	out := p.Heads(c, s)
	if text := p.MindText(s); text != "" {
		out = append(out, text)
	}
	return out
}

// Heads are the lines that begin whatever is printed of the place, from the plan
// to the form taken up the ladder: what stops it, or what comes first there.
func (p Place) Heads(c *catalog.Catalog, s units.System) []string {
	if p.Stopped() {
		return p.StopLines()
	}
	return p.FirstLines(c, s)
}

// FirstLines are FindFirst and SettleFirst, each behind its head.
func (p Place) FirstLines(c *catalog.Catalog, s units.System) []string {
	var out []string
	for _, text := range p.FindFirst(c, s) {
		out = append(out, AskHead+text)
	}
	for _, text := range p.SettleFirst(c, s) {
		out = append(out, SettleHead+text)
	}
	return out
}

// spread tells each place which dangers that nobody has ruled out there stop
// another place of the house.
func (p *Plan) spread() {
	for i := range p.Places {
		place := &p.Places[i]
		place.Elsewhere = nil
		for _, h := range place.Asks() {
			if !h.Rule.Effect.Spreads {
				continue
			}
			for k := range p.Places {
				if other := &p.Places[k]; slices.ContainsFunc(other.Stops, func(s Stop) bool { return s.Danger == h.Rule.ID }) {
					if place.Elsewhere == nil {
						place.Elsewhere = map[string][]string{}
					}
					place.Elsewhere[h.Rule.ID] = append(place.Elsewhere[h.Rule.ID], other.Surface.Label)
				}
			}
			slices.Sort(place.Elsewhere[h.Rule.ID]) // the order of the file says nothing
		}
	}
}

// The states of a place.
const (
	StatePlanned = "planned"
	StateNoPlan  = "no-plan"
	StateStop    = "stop"
)

// State says in a word what the plan has for the place.
func (p Place) State() string {
	switch {
	case p.Stopped():
		return StateStop
	case p.Choice == nil && !p.Target.Idle: // idle, the plan is to put nothing there
		return StateNoPlan
	}
	return StatePlanned
}
