package inspect

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// Page is what one person on the site must know, in parts.
type Page struct {
	Person string
	Title  string
	Parts  []PagePart
}

// PagePart is a headed part of a page.
type PagePart struct {
	Title string
	Lines []string
}

var pageTitles = map[string]string{
	"installer": "For the installer", "framer": "For the framer", "electrician": "For the electrician", "plumber": "For plumbing and heating",
	"inspector": "For the insulation inspection", "store": "For the store", "self": "If you do it yourself",
}

// PageTitle heads the page of a person.
func PageTitle(person string) string { return pageTitles[person] }

// PageFor writes the page of a person. The error wraps ErrPerson.
func PageFor(j Job, person string) (Page, error) {
	if !slices.Contains(catalog.Persons, person) {
		return Page{}, fmt.Errorf("%w: found %q, want one of %s", ErrPerson, person, strings.Join(catalog.Persons, ", "))
	}
	out := Page{Person: person, Title: pageTitles[person]}
	for _, p := range j.Plan.Places {
		if lines := placeLines(j, p, person); len(lines) > 0 {
			out.Parts = append(out.Parts, PagePart{p.Surface.Label, lines})
		}
	}
	for _, g := range houseGroups[person] {
		if list := HouseNotes(j, g.group, g.person); len(list) > 0 {
			lines := texts(list, j.System)
			for i := range lines {
				if g.group == "order-of-work" {
					lines[i] = fmt.Sprintf("%d. %s", i+1, lines[i])
				}
			}
			out.Parts = append(out.Parts, PagePart{g.title, lines})
		}
	}
	if person == "self" {
		out.Parts = append(out.Parts, PagePart{"How long it may take", hours(j)})
	}
	if person == "inspector" {
		out.Parts = append(out.Parts, PagePart{"Labels and receipts", labels(j)})
	}
	return out, nil
}

type houseGroup struct{ group, person, title string }

// houseGroups are the parts of a page that are said once for the house. Who does
// the work without an installer is told what an installer is told.
var houseGroups = map[string][]houseGroup{
	"installer":   {{"leave", "installer", "Left behind"}, {"hold", "installer", "Hold"}},
	"framer":      {{"change", "framer", "What can still change"}, {"framing", "framer", "Framing"}, {"first", "framer", "Before the blankets"}, {"clear", "framer", "Kept clear"}, {"hold", "framer", "Hold"}},
	"electrician": {{"trade", "electrician", "Wiring"}, {"first", "electrician", "Before the blankets"}, {"clear", "electrician", "Kept clear"}, {"hold", "electrician", "Hold"}},
	"plumber":     {{"trade", "plumber", "Pipes, ducts, flues"}, {"first", "plumber", "Before the blankets"}, {"clear", "plumber", "Kept clear"}, {"hold", "plumber", "Hold"}},
	"inspector":   {{"inspector", "inspector", "To ask and to show"}, {"certificate", "", "On the certificate"}, {"hold", "inspector", "Hold"}},
	"store":       {{"store", "store", "To ask and to buy"}},
	"self":        {{"first", "installer", "Before the blankets"}, {"clear", "installer", "Kept clear"}, {"order-of-work", "self", "Order of work"}, {"gear", "self", "Gear"}, {"loft", "self", "Let it rise first"}, {"leave", "self", "When the blankets are in"}, {"hold", "installer", "Hold"}, {"licensed", "self", "Not yours to do"}},
}

func texts(list []catalog.HandoverNote, s units.System) []string {
	out := make([]string, len(list))
	for i, n := range list {
		out[i] = n.Text.In(s)
	}
	return out
}

// placeLines are what stops a place or must be found out or settled first there,
// then the figures of it that a person needs.
func placeLines(j Job, p plan.Place, person string) []string {
	out, figures := p.PaperHeads(j.Catalog(), j.System), placeFigures(j, p, person)
	if planned(p) && len(figures) > 0 {
		if damp := DampGlance(p.Choice.Damp, p.AllDamp()); damp != "" {
			out = append(out, damp+". Settle that before anything is bought or closed here.")
		}
		if short := p.ShortText(j.System); short != "" {
			out = append(out, short)
		}
	}
	return append(out, figures...)
}

func placeFigures(j Job, p plan.Place, person string) []string {
	switch {
	case p.Stopped():
		return nil
	case p.Choice == nil:
		return gapLine(j, p)
	}
	s := j.System
	switch person {
	case "installer", "self", "inspector":
		lines := []string{agreedText(p, j) + ", " + s.Area(p.Surface.AreaFt2)}
		if person == "inspector" && p.Target.Required {
			lines = append(lines, "asked: "+p.Target.Text)
		}
		if p.Choice.Facing.OnBlanket != "none" && p.Choice.Facing.Side != "" {
			lines = append(lines, "face "+p.Choice.Facing.Side)
		}
		if board := boardText(j, p); board != "" && person != "installer" { // whose sheet has it
			lines = append(lines, "ALSO: "+board)
		}
		lines = append(lines, p.BoardCautions()...)
		if there := counted(p, s); there != "" {
			lines = append(lines, "THERE: "+there)
		}
		return append(append(lines, layerLines(j, p)...), gapLine(j, p)...)
	case "framer":
		return framerLines(j, p)
	case "store":
		return storeLines(j, p)
	}
	return nil
}

// layerLines are the sheet beside the blankets and the layers with them that
// the rules ask for: no page may name the blanket and leave them out.
func layerLines(j Job, p plan.Place) []string {
	var out []string
	if sheet := sheetText(j, p); sheet != "" {
		out = append(out, "ALSO: "+sheet)
	}
	for _, b := range p.Beside(j.System) {
		out = append(out, "ALSO: "+b.Name)
	}
	return out
}

func gapLine(j Job, p plan.Place) []string {
	if !p.Surface.Kind.BesideChimney {
		return nil
	}
	every := ""
	if p.Surface.Clearance.Known {
		every = " on every side"
	}
	return []string{"KEEP THE GAP EMPTY: " + p.Surface.Clearance.Text(j.System) + every + "; " + p.Surface.Clearance.Reason}
}

// boardText is the board that the target asks for beside the blanket, and when
// it goes on.
func boardText(j Job, p plan.Place) string {
	switch {
	case p.Target.AddR <= 0:
		return ""
	case p.Surface.Kind.Boundary == "soil":
		return j.System.R(p.Target.AddR) + " foam board on the concrete, " + p.Surface.BoardWhen()
	}
	return j.System.R(p.Target.AddR) + " board outside the studs, " + p.Surface.BoardWhen()
}

// BoardThere is the board outside the studs that somebody said is there, or will
// be, and that the plan counts on: no list to buy has it, so somebody must look.
// Foam on the concrete has a line of its own.
func BoardThere(p plan.Place, s units.System) string {
	switch {
	case p.Surface.CIR <= 0 || p.Surface.Kind.Boundary == "soil":
		return ""
	case p.Surface.Finished:
		return s.R(p.Surface.CIR) + " board outside the studs, as you said: the plan counts on it, look for it and read its R"
	}
	return s.R(p.Surface.CIR) + " board outside the studs, as you said: the plan counts on it and the order leaves it out; look for it and read its R before the siding goes on"
}

// counted is the board that somebody said is there, the foam on concrete too, for
// a page that has no other line of it.
func counted(p plan.Place, s units.System) string {
	if p.Surface.CIR <= 0 || p.Surface.Kind.Boundary != "soil" {
		return BoardThere(p, s)
	}
	return s.R(p.Surface.CIR) + " foam board on the concrete, as you said: the plan counts on it, look for it and read its R before it is covered"
}

// framerLines: what the frame must be for the blanket to fit.
func framerLines(j Job, p plan.Place) []string {
	s, f := j.System, p.Surface.Frame
	lines := []string{fmt.Sprintf("%s, middle to middle %s, room for %s", f.Size, s.Inches(f.SpacingIn), roomText(p, s))}
	if board := boardText(j, p); board != "" {
		lines = append(lines, board)
	}
	lines = append(lines, p.BoardCautions()...)
	if there := counted(p, s); there != "" {
		lines = append(lines, there)
	}
	if e := p.Choice.Heat.EaveShortIn; e > 0 {
		lines = append(lines, fmt.Sprintf("heel %s: with %s more the blanket keeps its thickness over the outside wall", s.Inches(p.Surface.HeelIn), s.Inches(math.Ceil(e))))
	}
	return append(lines, gapLine(j, p)...)
}

// roomText is how much room the blankets of a place want.
func roomText(p plan.Place, s units.System) string {
	if underIn(p) > 0 {
		return DepthText(p, s)
	}
	return DepthText(p, s) + " of blanket"
}

func storeLines(j Job, p plan.Place) []string {
	var lines []string
	for i, l := range p.Choice.Layers {
		face := "none"
		if i == 0 {
			face = p.Choice.Facing.OnBlanket
		}
		name := face
		if f, ok := j.Catalog().Facing(face); ok {
			name = f.Name
		}
		lines = append(lines, fmt.Sprintf("%s %s, %s thick, %s, %s wide, for %s", p.Choice.Material.Name, j.System.R(l.Product.NominalR),
			j.System.Inches(l.Product.ThicknessIn), name, j.System.Inches(l.WideIn(p.Choice.WidthIn)), j.System.Area(p.Surface.AreaFt2)))
	}
	if f, ok := j.Catalog().Facing(p.Choice.Facing.Sheet); ok {
		lines = append(lines, f.Name+": see the order list for how much")
	}
	if p.Target.AddR > 0 {
		lines = append(lines, j.System.R(p.Target.AddR)+" board, not a blanket: get a quote")
	}
	lines = append(lines, p.BoardCautions()...)
	for _, h := range p.Needs() {
		if need := h.Rule.Effect.Need; need == "fire-mark" || need == "fire-mark-fiber" {
			lines = append(lines, h.Text)
		}
	}
	for _, b := range p.Beside(j.System) {
		lines = append(lines, b.Name+", "+j.System.Area(p.Surface.AreaFt2)+", not a blanket: get a quote")
	}
	return lines
}

// hours says how long two first-timers may take, place by place.
func hours(j Job) []string {
	var out []string
	for _, p := range j.Plan.Places {
		if !planned(p) {
			continue
		}
		h := p.Surface.Kind.Hours(p.Surface.AreaFt2 * float64(len(p.Choice.Layers)))
		out = append(out, fmt.Sprintf("%s: two people, %s (a guess, not yet checked); time yourselves on the first bays", p.Surface.Label, units.HoursText(h.Low, h.High)))
	}
	return out
}

func labels(j Job) []string {
	var out []string
	for _, l := range j.Catalog().Acceptance().Labels {
		head := map[string]string{"label": "Each package carries ", "receipt": "The receipt carries ", "sale": ""}[l.On]
		out = append(out, head+l.Text.In(j.System))
	}
	return out
}

// ClosingGroups are the parts of the list before the walls close.
var ClosingGroups = []struct{ Group, Title string }{
	{"see", "Seen"}, {"sign", "Signed"}, {"photograph", "Photographed"}, {"keep", "Kept"}, {"certificate", "On the certificate"},
}

// CertificateLines are the data of the certificate, one place a line.
func CertificateLines(j Job) []string {
	var out []string
	for _, p := range j.Plan.Places {
		if planned(p) {
			out = append(out, p.Surface.Label+": "+agreedText(p, j)+countsText(p, j.System)+", "+j.System.Area(p.Surface.AreaFt2)+"; as put in ________  date ________")
		}
	}
	return out
}

// countsText is the R of each layer that is squeezed, which is not the one on its
// bag: the certificate carries what is there.
func countsText(p plan.Place, s units.System) string {
	out := ""
	for _, l := range p.Choice.Layers {
		if !l.Across && l.RoomIn < l.Product.ThicknessIn {
			what := "counts"
			if len(p.Choice.Layers) > 1 {
				what = "the " + s.R(l.Product.NominalR) + " counts"
			}
			out += fmt.Sprintf("; "+what+" %s: squeezed from %s to %s", s.R(l.R), s.Inches(l.Product.ThicknessIn), s.Inches(l.RoomIn))
		}
	}
	return out
}

// Persons are those on the site who have a page, in the order they are listed.
func Persons() []string { return catalog.Persons }

// PageFile is a name for the file of a page.
func PageFile(person string) string { return "for-the-" + person + ".txt" }
