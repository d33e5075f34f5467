package ask

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/page"
	"battwright/tui/session"
)

// line prompts and reads a line. What works everywhere is done here: quit,
// save, and lines that cannot be taken.
func (a *app) line(prompt string) (string, error) {
	for {
		line, problem, err := a.talk.typed(prompt)
		if err != nil {
			return "", err
		}
		switch {
		case problem != "":
			a.problem(problem)
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
	d := a.s.WordPage(term)
	if term == "" {
		d.Title, d.Intro = session.WordsTitle, "Type word and "+session.AWord
		a.readPage(d)
		return
	}
	a.blocks(d.Blocks)
}

// numberedRow is a row that is picked by its number, in one sentence.
func numberedRow(v session.View, x page.Action) string {
	label := strings.Join(strings.Fields(x.Label), " ")
	switch {
	case x.Note == "":
		return label
	case v.Kind == session.Deeds:
		return label + ". " + x.Note
	}
	return label + ": " + strings.ReplaceAll(x.Note, "\n", "; ")
}

// spoken is a word with what may follow it.
func spokenWord(x page.Action) string {
	if x.Of != "" {
		return x.Word + " number"
	}
	return x.Word
}

func (a *app) list(name string, v session.View) {
	a.sayNumbered(v)
	var words []string
	for _, x := range v.Actions {
		if x.Word != "" {
			words = append(words, spokenWord(x))
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
	a.sayWords(v)
}

func (a *app) sayNumbered(v session.View) {
	n := 0
	for _, x := range v.Actions {
		if x.Word == "" && x.Label != "" {
			n++
			a.talk.hang(fmt.Sprintf("%d. ", n), numberedRow(v, x))
		}
	}
}

func (a *app) sayWords(v session.View) {
	a.talk.say("What you may type here:")
	for _, x := range v.Actions {
		if x.Word != "" {
			a.talk.labelled(spokenWord(x), x.About())
		}
	}
	a.talk.labelled("back, help, again, save, quit", "always; help tells what may be typed, again says the page once more")
}

// chosen reads lines until one of them leads elsewhere or changes what the view
// shows. What was only read out does not bring it again.
func (a *app) chosen(v session.View, back stop) (stop, error) {
	for {
		line, err := a.line("Your choice")
		if err != nil {
			return here, err
		}
		if x, arg, ok := match(v.Actions, line); ok {
			if x.Of != "" {
				if x.Arg, ok = a.argFor(v, x, arg); !ok {
					continue
				}
			}
			if to, err := a.act(x); err != nil || to != same {
				return to, err
			}
			continue
		}
		if fold(line) == wordAgain {
			a.again = true
			return here, nil
		}
		if a.wordAsked(line) {
			continue
		}
		switch wordIn(line) {
		case wordBack:
			if back != here {
				return back, nil
			}
			a.problem("there is nothing to go back to.")
		case wordHelp:
			a.sayNumbered(v)
			a.sayWords(v)
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

// match finds the action that a line asks for, with what follows its word.
func match(actions []page.Action, line string) (page.Action, string, bool) {
	said := fold(line)
	n := countIn(said)
	for _, x := range actions {
		if x.Word == "" {
			if x.Label == "" {
				continue
			}
			if n--; n == 0 {
				return x, "", true
			}
			continue
		}
		if said == x.Word {
			return x, "", true
		}
		if rest, ok := strings.CutPrefix(said, x.Word+" "); ok && x.Of != "" {
			return x, rest, true
		}
	}
	return page.Action{}, "", false
}

// stopCalled lets a person go to any part of the path by its name.
func stopCalled(line string) (stop, bool) {
	name := strings.TrimPrefix(fold(line), "go ")
	if long, ok := map[string]string{"start": "", "matters": session.StepNames[session.AtMatters], "look": session.StepNames[session.AtLook]}[name]; ok {
		name = long
	} else if name == "" {
		return here, false
	}
	at := slices.Index(session.StepNames, name)
	return stop(at), at >= 0
}

// argFor finds the row that a number after a word means; alone, the only one there
// is. False means that it was none, and was said.
func (a *app) argFor(v session.View, x page.Action, arg string) (string, bool) {
	var rows []string
	for _, r := range v.Actions {
		if r.ID == x.Of && r.Of == "" && r.Word == "" && r.Arg != "" {
			rows = append(rows, r.Arg)
		}
	}
	n, most := countIn(fold(arg)), len(rows)
	switch {
	case arg == "" && most == 1:
		return rows[0], true
	case n >= 1 && n <= most:
		return rows[n-1], true
	case most == 1:
		a.problem(fmt.Sprintf("%q is no number here. There is only one: %s 1.", short(arg), x.Word))
	case arg == "":
		a.problem(fmt.Sprintf("say which, from 1 to %d, for instance: %s 1.", most, x.Word))
	default:
		a.problem(fmt.Sprintf("%q is not a number from 1 to %d, for instance: %s 1.", short(arg), most, x.Word))
	}
	return "", false
}
