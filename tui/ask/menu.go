package ask

import (
	"fmt"
	"strings"

	"battwright/rules/house"
	"battwright/rules/report"
	"battwright/tui/session"
)

// line prompts and reads a line. What works everywhere is done here: quit,
// save, and lines that are too long.
func (a *app) line(prompt string) (string, error) {
	for {
		line, long, err := a.talk.typed(prompt)
		if err != nil {
			return "", err
		}
		switch {
		case long:
			a.problem(fmt.Sprintf("a line may have at most %d characters.", maxTyped))
		case wordIn(line) == wordSave:
			if err := a.whole().save(); err != nil {
				return "", err
			}
		case wordIn(line) == wordQuit:
			leave, err := a.whole().leave()
			if err != nil {
				return "", err
			}
			if leave {
				return "", errQuit
			}
		default:
			return line, nil
		}
	}
}

// reply says a question and reads the answer to it.
func (a *app) reply(question string) (string, error) {
	a.talk.say(question)
	return a.line("Answer")
}

// wordAsked explains a trade word: "word kraft".
func (a *app) wordAsked(line string) bool {
	first, rest, _ := strings.Cut(line, " ")
	if f := fold(first); f != "word" && f != "words" {
		return false
	}
	a.glossary(strings.TrimSpace(rest))
	return true
}

func (a *app) glossary(term string) {
	if term == "" {
		a.talk.say(session.Words.Label + ": " + strings.Join(a.s.Catalog().Terms(), ", ") + ".")
		a.talk.say("Type word and one of them, even misspelled, or the name of a rule: it stands in brackets beside a reason.")
		return
	}
	found, near := report.TermBlocks(a.s.Catalog(), term, a.s.System)
	a.blocks(found)
	switch {
	case len(found) > 0:
	case near != "":
		a.talk.say("No such word here. Did you mean " + near + "?")
	default:
		a.talk.say("No such word here.")
	}
}

// row is one thing that a menu offers: picked by its number, or by its word
// when it has one.
type row struct {
	word string // "" for a numbered row
	arg  string // what may follow the word: "number"
	text string
	do   func(arg string) (stop, error)
}

// menu is a list of things to do. The head is written anew each time; rows are
// made anew, since what they list may change.
type menu struct {
	name string // for telling the words in full only once
	head func()
	rows func() []row
	back stop
}

// run shows the menu until a row leads elsewhere.
func (a *app) run(m menu) (stop, error) {
	for {
		m.head()
		rows := m.rows()
		a.list(m.name, rows)
		to, err := a.chosen(m, rows)
		if err != nil || to != here {
			return to, err
		}
	}
}

func (a *app) list(name string, rows []row) {
	a.sayNumbered(rows)
	var words []string
	for _, r := range rows {
		if r.word != "" {
			words = append(words, strings.TrimSpace(r.word+" "+r.arg))
		}
	}
	if len(words) == 0 {
		return
	}
	if a.seen[name] {
		a.talk.say("Or type: " + strings.Join(words, ", ") + ", back, help.")
		return
	}
	a.seen[name] = true
	a.sayWords(rows)
}

func (a *app) sayNumbered(rows []row) {
	n := 0
	for _, r := range rows {
		if r.word == "" {
			n++
			a.talk.hang(fmt.Sprintf("%d. ", n), r.text)
		}
	}
}

func (a *app) sayWords(rows []row) {
	a.talk.say("What you may type here:")
	for _, r := range rows {
		if r.word != "" {
			a.talk.labelled(strings.TrimSpace(r.word+" "+r.arg), r.text)
		}
	}
	a.talk.labelled("back, help, again, save, quit", "always; help tells what may be typed, again says the page once more")
}

// chosen reads lines until one of them leads elsewhere or changes what the menu
// shows. What was only read out does not bring the menu again.
func (a *app) chosen(m menu, rows []row) (stop, error) {
	for {
		line, err := a.line("Your choice")
		if err != nil {
			return here, err
		}
		if r, arg, ok := match(rows, line); ok {
			if to, err := r.do(arg); err != nil || to != same {
				return to, err
			}
			continue
		}
		if fold(line) == wordAgain {
			return here, nil
		}
		if a.wordAsked(line) {
			continue
		}
		switch wordIn(line) {
		case wordBack:
			if m.back != here {
				return m.back, nil
			}
			a.problem("there is nothing to go back to.")
		case wordHelp:
			a.sayNumbered(rows)
			a.sayWords(rows)
		case wordSkip:
			a.talk.say("Type a number or a word from the list; help repeats them.")
		default:
			if to, ok := stopCalled(line); ok {
				return to, nil
			}
			a.problem(fmt.Sprintf("%q is not offered here. Type help to hear what is.", short(line)))
		}
	}
}

// match finds the row that a line asks for, with what follows its word.
func match(rows []row, line string) (row, string, bool) {
	said := fold(line)
	n := countIn(said)
	for _, r := range rows {
		if r.word == "" {
			if n--; n == 0 {
				return r, "", true
			}
			continue
		}
		if said == r.word {
			return r, "", true
		}
		if rest, ok := strings.CutPrefix(said, r.word+" "); ok && r.arg != "" {
			return r, rest, true
		}
	}
	return row{}, "", false
}

// stopCalled lets a person go to any part of the path by its name.
func stopCalled(line string) (stop, bool) {
	to, ok := map[string]stop{
		"start": atStart, "house": atHouse, "places": atPlaces, "matters": atMatters, "what matters": atMatters, "look": atLook, "first look": atLook,
		"money": atMoney, "order": atOrder, "check": atCheck,
	}[strings.TrimPrefix(fold(line), "go ")]
	return to, ok
}

func goTo(to stop) func(string) (stop, error) {
	return func(string) (stop, error) { return to, nil }
}

// stays is a row that reads something out and changes nothing.
func stays(do func()) func(string) (stop, error) {
	return func(string) (stop, error) { do(); return same, nil }
}

// placeFor finds the place that a number after a word means; alone, the only
// one there is.
func (a *app) placeFor(word, arg string) *house.Place {
	n := a.numberFor(word, arg, len(a.s.House.Places))
	if n == 0 {
		return nil
	}
	return &a.s.House.Places[n-1]
}

// numberFor reads the number after a word, 1 to most; alone, it means the only
// one there is. 0 means that it was none, and was said.
func (a *app) numberFor(word, arg string, most int) int {
	n := countIn(fold(arg))
	switch {
	case arg == "" && most == 1:
		return 1
	case n >= 1 && n <= most:
		return n
	case most == 1:
		a.problem(fmt.Sprintf("%q is no number here. There is only one: %s 1.", short(arg), word))
	case arg == "":
		a.problem(fmt.Sprintf("say which, from 1 to %d, for instance: %s 1.", most, word))
	default:
		a.problem(fmt.Sprintf("%q is not a number from 1 to %d, for instance: %s 1.", short(arg), most, word))
	}
	return 0
}
