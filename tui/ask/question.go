package ask

import (
	"fmt"
	"strings"

	"battwright/rules/house"
	"battwright/rules/units"
)

// told is what came of one question.
type told int

const (
	goesOn   told = iota // answered, or left as it is
	goesBack             // to the question before
	isDone               // the rest stays as it is
	askAgain             // the list of questions changed, or the question was not settled
)

// question asks one question until something settles it.
func (a *app) question(q house.Question, place, count string) (told, error) {
	a.talk.out.WriteByte('\n')
	for _, l := range a.questionLines(q, place, count) {
		a.talk.say(l)
	}
	for {
		line, err := a.line("Answer")
		if err != nil {
			return 0, err
		}
		if to, settled := a.settle(q, place, line); settled {
			return to, nil
		}
	}
}

// settle takes one typed line. Not settled means that something was said and
// the prompt comes again.
func (a *app) settle(q house.Question, place, line string) (told, bool) {
	if a.wordAsked(line) {
		if q.Kind == house.TextKind {
			a.talk.say("If that was your answer, type it in double quotes.")
		}
		return 0, false
	}
	w := wordIn(line)
	if !taken(q, w) {
		w = noWord
	}
	switch w {
	case wordHelp:
		a.help(q)
		return 0, false
	case wordBack:
		return goesBack, true
	case wordSkip:
		return goesOn, true
	case wordDone:
		return isDone, true
	case wordMore:
		a.s.Rough = !a.s.Rough
		a.s.WayChanged()
		a.sayKept()
		a.talk.say(map[bool]string{true: "From here on: the questions of the rough look.", false: "From here on: all questions."}[a.s.Rough])
		return askAgain, true
	case wordClear:
		a.keepAnswer(q, place, house.Answer{})
		a.talk.say("Taken away. " + a.standing(q, place))
		return 0, false
	case wordDontKnow:
		return a.dontKnow(q, place)
	}
	v, problem := answerTo(q, line)
	if problem != "" {
		if q.Kind == house.YesNoKind {
			problem += map[bool]string{true: " Type yes, no or don't know.", false: " Type yes or no."}[q.DontKnow]
		}
		a.problem(problem)
		return 0, false
	}
	doubt := a.s.Answered().Doubt(q, v)
	if doubt != "" && a.doubted != q.FullKey()+"="+v.Text {
		a.doubted = q.FullKey() + "=" + v.Text
		if !strings.HasSuffix(doubt, "?") {
			doubt = strings.TrimSuffix(doubt, ".") + "."
		}
		a.talk.say("Please check: " + doubt + " The same typed again is taken.")
		return 0, false
	}
	a.keepAnswer(q, place, v)
	return goesOn, true
}

// taken reports whether a word is one at this question: what may be an answer
// is an answer.
func taken(q house.Question, w word) bool {
	return w != wordDontKnow || q.DontKnow || q.Kind != house.TextKind
}

func (a *app) problem(text string) { a.talk.say("Not taken: " + text) }

func (a *app) dontKnow(q house.Question, place string) (told, bool) {
	if !q.DontKnow {
		a.problem("don't know is not needed here: an empty line leaves it as it is.")
		return 0, false
	}
	a.keepAnswer(q, place, house.DontKnow())
	v := a.s.Answered().ValueOf(q, a.s.House.Place(place))
	switch {
	case v.Answer.State == house.Given:
		a.talk.say("Noted as not known. Assumed meanwhile: " + a.shown(q, v.Answer) + ".")
	case q.Safety:
		a.talk.say("Noted as not known. Every caution that depends on it is given until you know.")
	default:
		a.talk.say("Noted as not known.")
	}
	return goesOn, true
}

// keepAnswer stores an answer and says what it changed.
func (a *app) keepAnswer(q house.Question, place string, v house.Answer) {
	if a.s.Answer(q, a.s.House.Place(place), v) {
		a.edited()
		if a.noted != nil {
			a.noted()
		}
	}
}

// sayKept keeps the answers, and warns when they cannot be kept.
func (a *app) sayKept() {
	a.s.Changed = ""
	a.edited()
}

// questionLines is a question as it is read out: the question, what can be
// answered, what stands there now, how to find out.
func (a *app) questionLines(q house.Question, place, count string) []string {
	out := []string{strings.TrimSpace(count + " " + q.Prompt.In(a.s.System))}
	if opts := q.Options; numbered(opts) {
		for i, o := range opts {
			out = append(out, fmt.Sprintf("%d. %s", i+1, o.Label.In(a.s.System)))
		}
	}
	if form := formOf(q, a.s.System); form != "" {
		out = append(out, form)
	}
	out = append(out, a.standing(q, place))
	if q.How != "" {
		out = append(out, "How to find out: "+q.How.In(a.s.System))
	}
	return out
}

// formOf says how an answer is typed, with its unit.
func formOf(q house.Question, s units.System) string {
	switch q.Kind {
	case house.YesNoKind:
		return "Type yes or no."
	case house.Choice:
		if numbered(q.Options) {
			return ""
		}
		labels := make([]string, len(q.Options))
		for i, o := range q.Options {
			labels[i] = o.Label.In(s)
		}
		return "Type one of " + strings.Join(labels, ", ") + "."
	case house.Many:
		return "Type the numbers of all that apply with commas between them, or none."
	case house.Sizes:
		return "Type each size with commas between them, or none: 2 of 36 in x 48 in, 1 of 3 ft x 6 ft 8 in."
	case house.Numbers:
		if q.Count == 0 {
			return "Type the numbers with commas between them" + exampleOf(q.Unit, s) + "."
		}
		return fmt.Sprintf("Type %d numbers with commas between them.", q.Count)
	case house.NumberKind:
		r := q.Range()
		if q.Whole {
			r = "a whole " + strings.TrimPrefix(r, "a ")
		}
		return "Type " + r + exampleOf(q.Unit, s) + "."
	}
	return ""
}

// exampleOf is how a figure with a unit may be typed. In SI too a bare number
// is in the unit of the file, so an example shows the other one with its name.
func exampleOf(unit string, s units.System) string {
	example := map[string][2]string{
		"ft":  {", for instance 12 or 12 ft 6 in", ", or with its unit: 3.6 m"},
		"in":  {", for instance 5 1/2", ", or with its unit: 140 mm"},
		"ft2": {"", ", or with its unit: 30 m2"},
		"R":   {"", ", or with its unit: RSI 3.7"},
	}[unit]
	if s == units.SI {
		return example[1]
	}
	return example[0]
}

// standing says what the answer is so far, and whether it is known.
func (a *app) standing(q house.Question, place string) string {
	p := a.s.House.Place(place)
	v := a.s.Answered().ValueOf(q, p)
	dunno := ""
	if q.DontKnow {
		dunno = " You may say don't know."
	}
	switch v.Source {
	case house.FromAnswer:
		return "Your answer so far: " + a.shown(q, v.Answer) + "."
	case house.FromDefault:
		return "Assumed: " + a.shown(q, v.Answer) + "." + dunno
	case house.FromUnknown:
		if belied := a.s.Answered().BeliedText(q, p); belied != "" {
			return "Your answer so far: " + belied + "; it counts as not known." + dunno
		}
		if a.s.Answered().Raw(q, p).State == house.Absent {
			return "Not known yet; nothing is assumed." + dunno
		}
		if v.Answer.State == house.Given {
			return "Your answer so far: don't know. Assumed meanwhile: " + a.shown(q, v.Answer) + "."
		}
		return "Your answer so far: don't know."
	}
	return "No answer is needed." + dunno
}

// shown is an answer in words. Where figures are shown in SI, what is typed is
// still in the units of the question, so both are said.
func (a *app) shown(q house.Question, v house.Answer) string {
	text := q.Show(v, a.s.System)
	if us := q.Show(v, units.US); us != text {
		text += " (" + us + ")"
	}
	if text == "" {
		return "nothing"
	}
	return strings.TrimSuffix(text, ".")
}

// help is what stands behind a question.
func (a *app) help(q house.Question) {
	for _, text := range a.s.HelpOf(q) {
		a.talk.say(text)
	}
	if !a.seen["words"] {
		a.seen["words"] = true
		a.talk.say(wordsToldOnce)
		return
	}
	a.talk.say("Words: help, back, don't know, skip, clear, done, more, save, quit, word and a trade word.")
}
