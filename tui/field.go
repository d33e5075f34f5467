package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/session"
)

// field renders and edits one question, whatever its kind. It is the only
// component that does.
type field struct {
	q       house.Question
	place   string // id, empty for questions about the house
	input   textinput.Model
	cursor  int  // option under the cursor
	typed   bool // the text differs from the answer that is kept
	problem string
}

const maxTyped = 400 // far above any answer; a paste beyond it is cut

func newField(q house.Question, place string) field {
	in := textinput.New()
	in.Prompt = ""
	in.CharLimit = maxTyped
	in.Cursor.SetMode(2) // hidden: we draw our own, so that frames are stable
	f := field{q: q, place: place, input: in}
	return f
}

// textual reports whether the answer is typed. Letters are text there, in an
// empty field too: whoever writes "none" or "about 5000" means no command.
func (f *field) textual() bool {
	switch f.q.Kind {
	case house.NumberKind, house.TextKind, house.Numbers, house.Sizes:
		return true
	}
	return false
}

// settle keeps what was typed when the person moves on without enter. What is
// wrong stays in the field, with what would be right.
func (f *field) settle(s *state) {
	if f.textual() && f.typed {
		f.accept(s, s.House.Place(f.place))
	}
}

// focus puts the kept answer, or what is assumed, under the cursor.
func (f *field) focus(s *state) {
	p := s.House.Place(f.place)
	a := s.Answered()
	raw := a.Raw(f.q, p)
	if f.textual() {
		if !f.typed {
			f.input.SetValue("")
			if raw.State == house.Given {
				f.input.SetValue(plainValue(f.q, raw))
			}
		}
		f.input.Focus()
		f.input.CursorEnd()
		return
	}
	v := a.ValueOf(f.q, p)
	f.cursor = slices.IndexFunc(session.Choices(f.q), func(o house.Option) bool { return o.Value == optionOf(f.q, v.Answer) })
	if v.Source == house.FromUnknown || f.q.Safety && raw.State != house.Given {
		// Nothing is under the cursor until the person moves it: enter must not
		// turn "not known" into an answer that decides safety.
		f.cursor = -1
	}
	if f.q.Kind == house.Many {
		f.cursor = max(0, f.cursor)
	}
}

func (f *field) blur() { f.input.Blur() }

// plainValue is the answer as a person would type it again.
func plainValue(q house.Question, a house.Answer) string {
	if q.Kind == house.NumberKind {
		return q.Plain(a)
	}
	return q.Show(a, 0)
}

func optionOf(q house.Question, a house.Answer) string {
	if q.Kind == house.YesNoKind {
		if a.Bool {
			return "yes"
		}
		return "no"
	}
	return a.Text
}

// result of a key at a field.
type fieldResult int

const (
	stays   fieldResult = iota // the field used the key, or nobody did
	accepts                    // on to the next question
	ignores                    // not for the field
)

func (f *field) update(msg tea.KeyMsg, s *state) fieldResult {
	p := s.House.Place(f.place)
	switch {
	case msg.String() == "ctrl+d" || key.Matches(msg, keys.DontKnow) && !f.textual():
		return f.dontKnow(s, p)
	case msg.String() == "ctrl+u" || key.Matches(msg, keys.Clear) && !f.textual():
		f.clear(s, p)
		return stays
	case key.Matches(msg, keys.Accept):
		return f.accept(s, p)
	case f.textual():
		if msg.String() == "right" && f.complete(s) {
			return stays
		}
		return f.type_(msg)
	}
	return f.pick(msg, s, p)
}

func (f *field) dontKnow(s *state, p *house.Place) fieldResult {
	if !f.q.DontKnow {
		f.problem = f.notNeeded(s)
		return stays
	}
	f.typed, f.problem = false, ""
	f.input.SetValue("")
	s.answer(f.q, p, house.DontKnow())
	return accepts
}

// notNeeded says what may be done instead of "don't know", in the words of the
// screen.
func (f *field) notNeeded(s *state) string {
	q := f.q
	const head = `You need not say "don't know" here: leave it as it is, or `
	if f.textual() {
		return head + "type " + onScreen(q.Accepted()) + "."
	}
	var words []string
	for _, o := range session.Choices(f.q) {
		words = append(words, o.Label.In(s.System))
	}
	verb := map[bool]string{true: "tick", false: "choose"}[q.Kind == house.Many]
	return head + verb + " one of these: " + strings.Join(words, "; ") + "."
}

func (f *field) clear(s *state, p *house.Place) {
	f.typed, f.problem = false, ""
	f.input.SetValue("")
	s.answer(f.q, p, house.Answer{})
	f.focus(s)
}

// accept keeps what is there. An empty text keeps the answer there was, or
// what is assumed; a wrong one stays on the screen with what would be right.
func (f *field) accept(s *state, p *house.Place) fieldResult {
	if f.textual() {
		if !f.typed {
			return accepts
		}
		if strings.TrimSpace(f.input.Value()) == "?" {
			return f.asked(s, p)
		}
		a, err := f.q.Parse(f.input.Value())
		if err != nil {
			f.problem = sentence(err)
			return stays
		}
		if only, ok := f.onlyMatch(s); ok {
			a = house.Text(only)
		}
		if doubt := s.Answered().Doubt(f.q, a); doubt != "" && f.problem != doubt+keepsIt {
			f.problem = doubt + keepsIt
			return stays
		}
		f.typed, f.problem = false, ""
		s.answer(f.q, p, a)
		return accepts
	}
	if f.q.Kind == house.Many {
		if s.Answered().Raw(f.q, p).State == house.Absent && f.q.Default != nil {
			s.answer(f.q, p, s.Answered().ValueOf(f.q, p).Answer)
		}
		return accepts
	}
	f.choose(s, p)
	return accepts
}

// onlyMatch is the one listed name that begins as what was typed, where exactly
// one does.
func (f *field) onlyMatch(s *state) (name string, ok bool) {
	typed := strings.TrimSpace(f.input.Value())
	list := s.Answered().Suggest(f.q, typed)
	if len(list) != 1 || len(list[0]) < len(typed) || !strings.EqualFold(list[0][:len(typed)], typed) {
		return "", false
	}
	return list[0], true
}

// keepsIt follows what is odd about an answer: accepted again it is kept.
const keepsIt = "  (enter again keeps it)"

// asked is a question mark typed as the whole answer: nobody lives in a state
// of that name, so it means "I don't know".
func (f *field) asked(s *state, p *house.Place) fieldResult {
	if f.q.DontKnow {
		return f.dontKnow(s, p)
	}
	f.problem = "? is no answer here: f1 tells why we ask; empty leaves it as it is"
	return stays
}

func (f *field) choose(s *state, p *house.Place) {
	opts := session.Choices(f.q)
	if len(opts) == 0 || f.cursor < 0 {
		return
	}
	v := opts[min(f.cursor, len(opts)-1)].Value
	a := house.Text(v)
	if f.q.Kind == house.YesNoKind {
		a = house.YesNo(v == "yes")
	}
	f.problem = ""
	s.answer(f.q, p, a)
}

// sentence takes the wrapping words off an error for a person.
func sentence(err error) string { return onScreen(session.Refusal(err)) }

// onScreen turns the words of files into those of the screens.
func onScreen(s string) string {
	return strings.NewReplacer(`, or "unknown"`, ", or ctrl+d for don't know", "true or false", "yes or no").Replace(s)
}
