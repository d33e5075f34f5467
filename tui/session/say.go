package session

import (
	"strings"
)

// What both modes say beside a page.
const (
	Purpose    = "Which blanket insulation goes where in your house, and why."
	WordsTitle = "Words of the trade"
	Priorities = "Safety rules and the R-value come first, then staying out of damp. Beyond that, what matters most? 0 does not matter, 5 matters most."
)

// Sentence begins with a capital letter.
func Sentence(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// What is said about files of the person.
const (
	NoWriting   = "files cannot be written here."
	NoReading   = "files cannot be read here."
	NotAllSaved = "Not everything is in your file yet. Save it before you leave?"
	NotKept     = "Your answers could not be kept: "
	SaveFirst   = ". Save them in a file before you leave?"
	PlainText   = "It is plain text; you can read and change it"
)

// NameOfFile asks for the name of a file to write.
func NameOfFile(example string) string { return "The name of a file, for instance " + example }

// PathOfFile asks for a file to read.
func PathOfFile(example string) string { return "The path of a .toml file, for instance " + example }

// Written says where something was written.
func Written(path string) string { return "Written to " + path }

// Format is a form something can be written in.
type Format struct{ Ext, Name string }

// PlanFormats are the forms the recommendation can be written in.
var PlanFormats = []Format{
	{"txt", "text, to read and print"}, {"md", "Markdown, for a web page"}, {"json", "JSON, for other programs"}, {"csv", "CSV, for a spreadsheet"},
}

// OrderFormat is a form the order can be written in; What names its file and
// tells the order from the asking sheet.
type OrderFormat struct{ Name, Ext, What string }

// OrderFormats are the forms the order can be written in.
var OrderFormats = []OrderFormat{
	{"Order and cut lists as text, to print", "txt", "order"},
	{"Order as Markdown, for a web page", "md", "order"},
	{"Order as JSON, for other programs", "json", "order"},
	{"Order as CSV, for a spreadsheet", "csv", "order"},
	{"Asking sheet as text, for paper", "txt", "ask"},
	{"Asking sheet as text, 40 columns for a phone", "txt", "ask-narrow"},
}
