package report

import (
	"strings"

	"battwright/rules/catalog"
)

// doc is a page to print: the same content as text of any width and as
// Markdown.
type doc struct {
	title, intro string
	sections     []docSection
	from         []catalog.Ref
}

type docSection struct {
	title string
	lines []docLine
	table [][]string // the first row is the head
}

// lineKind is how a line of a page is set.
type lineKind int

const (
	plainLine lineKind = iota
	itemLine           // - text
	tickLine           // [ ] text
	labelLine          // label: text
	spaceLine          // room to write
)

type docLine struct {
	kind        lineKind
	label, text string
}

func (d *doc) section(title string) *docSection {
	d.sections = append(d.sections, docSection{title: title})
	return &d.sections[len(d.sections)-1]
}

func (s *docSection) say(text string) { s.lines = append(s.lines, docLine{plainLine, "", text}) }

func (s *docSection) item(text string) { s.lines = append(s.lines, docLine{itemLine, "", text}) }

func (s *docSection) tick(text string) { s.lines = append(s.lines, docLine{tickLine, "", text}) }

func (s *docSection) labelled(l, text string) { s.lines = append(s.lines, docLine{labelLine, l, text}) }

func (s *docSection) room(label string)   { s.lines = append(s.lines, docLine{spaceLine, label, ""}) }
func (s *docSection) items(list []string) { s.each(list, itemLine) }
func (s *docSection) ticks(list []string) { s.each(list, tickLine) }
func (s *docSection) each(l []string, k lineKind) {
	for _, text := range l {
		s.lines = append(s.lines, docLine{k, "", text})
	}
}

// docText prints a page as plain text.
func docText(d doc, o Options) string {
	t := &writer{width: o.Width, aloud: o.Aloud}
	if t.width <= 0 {
		t.width = textWidth
	}
	t.heading(strings.ToUpper(d.title), "=")
	if d.intro != "" {
		t.para(d.intro)
	}
	for _, s := range d.sections {
		if s.title != "" {
			t.heading(s.title, "-")
		}
		t.columns(s.table)
		for _, l := range s.lines {
			t.docLine(l)
		}
	}
	if lines := refLines(d.from, o.Catalog); len(lines) > 0 {
		t.list("WHERE THIS IS FROM", lines)
	}
	t.blank()
	t.para(Closing)
	return t.String()
}

func (t *writer) docLine(l docLine) {
	switch l.kind {
	case itemLine:
		t.hanging("- ", l.text)
	case tickLine:
		t.hanging("[ ] ", l.text)
	case labelLine:
		if t.aloud || t.width < 60 {
			t.hanging("", l.label+": "+l.text)
			return
		}
		t.labelled(l.label, l.text)
	case spaceLine:
		t.line(l.label + " " + strings.Repeat("_", max(4, t.width-len([]rune(l.label))-1)))
	default:
		t.para(l.text)
	}
}

// hanging wraps a text beside its mark.
func (t *writer) hanging(mark, s string) {
	indent := max(2, len(mark))
	for i, l := range Wrap(s, t.width-indent) {
		if i == 0 && mark != "" {
			t.line(pad(mark, indent) + l)
			continue
		}
		if i == 0 {
			t.line(l)
			continue
		}
		t.line(strings.Repeat(" ", indent) + l)
	}
}

// columns prints a table: side by side where the page is wide enough and looked
// at, else one entry after the other.
func (t *writer) columns(table [][]string) {
	if len(table) < 2 {
		return
	}
	head := table[0]
	const first, least = 14, 15
	wide := (t.width - first) / (len(head) - 1)
	if t.aloud {
		for _, row := range table[1:] {
			for i := 1; i < len(row); i++ {
				t.hanging("", row[0]+", "+head[i]+": "+cellAloud(row[i]))
			}
		}
		return
	}
	if wide < least {
		for _, row := range table[1:] {
			t.line(row[0])
			for i := 1; i < len(row); i++ {
				t.hanging("  ", head[i]+": "+row[i])
			}
		}
		return
	}
	for n, row := range table {
		t.tableRow(row, first, wide)
		if n == 0 {
			t.line(strings.Repeat("-", t.width))
		}
	}
}

// cellAloud says an empty cell in a word.
func cellAloud(cell string) string {
	if cell == "-" {
		return "nothing"
	}
	return cell
}

func (t *writer) tableRow(row []string, first, wide int) {
	cells, height := make([][]string, len(row)), 0
	for i, c := range row {
		w := wide
		if i == 0 {
			w = first
		}
		cells[i] = Wrap(c, w-2)
		height = max(height, len(cells[i]))
	}
	for y := range height {
		var b strings.Builder
		for i, c := range cells {
			w := wide
			if i == 0 {
				w = first
			}
			text := ""
			if y < len(c) {
				text = c[y]
			}
			b.WriteString(pad(text, w))
		}
		t.line(b.String())
	}
}

// docMarkdown prints a page for a program that renders it.
func docMarkdown(d doc, o Options) string {
	m := &markdown{}
	m.head(1, d.title)
	if d.intro != "" {
		m.para(d.intro)
	}
	for _, s := range d.sections {
		if s.title != "" {
			m.head(2, s.title)
		}
		for i, row := range s.table {
			cells := make([]string, len(row))
			rule := make([]string, len(row))
			for k, c := range row {
				cells[k], rule[k] = mdCell(c), "---"
			}
			m.row(cells...)
			if i == 0 {
				m.row(rule...)
			}
		}
		if len(s.table) > 0 {
			m.b.WriteByte('\n')
		}
		for _, l := range s.lines {
			switch l.kind {
			case tickLine:
				m.put("- [ ] " + mdText(l.text))
			case labelLine:
				m.put("- **" + mdText(l.label) + "**: " + mdText(l.text))
			case spaceLine:
				m.put("- " + mdText(l.label) + ": ")
			case itemLine:
				m.put("- " + mdText(l.text))
			default:
				m.para(l.text)
			}
		}
		m.b.WriteByte('\n')
	}
	m.list("Where this is from", refLines(d.from, o.Catalog))
	m.para(Closing)
	return m.b.String()
}

// refLines names each source once.
func refLines(refs []catalog.Ref, c *catalog.Catalog) []string {
	seen := map[string]bool{"": true}
	var out []string
	for _, r := range refs {
		if !seen[r.Source] {
			seen[r.Source] = true
			out = append(out, sourceText(c, r.Source))
		}
	}
	return out
}
