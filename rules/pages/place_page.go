package pages

import (
	"fmt"
	"strings"

	"battwright/rules"
	"battwright/rules/page"
	"battwright/rules/plan"
)

// What can be done from the page of a place.
const (
	ActHow  page.ActionID = "how"
	ActEdit page.ActionID = "edit"
	ActDamp page.ActionID = "damp"
)

// placeTitle heads all that is said about a place.
func placeTitle(p plan.Place, o Options) string {
	return fmt.Sprintf("%s, %s, %s", p.Surface.Label, o.System.Area(p.Surface.AreaFt2), FrameText(p, o.System))
}

// ResultPage is what a place gets, with the worst cautions and the reasons in
// short.
func ResultPage(all plan.Plan, p plan.Place, o Options) page.Page {
	d := page.Page{Title: placeTitle(p, o)}
	b := d.Block("")
	for i, r := range PlaceRows(p, o) {
		if r.Label == dampLabel {
			r.Text, r.To, r.Then = strings.TrimSuffix(r.Text, "."), ActDamp, "tells more"
		}
		b.Add(r)
		if i == max(0, len(p.Stops)+len(p.Also)+len(p.Asks())+len(p.Settles())-1) {
			b.Rows = append(b.Rows, shortCautions(p)...)
		}
	}
	b.Rows = append(b.Rows, reasonRows(p, o)...)
	if p.Choice == nil && !p.Stopped() {
		b.Rows = append(b.Rows, nothingRows(p, o)...)
	}
	if n := unknownHere(all, p.Surface.ID); n > 0 {
		b.Add(page.Row{Kind: page.Fact, Tone: page.Quiet, Label: "Guess", Text: notKnownYet(n), To: ActEdit, Then: "asks for what is open"})
	}
	return d
}

// dampLabel is before the verdict of the damp check.
const dampLabel = "Damp"

// mostCautions are said in short beside the result; the rest is one page away.
const mostCautions = 3

func shortCautions(p plan.Place) []page.Row {
	var out []page.Row
	for _, h := range p.Safety {
		row := page.Row{Tone: page.Care, Mark: page.Caution, Text: h.Rule.Title}
		if len(h.Unknown) > 0 {
			row.Mark, row.Text = page.Open, row.Text+" (not known yet)"
		}
		if !saidFirst(p, h) { // by PlaceRows
			out = append(out, row)
		}
	}
	if more := len(out) - mostCautions; more > 0 {
		out = append(out[:mostCautions], page.Row{Tone: page.Quiet, Text: fmt.Sprintf("and %d more", more), To: ActHow, Then: "tells all of them"})
	}
	return factRows("Care", out)
}

// factRows sets rows as facts under one label.
func factRows(label string, rows []page.Row) []page.Row {
	for i := range rows {
		rows[i].Kind, rows[i].Label = page.Fact, ""
		if i == 0 {
			rows[i].Label = label
		}
	}
	return rows
}

// reasonRows are the main reasons for and against the choice, and how sure it
// is.
func reasonRows(p plan.Place, o Options) []page.Row {
	if p.Choice == nil {
		return nil
	}
	v := p.Choice.Verdict
	var out []page.Row
	for _, h := range v.For[:min(3, len(v.For))] {
		out = append(out, page.Row{Mark: page.For, Text: h.Text})
	}
	for _, h := range v.Against[:min(2, len(v.Against))] {
		out = append(out, page.Row{Mark: page.Against, Text: h.Text})
	}
	return append(factRows("Why", out), page.Row{Kind: page.Fact, Label: "Sure", Text: SureText(p, o)})
}

// nothingRows say why no material goes in, each reason once.
func nothingRows(p plan.Place, o Options) []page.Row {
	var reasons []string
	names := map[string][]string{}
	for _, r := range RankRows(p, o) {
		if names[r.Minus] == nil {
			reasons = append(reasons, r.Minus)
		}
		names[r.Minus] = append(names[r.Minus], r.Name)
	}
	var out []page.Row
	for _, why := range reasons {
		out = append(out, page.Row{Text: strings.Join(names[why], ", ") + ": " + why})
	}
	return factRows("Why", out)
}

func unknownHere(p plan.Plan, id string) int {
	n := 0
	for _, u := range p.Unknown {
		if u.Place == id {
			n++
		}
	}
	return n
}

// notKnownYet counts the answers about a place that are still open.
func notKnownYet(n int) string {
	if n == 1 {
		return "one answer about this place is not known yet"
	}
	return fmt.Sprintf("%d answers about this place are not known yet", n)
}

// rankRows are the materials of a place, ranked first.
func rankRows(p plan.Place, o Options) []page.Row {
	var out []page.Row
	for _, r := range RankRows(p, o) {
		row := page.Row{Lead: r.Rank + ".", Text: r.Text()}
		if r.Rank == "" {
			row.Lead, row.Tone = "-", page.Quiet
		}
		out = append(out, row)
	}
	return factRows("Ranks", out)
}

// RankBlock is the ranking of a place by itself.
func RankBlock(p plan.Place, o Options) page.Block { return page.Block{Rows: rankRows(p, o)} }

// cautionRows are the safety notes of a place, worst first.
func cautionRows(p plan.Place, o Options) []page.Row {
	var out []page.Row
	for _, text := range Cautions(p, o) {
		out = append(out, page.Row{Tone: page.Care, Mark: page.Caution, Text: text})
	}
	return out
}

// stepRows are the installation notes of a place in order.
func stepRows(p plan.Place) []page.Row {
	var out []page.Row
	for _, text := range Steps(p) {
		out = append(out, page.Row{Kind: page.Item, Mark: page.Step, Text: text})
	}
	return out
}

// firstPage begins a page about a place with what stops it, or with what must
// be found out first; all that is said of a stopped place is in it then, and
// stopped is true.
func firstPage(p plan.Place, title string, o Options) (d page.Page, stopped bool) {
	d.Title = p.Surface.Label + ": " + title
	b := d.Block("")
	if !p.Stopped() {
		for _, text := range FindFirst(p, o) {
			b.Add(page.Row{Tone: page.Stop, Text: text})
		}
		return d, false
	}
	for _, text := range p.StopLines() {
		b.Add(page.Row{Tone: page.Stop, Text: text})
	}
	b.Rows = append(b.Rows, cautionRows(p, o)...)
	d.End = Closing
	return d, true
}

// WhyPage has the ranking, the points of each material by priority, and every
// reason with the rule it comes from.
func WhyPage(p plan.Place, o Options) page.Page {
	d, stopped := firstPage(p, "why this one, and why not the others", o)
	if stopped {
		return d
	}
	b := &d.Blocks[0]
	b.Add(page.Row{Tone: page.Quiet, Text: "Every reason names its rule in brackets."})
	b.Rows = append(b.Rows, rankRows(p, o)...)
	if text := SureNumbers(p, o); text != "" {
		b.Fact(page.Quiet, "Sure", text)
	}
	b.Rows = append(b.Rows, moreRows(p, o)...)
	for _, l := range WhyNotLines(p, o) {
		d.Block(l.Label).Say("%s", l.Text)
	}
	for _, e := range p.Entries {
		d.Blocks = append(d.Blocks, numbersBlock(p, e, o))
	}
	if lines := UnfitLines(p, o); len(lines) > 0 {
		d.Block("Blankets that do not fit here").Items(page.Quiet, lines)
	}
	return d
}

// numbersBlock has the points and the reasons of one material.
func numbersBlock(p plan.Place, e plan.Entry, o Options) page.Block {
	b := page.Block{Title: upperFirst(e.Name) + ", by priority"}
	if !e.Usable() {
		b.Title = upperFirst(e.Name)
		b.Items(page.Care, WhyOut(e))
		for _, h := range e.Verdict.Excluded {
			b.Sub("[%s] %s", h.Rule.ID, sourceOf(o, h.Rule.Source))
		}
		return b
	}
	for _, l := range Detail(p, e, o) {
		b.Fact(page.Quiet, l.Label, l.Text)
	}
	reasons := func(mark page.Mark, hits []rules.Hit) {
		for _, h := range hits {
			b.Add(page.Row{Kind: page.Item, Mark: mark, Text: h.Text + " [" + h.Rule.ID + "]"})
		}
	}
	reasons(page.For, e.Verdict.For)
	reasons(page.Against, e.Verdict.Against)
	return b
}

// HowPage tells how to put it in, all cautions first.
func HowPage(p plan.Place, o Options) page.Page {
	d, stopped := firstPage(p, "how to install", o)
	if stopped {
		return d
	}
	d.End = Closing
	care := d.Block("Care")
	for _, r := range cautionRows(p, o) {
		r.Kind = page.Item
		care.Add(r)
	}
	how := d.Block("How")
	how.Rows = stepRows(p)
	for _, n := range p.Target.Notes {
		how.Add(page.Row{Tone: page.Quiet, Text: n})
	}
	d.Blocks = page.Full(d.Blocks)
	return d
}

// PicturePage and DampPage begin what is drawn about a place; stopped says that
// there is nothing to draw.
func PicturePage(p plan.Place, o Options) (d page.Page, stopped bool) {
	return firstPage(p, "layers from inside to outside", o)
}

// DampPage is the verdict of the damp check in words, for the drawing below it.
func DampPage(p plan.Place, o Options) (d page.Page, stopped bool) {
	d, stopped = firstPage(p, "damp check", o)
	if stopped {
		return d, true
	}
	if p.Choice == nil {
		d.Blocks[0].Loud("%s", NothingDamp)
		return d, true
	}
	row := page.Row{Tone: page.Good, Text: upperFirst(DampText(p.Choice.Damp, o.System))}
	if p.Choice.Damp.Risk() > 0 {
		row.Tone = page.Stop
	}
	d.Blocks[0].Add(row)
	if p.Choice.Damp.Judged() {
		return d, false
	}
	for _, l := range dampThree(p, o.System) {
		d.Block("").Add(page.Row{Tone: page.Quiet, Text: l})
	}
	return d, true
}

// NothingDamp stands where there is no blanket to check.
const NothingDamp = "Nothing to check: no blanket is planned here."

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
