package ask

import "strings"

// word is something said instead of an answer.
type word int

const (
	noWord word = iota
	wordHelp
	wordBack
	wordSkip
	wordDontKnow
	wordClear
	wordDone
	wordMore
	wordSave
	wordQuit
)

// The words, with the other ways people say them. A text that reads like one
// of them is given in double quotes.
var spoken = map[string]word{
	"help": wordHelp, "?": wordHelp, "why": wordHelp,
	"back": wordBack, "b": wordBack,
	"": wordSkip, "skip": wordSkip, "next": wordSkip,
	"don't know": wordDontKnow, "dont know": wordDontKnow, "i don't know": wordDontKnow, "i do not know": wordDontKnow, "do not know": wordDontKnow, "idk": wordDontKnow, "not sure": wordDontKnow, "unknown": wordDontKnow,
	"clear": wordClear,
	"done":  wordDone,
	"more":  wordMore, "fewer": wordMore,
	"save": wordSave,
	"quit": wordQuit, "exit": wordQuit, "q": wordQuit,
}

// wordAgain says a menu and what stands above it once more.
const wordAgain = "again"

// fold makes what is said comparable: small letters, one kind of apostrophe,
// single spaces, no full stop.
func fold(s string) string {
	s = strings.ToLower(strings.ReplaceAll(s, "\u2019", "'"))
	return strings.TrimSuffix(strings.Join(strings.Fields(s), " "), ".")
}

// wordIn gives the word a line says, or noWord.
func wordIn(line string) word { return spoken[fold(line)] }

// unquoted takes the quotes off a text that is meant as it stands.
func unquoted(line string) (text string, quoted bool) {
	if n := len(line); n >= 2 && line[0] == '"' && line[n-1] == '"' {
		return strings.TrimSpace(line[1 : n-1]), true
	}
	return line, false
}

const wordsToldOnce = "At any question you may type, instead of an answer: " +
	"help (why we ask and how to find out), back, don't know, skip or an empty line (leave it as it is or as assumed), " +
	"clear (take an answer away), done (leave the rest of these questions as they are), more (ask more or fewer questions), save, quit, " +
	"or word and a word of the trade, for instance: word kraft. " +
	"A name that reads like one of these goes in double quotes."
