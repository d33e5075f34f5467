package session

import (
	"fmt"
	"maps"
	"strings"
	"sync/atomic"

	"battwright/rules/house"
	"battwright/rules/page"
)

// Step is a stop of the path.
type Step int

// The steps, from the start menu on.
const (
	AtStart Step = iota
	AtHouse
	AtPlaces
	AtMatters
	AtLook
	AtMoney
	AtOrder
	AtCheck
)

// ShowsPlan reports whether the views of a step show what the plan chose.
func ShowsPlan(at Step) bool { return at > AtPlaces }

// StepNames are the names of the steps; the start menu lies below them all.
var StepNames = []string{"", "house", "places", "what matters", "first look", "money", "order", "check"}

// At names a view or a form: what it is, and of what.
type At struct {
	ID  page.ActionID
	Arg string
}

// AtStep is what a step shows.
func AtStep(s Step) At {
	return At{ID: []page.ActionID{Start, HouseForm, Places, MattersForm, Look, MoneyForm, Order, Check}[s]}
}

// Kind is what the rows of a view are.
type Kind int

// The kinds.
const (
	Deeds  Kind = iota // things to do
	Things             // each may have a note of its own beside it
	Cursor             // things that only a cursor picks: no digit does
)

// View is a page with what can be done from it.
type View struct {
	Step    Step
	Kind    Kind
	Page    func(width int) page.Page
	Actions []page.Action
	Slow    func() *Work // what must be worked out before the page is shown, nil when nothing
	First   At           // what lines read out on arrival
	Move    string       // what moving the cursor does, and enter
	Choose  string
	Cursor  int  // where the cursor stands at first
	Prints  bool // the page is also written to a file
}

// Rows are the actions that screens list.
func (v View) Rows() []page.Action {
	var out []page.Action
	for _, a := range v.Actions {
		if a.Label != "" {
			out = append(out, a)
		}
	}
	return out
}

// Next is what an action leads to, as plain data: said, then closed, then opened.
type Next struct {
	Say     string
	Problem string   // what was typed is not taken: the prompt stays open
	Confirm *Confirm // is asked before anything else
	Work    *Work
	Close   int // how many views and forms above are left
	Open    At
	Page    *page.Page // a page made once, to be read
	Prompt  *Prompt
	Go      bool // to a step
	To      Step
	Left    bool // where it was left
	Unread  bool // keys typed before what opens comes up are not for it
	Quit    bool
	Saved   bool // the house is in its file now
	Last    bool // the cursor goes to the last row
}

// Go leads to a step.
func Go(to Step) Next { return Next{Go: true, To: to} }

// Work takes files or time. Do touches nothing of the session; what it gives
// back does, and says what comes next.
type Work struct {
	Doing string
	Do    func() func() Next
	Track *Track // of what can take seconds; nil for what takes as long as a disk
}

// Track tells those who wait how far a work is, and lets them leave it.
type Track struct {
	done, all atomic.Int64
	left      atomic.Bool
}

// Tell is called by the work; false tells it to stop.
func (t *Track) Tell(done, all int) bool {
	t.done.Store(int64(done))
	t.all.Store(int64(all))
	return !t.left.Load()
}

// Leave stops the work at its next step.
func (t *Track) Leave() { t.left.Store(true) }

// Far says how far the work is, empty before its first step.
func (t *Track) Far() string {
	if t.all.Load() == 0 {
		return ""
	}
	return fmt.Sprintf("looked at %d of %d questions", t.done.Load(), t.all.Load())
}

// Confirm asks whether what would be lost, or deleted, may be.
type Confirm struct {
	Lost   string // what would be lost, one of the sentences in kept.go; screens want the same choice twice
	Choice string
	Ask    string // a plain question instead
	Then   func() Next
}

// Prompt asks for one line of text: to write a file, to read one, or another.
type Prompt struct {
	Title, Hint string
	Why         string // why it is asked, when that is not plain
	Value       string // what stands there
	Ending      string // is added to the name of a file
	Saves       bool   // it saves the house
	Optional    bool   // an empty text is an answer
	Write       func() (string, error)
	Written     func(path string) Next
	Read        func(path, text string) Next
	Take        func(text string) (next Next, problem string)
	Warn        func(text string) string // what taking it would do
}

// Empty is what is said to an empty text.
func (p Prompt) Empty() string {
	if p.Write == nil && p.Read == nil {
		return "Type a name."
	}
	return "Type the name of a file."
}

// Form asks a list of questions.
type Form struct {
	Step    Step
	Title   string
	Intro   string
	Place   string // id of the place it is about, empty for the house
	Speeds  bool   // it has a rough look and all questions
	Named   bool   // the title is the name of the place, which may change here
	Pick    func() []house.Question
	Then    func() Next // after the last question
	Below   func(width int) page.Page
	Actions []page.Action
	On      *Session // whose questions they are
}

// views, forms and deeds are everything that can be done, by its name.
var (
	views = map[page.ActionID]maker{}
	forms = map[page.ActionID]func(s *Session, arg string) (Form, bool){}
	deeds = map[page.ActionID]doer{}
)

func add(made map[page.ActionID]maker, done map[page.ActionID]doer) {
	maps.Copy(views, made)
	maps.Copy(deeds, done)
}

// maker makes a view; ok is false when what it was about is gone.
type maker func(s *Session, arg string) (v View, ok bool)

// doer does what an action says.
type doer func(s *Session, arg string) Next

// View is the view of that name as things are now.
func (s *Session) View(at At) (View, bool) {
	make := views[at.ID]
	if make == nil {
		return View{}, false
	}
	v, ok := make(s, at.Arg)
	if v.Slow == nil && ShowsPlan(v.Step) { // no page shows a choice that the year may take back
		v.Slow = s.Settle
	}
	return v, ok
}

// Form is the form of that name, ok false when there is none.
func (s *Session) Form(at At) (Form, bool) {
	if make := forms[at.ID]; make != nil {
		return make(s, at.Arg)
	}
	return Form{}, false
}

// Act does what an action says: it opens a view or a form of that name, or does
// something.
func (s *Session) Act(a page.Action) Next {
	if do := deeds[a.ID]; do != nil {
		return do(s, a.Arg)
	}
	return Next{Open: At{a.ID, a.Arg}}
}

// reading is a view that is only read.
func (s *Session) reading(step Step, made func(width int) page.Page, actions ...page.Action) (View, bool) {
	return View{Step: step, Page: made, Actions: actions}, true
}

// blocks is a page without a title.
func blocks(made func() []page.Block) func(int) page.Page {
	return func(int) page.Page { return page.Page{Blocks: page.Full(made())} }
}

// titled is the page of a list.
func titled(title, intro string) func(int) page.Page {
	return func(int) page.Page { return page.Page{Title: title, Intro: intro} }
}

// Gone stands for a view of a place that is there no more.
func Gone() page.Page {
	b := page.Block{Rows: []page.Row{{Tone: page.Care, Text: "This place is gone."}}}
	return page.Page{Blocks: []page.Block{b}}
}

// written is the prompt for a file, which it leaves where it was asked for.
func written(title, example, ending string, content func() (string, error)) Next {
	return Next{Prompt: &Prompt{Title: title, Hint: NameOfFile(example), Ending: ending, Write: content, Written: func(path string) Next {
		return Next{Say: Written(path)}
	}}}
}

// read is the prompt for a file to be read.
func read(title, hint string, then func(path, text string) Next) Next {
	return Next{Prompt: &Prompt{Title: title, Hint: hint, Read: then}}
}

// problems is a page of what is wrong with a file.
func problems(title, intro string, err error) *page.Page {
	d := page.Page{Title: title, Intro: intro}
	d.Block("").Items(page.Care, strings.Split(err.Error(), "\n"))
	return &d
}

// Refusal takes the wrapping words off an error for a person.
func Refusal(err error) string {
	_, text, ok := strings.Cut(err.Error(), ": ")
	if !ok {
		text = err.Error()
	}
	return text
}
