// Package page is a page of the program as plain data: what is said, how it is
// meant and what can be done from there. Pages are made once, in rules/pages;
// screens, lines, text and Markdown only set them, each in its own way.
package page

import (
	"cmp"
	"fmt"
	"slices"
)

// Tone is how a row is meant.
type Tone int

// The tones of a row.
const (
	Plain Tone = iota
	Quiet      // said beside the matter
	Good
	Care // must not be missed
	Stop // can hurt people
)

// Loud reports whether a tone must not be missed, whatever the row is.
func (t Tone) Loud() bool { return t >= Care }

// Kind is how a row is set.
type Kind int

// The kinds of a row.
const (
	Text   Kind = iota // a paragraph
	Item               // belongs to the title above it; with a label, "Label: Text"
	Tick               // a thing to tick off
	Sub                // about the row above
	Fact               // Label and Text side by side; without a label it goes on with the fact above
	Blank              // a blank to fill in: Text is what to ask, Unit what to write
	Room               // room to write behind Label
	Figure             // lines drawn already, to be set as they are, in Lines
)

// Mark is what a row is in a list of reasons, cautions or steps.
type Mark int

// The marks of a row.
const (
	NoMark  Mark = iota
	For          // a reason for it
	Against      // a reason against it
	Caution
	Open // a question that is open
	Step
	Taken // what the plan takes
)

// Row is one row of a page.
type Row struct {
	Kind  Kind
	Tone  Tone
	Mark  Mark
	Lead  string // a rank or a number before the text: "1."
	Label string
	Text  string
	Unit  string // of a blank: $, in, mm, ft2, m2 or empty
	Lines []string
	// To is the action that tells more or mends what the row says; Then says
	// what it does: "h tells all of them", "how tells all of them".
	To   ActionID
	Then string
}

// Block is a part of a page; it may have no title.
type Block struct {
	ID    string // what it is, for views that show a part of a page
	Place string // id of the place it is about, if it is about one
	Title string
	Table [][]string // the first row is the head
	Rows  []Row
}

// ActionID names what can be done from a page.
type ActionID string

// Action is something that can be done from a page, as plain data. Screens show
// it as a row of a list where it has a label, and by its key where it has a tag;
// lines by its word, else as a numbered row.
type Action struct {
	ID    ActionID
	Arg   string   // what it acts on: the id of a place, the name of a person ...
	Of    ActionID // it acts on a row of this id: the one under the cursor, or the one whose number is said
	Key   string   // the names of its key, the one that is shown first: "n enter"
	Tag   string   // what it does, beside the key
	Word  string
	Label string // what it does, as a row
	Note  string // more about it; what explains the word
}

// About explains the word of an action.
func (a Action) About() string { return cmp.Or(a.Note, a.Label, a.Tag) }

// Page is one page.
type Page struct {
	Title, Intro string
	Blocks       []Block
	Sources      []string // where its figures are from, named under it
	End          string   // the sentence that ends it
}

// Block begins a new part of the page.
func (p *Page) Block(title string) *Block {
	p.Blocks = append(p.Blocks, Block{Title: title})
	return &p.Blocks[len(p.Blocks)-1]
}

// Cite names a source under the page, once.
func (p *Page) Cite(source string) {
	if !slices.Contains(p.Sources, source) {
		p.Sources = append(p.Sources, source)
	}
}

// Add puts a row under a block.
func (b *Block) Add(r Row) { b.Rows = append(b.Rows, r) }

// Say adds a paragraph.
func (b *Block) Say(format string, args ...any) { b.Add(Row{Text: fmt.Sprintf(format, args...)}) }

// Loud adds a paragraph that must not be missed.
func (b *Block) Loud(format string, args ...any) {
	b.Add(Row{Tone: Care, Text: fmt.Sprintf(format, args...)})
}

// Item adds a thing that belongs to the title.
func (b *Block) Item(t Tone, text string) { b.Add(Row{Kind: Item, Tone: t, Text: text}) }

// Items adds several.
func (b *Block) Items(t Tone, list []string) {
	for _, text := range list {
		b.Item(t, text)
	}
}

// Tick adds a thing to tick off.
func (b *Block) Tick(t Tone, text string) { b.Add(Row{Kind: Tick, Tone: t, Text: text}) }

// Ticks adds several.
func (b *Block) Ticks(t Tone, list []string) {
	for _, text := range list {
		b.Tick(t, text)
	}
}

// Sub adds a row about the one above.
func (b *Block) Sub(format string, args ...any) {
	b.Add(Row{Kind: Sub, Tone: Quiet, Text: fmt.Sprintf(format, args...)})
}

// Fact adds "Label: text".
func (b *Block) Fact(t Tone, label, text string) {
	b.Add(Row{Kind: Fact, Tone: t, Label: label, Text: text})
}

// Blank adds a blank to fill in.
func (b *Block) Blank(text, unit string) { b.Add(Row{Kind: Blank, Text: text, Unit: unit}) }

// Room adds room to write.
func (b *Block) Room(label string) { b.Add(Row{Kind: Room, Label: label}) }

// LabelColumn is the room that the labels of a block take, at most the given
// one, a space included.
func (b Block) LabelColumn(least, most int) int {
	room := least
	for _, r := range b.Rows {
		if r.Kind == Fact {
			room = max(room, len([]rune(r.Label))+1)
		}
	}
	return min(room, most)
}

// Full are the blocks that have anything to say.
func Full(blocks []Block) []Block {
	var out []Block
	for _, b := range blocks {
		if len(b.Rows)+len(b.Table) > 0 {
			out = append(out, b)
		}
	}
	return out
}
