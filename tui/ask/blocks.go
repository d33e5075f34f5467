package ask

import (
	"battwright/rules/page"
	"battwright/tui/session"
)

// readPage says a page from its title to its end.
func (a *app) readPage(d page.Page) {
	a.talk.title(d.Title)
	if d.Intro != "" {
		a.talk.say(d.Intro)
	}
	a.blocks(d.Blocks)
	if len(d.Sources) > 0 {
		a.talk.title("Where this is from")
		for _, l := range d.Sources {
			a.talk.hang("- ", l)
		}
	}
	if d.End != "" {
		a.talk.title(d.End)
	}
}

// blocks says parts of a page.
func (a *app) blocks(blocks []page.Block) {
	for _, b := range blocks {
		if b.Title != "" {
			a.talk.title(b.Title)
		}
		a.table(b.Table)
		label := ""
		for _, r := range b.Rows {
			if r.Label != "" {
				label = r.Label
			}
			a.row(r, label)
		}
	}
}

// table says each cell of a table with its row and its column.
func (a *app) table(table [][]string) {
	if len(table) < 2 {
		return
	}
	for _, row := range table[1:] {
		for i := 1; i < len(row); i++ {
			cell := row[i]
			if cell == "-" {
				cell = "nothing"
			}
			a.talk.say(row[0] + ", " + table[0][i] + ": " + cell)
		}
	}
}

// row says one row; label is its own or that of the facts it goes on with. What
// a screen shows by color or by a sign is a word here.
func (a *app) row(r page.Row, label string) {
	text := r.Text
	if r.Lead != "" && r.Lead != "-" {
		text = r.Lead + " " + text
	}
	if r.To != "" {
		text += ": " + session.Leads[r.To].Word + " " + r.Then
	}
	switch {
	case r.Mark == page.For:
		a.talk.labelled("For it", text)
	case r.Mark == page.Against:
		a.talk.labelled("Against it", text)
	case r.Kind == page.Fact && r.Mark != page.NoMark:
		a.talk.labelled(label, text)
	case r.Kind == page.Fact:
		a.talk.labelled(r.Label, text)
	case r.Kind == page.Blank:
		a.talk.hang("To write down: ", withUnit(text, r.Unit))
	case r.Kind == page.Room:
		a.talk.hang("To write down: ", r.Label)
	case r.Tone == page.Stop && r.Label != "":
		a.talk.hang("Care: ", r.Label+": "+text)
	case r.Tone == page.Stop, r.Kind == page.Text && r.Tone == page.Care:
		a.talk.hang("Care: ", text)
	case r.Kind == page.Text, r.Kind == page.Sub:
		a.talk.say(text)
	case r.Kind == page.Figure: // its sentence is said beside it
	case r.Label != "":
		a.talk.labelled(r.Label, text)
	default:
		a.talk.hang("- ", text)
	}
}
