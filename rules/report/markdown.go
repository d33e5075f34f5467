package report

import (
	"fmt"
	"strings"

	"battwright/rules/plan"
	"battwright/rules/strict"
)

// Markdown writes the same content as Text for a page that renders it.
func Markdown(p plan.Plan, o Options) string {
	m := &markdown{}
	name := p.Name
	if name == "" {
		name = "House without a name"
	}
	m.head(1, name)
	m.para(houseLine(p))
	for _, n := range SiteLines(p, o) {
		m.put("- " + mdText(n))
	}
	m.b.WriteByte('\n')
	m.para("Priorities, 0 to 5: " + prioritiesText(p) + ". " + First)
	m.head(2, "The house at a glance")
	m.row("Place", "Area", "Plan")
	m.row("---", "---", "---")
	for _, place := range p.Places {
		m.row(mdCell(place.Surface.Label), o.System.Area(place.Surface.AreaFt2), mdCell(Glance(place, o)))
	}
	m.para("")
	m.para(MoneyText(p, o.System))
	for _, text := range p.First() {
		m.put("**" + mdText(text) + "**\n")
	}
	for _, place := range p.Places {
		m.place(place, o)
	}
	m.list("Assumed, or worked out from your other answers", saidLines(p.Assumed))
	m.list("Not known yet", saidLines(p.Unknown))
	m.list("Not covered", p.NotCovered)
	m.list("Changed by your own data files", p.Overlaid)
	m.list("Where the figures are from", sourceLines(p, o))
	m.para(Closing)
	return m.b.String()
}

type markdown struct{ b strings.Builder }

func (m *markdown) put(s string) {
	clean, _ := strict.CleanText(s)
	m.b.WriteString(strings.TrimRight(clean, " "))
	m.b.WriteByte('\n')
}

func (m *markdown) head(level int, s string) {
	if m.b.Len() > 0 {
		m.b.WriteByte('\n')
	}
	m.put(strings.Repeat("#", level) + " " + mdText(s))
	m.b.WriteByte('\n')
}

func (m *markdown) para(s string) {
	m.put(mdText(s))
	if s != "" {
		m.b.WriteByte('\n')
	}
}

func (m *markdown) row(cells ...string) { m.put("| " + strings.Join(cells, " | ") + " |") }

func (m *markdown) list(title string, items []string) {
	if len(items) == 0 {
		return
	}
	m.head(2, title)
	for _, s := range items {
		m.put("- " + mdText(s))
	}
	m.b.WriteByte('\n')
}

func (m *markdown) place(p plan.Place, o Options) {
	m.head(2, fmt.Sprintf("%s, %s, %s", p.Surface.Label, o.System.Area(p.Surface.AreaFt2), FrameText(p, o.System)))
	for _, l := range PlaceLines(p, o) {
		m.put("- **" + mdText(l.Label) + "**: " + mdText(l.Text))
	}
	m.b.WriteByte('\n')
	if o.Draw != nil {
		m.drawing(o.Draw(p, textWidth))
	}
	if p.Choice != nil {
		for _, w := range WhyLines(p) {
			sign, text, _ := strings.Cut(w.Text, " ")
			m.put("- (" + sign + ") " + mdText(text))
		}
		m.put("- How sure: " + mdText(SureText(p, o)))
		m.b.WriteByte('\n')
	}
	if !p.Stopped() {
		m.row("Rank", "Material", "Fits", "Price", "Points")
		m.row("---", "---", "---", "---", "---")
		for _, r := range RankRows(p, o) {
			if r.Rank == "" {
				m.row("-", mdCell(r.Name), "no: "+mdCell(r.Minus), "", "")
				continue
			}
			m.row(r.Rank, mdCell(r.Name), mdCell(r.Fit), r.Price, r.Score)
		}
		m.b.WriteByte('\n')
	}
	m.section("Care", Cautions(p, o))
	m.section("How", Steps(p))
	if p.Stopped() {
		return
	}
	notes := []string{}
	for _, l := range MoreLines(p, o) {
		notes = append(notes, l.Label+": "+l.Text)
	}
	m.section("Notes", append(notes, p.Target.Notes...))
}

// drawing fences lines so that they keep their shape. A fence of four marks
// is longer than any run of them that a label can hold.
func (m *markdown) drawing(lines []string) {
	if len(lines) == 0 {
		return
	}
	m.put("````")
	for _, l := range lines {
		m.put(strings.ReplaceAll(l, "`", "'"))
	}
	m.put("````")
	m.b.WriteByte('\n')
}

func (m *markdown) section(title string, items []string) {
	if len(items) == 0 {
		return
	}
	m.put("**" + title + "**")
	m.b.WriteByte('\n')
	for _, s := range items {
		m.put("- " + mdText(s))
	}
	m.b.WriteByte('\n')
}

// mdText keeps a builder's own words from acting as markup.
func mdText(s string) string {
	return strings.NewReplacer("\\", "\\\\", "<", "&lt;", ">", "&gt;", "*", "\\*", "_", "\\_", "`", "\\`", "[", "\\[", "]", "\\]", "#", "\\#", "|", "\\|").Replace(s)
}

func mdCell(s string) string { return strings.ReplaceAll(mdText(s), "\n", " ") }
