package session

import (
	"fmt"
	"strings"

	"battwright/rules/house"
)

// Words over a part of the work.
const (
	Priorities  = "Safety rules and the R-value come first, then staying out of damp. Beyond that, what matters most? 0 does not matter, 5 matters most."
	Glance      = "The house at a glance"
	SizeToOrder = "What must be known before blankets are ordered. Its other questions: under the list of places."
	SizeFirst   = "Size first, then what it is made of."
	Ladder      = "What the next dollars buy"
	LadderIntro = "Each line is the best plan for that much money, judged by your other priorities. The R-value is met wherever a blanket can, and none gets damp where another would not."
	LadderTake  = "A number takes that line: its price becomes the budget, to be spent, and its blankets the plan."
	NotOrdered  = "not in the order as the plan is now"
	LadderNote  = "what the next dollars buy"
	NoLadder    = "The ladder could not be worked out: "
	NothingYet  = "There is nothing to buy yet."
	PlansIntro  = "A saved plan keeps priorities and budget under a name, in your house file. Choosing one puts its priorities and its budget in place."
	AllProposed = "Every kind of place that the shape calls for is there already."
	UsualSize   = "The usual size of a package was put beside the price: compare it with the label."
	FindOutNote = "what is not known yet"
)

// An enter behind a key that chose and went on is meant for that choice: taken
// for the next question it would pass it unread.
const (
	OneEnter     = "A digit, y or n chooses and goes on at once. An enter right after it is left out, so that it skips nothing."
	AlreadyTaken = "Your choice was taken already, so that enter was left out. Enter again goes on."
	EnterEarly   = "That enter came right after the page opened, so it was left out. Enter again takes the line."
)

// FirstQuestion is said where nothing lies before.
const FirstQuestion = "This is the first question. g leads to every step and to the start screen."

// The last step.
const (
	Check       = "Hand over and check"
	CheckIntro  = "Write down what is agreed, compare offers, measure what was done. Do not cover a blanket before the insulation inspection."
	CoverNote   = "the cautions and steps of every place"
	SheetsNote  = "what is agreed, place by place, with the points it is accepted by"
	SheetsIntro = "One sheet for each place: what goes in, what comes first, what stays clear, the points it is accepted by."
	PagesNote   = "framer, electrician, plumber, installer, inspector, store, yourself"
	PagesIntro  = "What each must know, on one page; also fits a phone."
	ReadyNote   = "what to see, sign, photograph and keep"
	OfferBlank  = "an offer file to fill in, with a table for each place of the plan"
	WalkIntro   = "Room by room, while all is open: labels, thickness, gaps. Stop whenever you like; what you typed is kept."
	WalkHint    = "Leave open what you did not look at."
	WalkFile    = "plain text that you can read, change and open again"
	TakesPlace  = "It takes the place of what was typed here."
)

// OffersIntro tells what offers are laid side by side for.
func OffersIntro(most int) string {
	return fmt.Sprintf("Up to %d offers beside the plan: what is missing, what does not add up, what to ask on the phone.", most)
}

// AsFarAsPossible heads what could not be read of a file.
func AsFarAsPossible(path string) string { return path + " was read as far as possible" }

// NotRead heads what is wrong with a file of which nothing could be read.
func NotRead(path string) string { return path + " could not be read; what was noted is still here" }

// Row is a line of a menu: what it does, and more about it.
type Row struct{ Label, Note string }

// Text is the line in one sentence after the other.
func (r Row) Text() string {
	if r.Note == "" {
		return r.Label
	}
	return r.Label + ". " + r.Note
}

// The rows of the start menu.
var (
	Demo  = Row{"Look at a demo house", "An invented house with every kind of place. Change anything; it is not yours."}
	Open  = Row{"Open a house file", ""}
	Words = Row{"Words of the trade", ""}
)

// Rough and Whole are the two ways to begin, with the number of questions that
// each asks about a usual new house.
func Rough(l *house.QuestionList) Row {
	n := l.Counts(true)
	return Row{"A new house, rough look", fmt.Sprintf("About %d questions on the house and %d on what matters; most may stay as they are. What goes where, and roughly what it costs.", n.House, n.Matters)}
}

// Whole is the way to an order.
func Whole(l *house.QuestionList) Row {
	n := l.Counts(false)
	return Row{"A new house, ready to order", fmt.Sprintf("About %d questions on the house, %d on size and frame of its %d places and %d on what matters. With a tape measure: sizes you can buy by.", n.House, n.Sizes, n.Places, n.Matters)}
}

// OpenAnswers counts what is not known and what is assumed.
func OpenAnswers(unknown, assumed int) string {
	return fmt.Sprintf("%s not known yet, %d assumed", counted(unknown, "answer"), assumed)
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Purpose is what the program is for.
const Purpose = "Which blanket insulation goes where in your house, and why."

// NoDemo says that the built-in house is broken.
const NoDemo = "The demo house could not be read"

// TooManyPlaces and TooManyPlans say that a house is full.
func TooManyPlaces() string {
	return fmt.Sprintf("a house can have at most %d places.", house.MaxPlaces)
}

// TooManyPlans says that no more plans can be kept under a name.
func TooManyPlans() string {
	return fmt.Sprintf("a house can have at most %d saved plans.", house.MaxVariants)
}

// Sentence begins with a capital letter.
func Sentence(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// OffLadder says where a plan is that no line of the ladder stands for.
func OffLadder(total string) string {
	return "Your plan now, about " + total + ", is none of these lines: price counts among your priorities, and here it is left out."
}
