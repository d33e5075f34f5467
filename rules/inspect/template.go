package inspect

import (
	"fmt"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// OfferTemplate is an offer file to fill in: a table for each layer the plan
// has, every key with what it takes. Values of the plan stand behind # so that
// nobody takes our figures for those of the offer.
func OfferTemplate(j Job) string {
	c := j.Catalog()
	var b strings.Builder
	b.WriteString("# An offer, to be filled in from what the bidder wrote. Take away the # in front\n# of each line you know; leave the rest: what is missing is asked for.\nversion = 1\n")
	keys(&b, offerQuestions())
	for _, p := range j.Plan.Places {
		if heads := p.PaperHeads(c, j.System); len(heads) > 0 {
			fmt.Fprintf(&b, "\n# %s. %s\n", p.Surface.Label, strings.Join(heads, "\n# "))
		}
		if !planned(p) {
			continue
		}
		for i, l := range p.Choice.Layers {
			which := ""
			if len(p.Choice.Layers) > 1 {
				which = fmt.Sprintf(", layer %d from below", i+1)
			}
			fmt.Fprintf(&b, "\n# %s%s. The plan: %s %s, %s thick, %s.\n[[part]]\nplace = %q\n", p.Surface.Label, which,
				p.Choice.Material.Name, j.System.R(l.Product.NominalR), j.System.Inches(l.Product.ThicknessIn), j.System.Area(p.Surface.AreaFt2), p.Surface.ID)
			keys(&b, partQuestionsAt(c, p))
		}
	}
	return b.String()
}

// FoundTemplate is a file of finished work to fill in, place by place.
func FoundTemplate(l *house.QuestionList, j Job) string {
	var b strings.Builder
	b.WriteString("# Finished work, to be filled in while everything is still open. Take away the #\n# in front of each line you looked at or measured; the rest counts as not seen.\nversion = 1\n")
	keys(&b, l.In(house.Top, ""))
	for _, p := range j.Plan.Places {
		if !inspected(p) {
			continue
		}
		fmt.Fprintf(&b, "\n# %s. %s\n[[place]]\nid = %q\n", p.Surface.Label, strings.Join(AgreedLines(p, j), "\n# "), p.Surface.ID)
		keys(&b, QuestionsOf(l, p, nil))
	}
	return b.String()
}

// AgreedLines are what must be known before anybody begins at a place, what was
// agreed for it, and that the plan has no blanket where it has none.
func AgreedLines(p plan.Place, j Job) []string {
	out := p.PaperHeads(j.Catalog(), j.System)
	switch {
	case planned(p):
		agreed := "Agreed: " + agreedText(p, j)
		if sheetAgreed(p) != "" {
			agreed += "; sheet: " + sheetText(j, p)
		}
		if requires(p, retarderPaint) {
			agreed += "; then, on the drywall: " + sheetText(j, p)
		}
		out = append(out, agreed)
		if short := p.ShortText(j.System); short != "" {
			out = append(out, short)
		}
	case p.Stopped():
	case p.Target.Idle:
		out = append(out, "The plan has no blanket here.")
	default:
		out = append(out, "The plan has no blanket here as things stand.")
	}
	return append(out, gapLine(j, p)...)
}

func agreedText(p plan.Place, j Job) string {
	text := planText(p, j.System) + ", " + j.System.Inches(heightOf(p.Choice.Layers)) + " thick"
	if under := underIn(p); under > 0 {
		text += ", about " + j.System.Inches(under+heightOf(p.Choice.Layers)) + " to the ceiling with the old blanket"
	}
	if f, ok := j.Catalog().Facing(p.Choice.Facing.OnBlanket); ok {
		text += ", " + f.Name
	}
	return text
}

// keys writes a commented line for each question.
func keys(b *strings.Builder, qs []house.Question) {
	width := 0
	for _, q := range qs {
		width = max(width, len(q.Key))
	}
	for _, q := range qs {
		fmt.Fprintf(b, "# %-*s = %s   # %s\n", width, q.Key, example(q), q.Prompt)
	}
}

// example is a value of the right form.
func example(q house.Question) string {
	switch q.Kind {
	case house.YesNoKind:
		return "true"
	case house.NumberKind:
		return "0"
	case house.Numbers:
		return "[0, 0]"
	case house.Choice, house.Many:
		words := make([]string, len(q.Options))
		for i, o := range q.Options {
			words[i] = o.Value
		}
		text := fmt.Sprintf("%q", strings.Join(words, " | "))
		if q.Kind == house.Many {
			return "[" + text + "]"
		}
		return text
	}
	if q.Key == "date" {
		return `"2026-05-04"`
	}
	return `""`
}

// Form is one line of a form to fill by hand: what to look at, and whether
// there is room for figures.
type Form struct {
	Point   catalog.AcceptancePoint
	Figures string // what is written there, empty for a tick
}

// FormOf lists the points of a place with what is written beside each.
func FormOf(j Job, p plan.Place) []Form {
	var out []Form
	for _, x := range j.Catalog().Acceptance().Points {
		if hasPoint(x, p, nil) {
			out = append(out, Form{pointIn(j, p, x), figuresOf(j, p, x.From)})
		}
	}
	return out
}

func figuresOf(j Job, p plan.Place, from string) string {
	inch := units.Prose("{in|mm}").In(j.System)
	switch from {
	case catalog.FromChimney:
		return fmt.Sprintf("tightest ______ %s (agreed %s)", inch, p.Surface.Clearance.Text(j.System))
	case catalog.FromLabel:
		return "fiber ____________ R ______ (agreed " + p.Choice.Material.Name + ", " + layersText(p.Choice.Layers, j.System) + ")"
	case catalog.FromThickness:
		deep := ""
		if underIn(p) > 0 {
			deep = "the old blanket alone ____ " + inch + "; to the ceiling, old blanket included: "
		}
		return deep + strings.TrimSpace(strings.Repeat("____ ", j.Catalog().Acceptance().Limits.Points)) + " " + inch + " (agreed " + DepthText(p, j.System) + ")"
	case catalog.FromVoids:
		return "length x width ______________________ or ____ %"
	case catalog.FromSqueezed:
		return "____ %, ______ " + inch + " left"
	case catalog.FromFacing:
		if sheetAgreed(p) != "" {
			return "face __________ side __________ sheet __________ (agreed " + sheetText(j, p) + ")"
		}
		return "face ____________ side ____________"
	case catalog.FromBoard:
		return "R ______ (agreed " + j.System.R(p.BoardR()) + ")"
	}
	return ""
}
