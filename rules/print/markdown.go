package print

import (
	"strings"

	"battwright/rules/page"
)

// Markdown sets a page for a program that renders it.
func Markdown(p page.Page) string {
	m := &markdown{}
	m.head(1, p.Title)
	if p.Intro != "" {
		m.para(escape(p.Intro))
	}
	for _, b := range p.Blocks {
		m.block(b)
	}
	if len(p.Sources) > 0 {
		m.block(sources(p))
	}
	if p.End != "" {
		m.para(escape(p.End))
	}
	return m.b.String()
}

// markdown keeps a blank line between what must not run together.
type markdown struct {
	b      strings.Builder
	inList bool
}

func (m *markdown) put(s string) {
	m.b.WriteString(strings.TrimRight(Clean(s), " "))
	m.b.WriteByte('\n')
}

func (m *markdown) apart() {
	if m.inList {
		m.put("")
	}
	m.inList = false
}

func (m *markdown) head(level int, s string) {
	m.apart()
	m.put(strings.Repeat("#", level) + " " + escape(s))
	m.put("")
}

func (m *markdown) para(s string) {
	m.apart()
	m.put(s)
	m.put("")
}

func (m *markdown) item(s string) {
	m.put(s)
	m.inList = true
}

func (m *markdown) block(b page.Block) {
	if b.Title != "" {
		m.head(2, b.Title)
	}
	m.table(b.Table)
	for _, r := range b.Rows {
		m.row(r)
	}
	m.apart()
}

func (m *markdown) table(table [][]string) {
	for i, row := range table {
		cells, rule := make([]string, len(row)), make([]string, len(row))
		for k, c := range row {
			cells[k], rule[k] = strings.ReplaceAll(escape(c), "\n", " "), "---"
		}
		m.put("| " + strings.Join(cells, " | ") + " |")
		if i == 0 {
			m.put("| " + strings.Join(rule, " | ") + " |")
		}
	}
	if len(table) > 0 {
		m.put("")
	}
}

func (m *markdown) row(r page.Row) {
	text := lead(r) + escape(r.Text)
	if sign := strings.TrimSpace(signs[r.Mark]); r.Mark == page.For || r.Mark == page.Against {
		text = "(" + sign + ") " + text
	}
	if r.Tone.Loud() && r.Kind != page.Fact {
		text = "**" + text + "**"
	}
	label := ""
	if r.Label != "" {
		label = "**" + escape(r.Label) + "**: "
	}
	switch r.Kind {
	case page.Fact:
		if r.Label == "" { // goes on with the one above
			m.item("  - " + text)
			return
		}
		m.item("- " + label + text)
	case page.Item:
		m.item("- " + label + text)
	case page.Tick:
		m.item("- [ ] " + text)
	case page.Sub:
		m.item("  - " + text)
	case page.Blank:
		unit := r.Unit
		if unit != "" {
			unit += " "
		}
		m.item("- " + text + ": " + unit + escape(strings.Repeat("_", 16)))
	case page.Room:
		m.item("- " + escape(r.Label) + " " + escape(strings.Repeat("_", 16)))
	case page.Figure:
		m.figure(r.Lines)
	default:
		m.para(text)
	}
}

// figure fences lines so that they keep their shape. A fence of four marks is
// longer than any run of them that a label can hold.
func (m *markdown) figure(lines []string) {
	m.apart()
	m.put("````")
	for _, l := range lines {
		m.put(strings.ReplaceAll(l, "`", "'"))
	}
	m.put("````")
	m.put("")
}

var escapes = strings.NewReplacer("\\", "\\\\", "&", "&amp;", "<", "&lt;", ">", "&gt;", "*", "\\*", "_", "\\_", "`", "\\`", "[", "\\[", "]", "\\]", "#", "\\#", "|", "\\|")

// escape keeps a builder's own words from acting as markup.
func escape(s string) string { return escapes.Replace(s) }
