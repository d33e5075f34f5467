package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/style"
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

func (f *field) textual() bool {
	switch f.q.Kind {
	case house.NumberKind, house.TextKind, house.Numbers, house.Sizes:
		return true
	}
	return false
}

// typing reports whether letters belong to the field. Numbers need no letters
// but those of units, so the single-letter keys stay free there.
func (f *field) typing() bool {
	return f.q.Kind == house.TextKind || f.q.Kind == house.Numbers || f.q.Kind == house.Sizes
}

// letters reports whether letters go into the text: also in a number with a
// unit that is being typed, so that "12 inches" and "500 dollars" can be written
// out. In a number that only counts they stay keys.
func (f *field) letters() bool {
	return f.typing() || f.textual() && f.typed && f.q.Unit != "" && f.q.Unit != "0-5"
}

// settle keeps what was typed when the person moves on without enter. What is
// wrong stays in the field, with what would be right.
func (f *field) settle(s *session) {
	if f.textual() && f.typed {
		f.accept(s, s.house.Place(f.place))
	}
}

// focus puts the kept answer, or what is assumed, under the cursor.
func (f *field) focus(s *session) {
	p := s.house.Place(f.place)
	a := s.answered()
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
	f.cursor = slices.IndexFunc(f.options(), func(o house.Option) bool { return o.Value == optionOf(f.q, v.Answer) })
	if v.Source == house.FromUnknown {
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

// options are what can be picked; yes and no are options too.
func (f *field) options() []house.Option {
	if f.q.Kind == house.YesNoKind {
		return []house.Option{{Value: "yes", Label: "yes"}, {Value: "no", Label: "no"}}
	}
	return f.q.Options
}

// result of a key at a field.
type fieldResult int

const (
	stays   fieldResult = iota // the field used the key, or nobody did
	accepts                    // on to the next question
	ignores                    // not for the field
)

func (f *field) update(msg tea.KeyMsg, s *session) fieldResult {
	p := s.house.Place(f.place)
	switch {
	case msg.String() == "ctrl+d" || key.Matches(msg, keys.DontKnow) && !f.letters():
		return f.dontKnow(s, p)
	case msg.String() == "ctrl+u" || key.Matches(msg, keys.Clear) && !f.letters():
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

func (f *field) dontKnow(s *session, p *house.Place) fieldResult {
	if !f.q.DontKnow {
		f.problem = `"don't know" is not needed here: leave it as it is, or ` + onScreen(f.q.Accepted())
		return stays
	}
	f.typed, f.problem = false, ""
	f.input.SetValue("")
	s.answer(f.q, p, house.DontKnow())
	return accepts
}

func (f *field) clear(s *session, p *house.Place) {
	f.typed, f.problem = false, ""
	f.input.SetValue("")
	s.answer(f.q, p, house.Answer{})
	f.focus(s)
}

// accept keeps what is there. An empty text keeps the answer there was, or
// what is assumed; a wrong one stays on the screen with what would be right.
func (f *field) accept(s *session, p *house.Place) fieldResult {
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
		if doubt := s.answered().Doubt(f.q, a); doubt != "" && doubt != f.problem {
			f.problem = doubt // the same answer accepted again is kept
			return stays
		}
		f.typed, f.problem = false, ""
		s.answer(f.q, p, a)
		return accepts
	}
	if f.q.Kind == house.Many {
		if s.answered().Raw(f.q, p).State == house.Absent && f.q.Default != nil {
			s.answer(f.q, p, s.answered().ValueOf(f.q, p).Answer)
		}
		return accepts
	}
	f.choose(s, p)
	return accepts
}

// asked is a question mark typed as the whole answer: nobody lives in a state
// of that name, so it means "I don't know".
func (f *field) asked(s *session, p *house.Place) fieldResult {
	if f.q.DontKnow {
		return f.dontKnow(s, p)
	}
	f.problem = "? is no answer here: f1 tells why we ask; empty leaves it as it is"
	return stays
}

func (f *field) choose(s *session, p *house.Place) {
	opts := f.options()
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

// complete takes the first suggestion when the cursor stands at the end.
func (f *field) complete(s *session) bool {
	v := f.input.Value()
	if f.input.Position() < len([]rune(v)) {
		return false
	}
	list := s.answered().Suggest(f.q, v)
	if len(list) == 0 || strings.EqualFold(list[0], v) {
		return false
	}
	f.input.SetValue(list[0])
	f.input.CursorEnd()
	f.typed, f.problem = true, ""
	return true
}

func (f *field) type_(msg tea.KeyMsg) fieldResult {
	switch {
	case key.Matches(msg, keys.Up), key.Matches(msg, keys.Down), slices.Contains(neverTyped, msg.String()):
		return ignores
	case !f.letters() && isPlainLetter(msg):
		return ignores // "b", "?" and the like are keys while nothing is typed
	}
	before := f.input.Value()
	f.input, _ = f.input.Update(msg)
	if f.input.Value() != before {
		f.typed, f.problem = true, ""
	}
	return stays
}

// neverTyped are keys that the text input would swallow without a trace.
var neverTyped = []string{"esc", "ctrl+t", "ctrl+n", "ctrl+p", "shift+tab"}

func isPlainLetter(msg tea.KeyMsg) bool {
	return msg.Type == tea.KeyRunes && len(msg.Runes) == 1 && !msg.Paste && !strings.ContainsRune("0123456789./-$'", msg.Runes[0])
}

func (f *field) pick(msg tea.KeyMsg, s *session, p *house.Place) fieldResult {
	n := len(f.options())
	switch {
	case n == 0:
		return ignores
	case msg.String() == "tab":
		return ignores
	case key.Matches(msg, keys.Left), key.Matches(msg, keys.Up) && f.cursor > 0:
		f.cursor = (max(0, f.cursor) + n - 1) % n
	case key.Matches(msg, keys.Right), key.Matches(msg, keys.Down) && f.cursor < n-1:
		f.cursor = (f.cursor + 1) % n
	case f.q.Kind == house.Many && key.Matches(msg, keys.Toggle):
		f.toggle(s, p)
	case f.q.Kind == house.YesNoKind && key.Matches(msg, keys.Yes):
		f.cursor = 0
		f.choose(s, p)
		return accepts
	case f.q.Kind == house.YesNoKind && msg.String() == "n":
		f.cursor = 1
		f.choose(s, p)
		return accepts
	case len(msg.Runes) == 1 && msg.Runes[0] >= '1' && int(msg.Runes[0]-'0') <= n:
		f.cursor = int(msg.Runes[0] - '1')
		if f.q.Kind == house.Many {
			f.toggle(s, p)
			return stays
		}
		f.choose(s, p)
		return accepts
	default:
		return ignores
	}
	return stays
}

func (f *field) toggle(s *session, p *house.Place) {
	v := f.options()[f.cursor].Value
	list := slices.Clone(s.answered().ValueOf(f.q, p).Answer.List)
	if i := slices.Index(list, v); i >= 0 {
		list = slices.Delete(list, i, i+1)
	} else {
		list = append(list, v)
	}
	s.answer(f.q, p, house.List(list...))
}

// sentence takes the wrapping words off an error for a person.
func sentence(err error) string {
	_, text, ok := strings.Cut(err.Error(), ": ")
	if !ok {
		text = err.Error()
	}
	return onScreen(text)
}

// onScreen turns the words of files into those of the screens.
func onScreen(s string) string {
	return strings.NewReplacer(`, or "unknown"`, ", or d for don't know", "true or false", "yes or no").Replace(s)
}

// answerText is the answer in one line, with how it is known.
func (f *field) answerText(s *session) (text string, tone style.Tone) {
	p := s.house.Place(f.place)
	v := s.answered().ValueOf(f.q, p)
	switch v.Source {
	case house.FromAnswer:
		return f.q.Show(v.Answer, s.system), style.Plain
	case house.FromDefault:
		return f.q.Show(v.Answer, s.system) + " (assumed)", style.Dim
	case house.FromUnknown:
		return "not known yet", style.Warn
	}
	return "-", style.Dim
}

// view draws the question; the active one opens up with its input, how to
// find out, and what is wrong.
func (f *field) view(p *page, s *session, active bool, g style.Glyphs) {
	answer, tone := f.answerText(s)
	if !active {
		if f.typed && f.problem != "" {
			answer, tone = "not kept: "+f.problem, style.Danger
		}
		f.closed(p, answer, tone)
		return
	}
	p.para(style.Chosen, 0, g.Pointer+" "+f.q.Prompt)
	p.mark()
	indent := 4
	switch {
	case f.textual():
		f.inputRow(p, s, indent)
	case f.q.Kind == house.Many:
		f.manyRows(p, s, indent, g)
	default:
		f.choiceRows(p, s, indent, g)
	}
	if f.typed {
		list := s.answered().Suggest(f.q, f.input.Value())
		if len(list) > 0 && !(len(list) == 1 && strings.EqualFold(list[0], f.input.Value())) {
			p.para(style.Good, indent, strings.Join(list, ", ")+"   (right takes the first)")
		}
	}
	if f.problem != "" {
		p.para(style.Danger, indent, f.problem)
	}
	if f.q.How != "" {
		p.para(style.Dim, indent, f.q.How)
	}
	p.mark()
}

func (f *field) closed(p *page, answer string, tone style.Tone) {
	if p.width < 64 {
		p.line(style.Plain, "  "+f.q.Prompt)
		p.line(tone, "    "+answer)
		return
	}
	const answerWidth = 32
	left := wrap(f.q.Prompt, p.width-answerWidth-3)
	right := wrap(answer, answerWidth)
	for i := range max(len(left), len(right)) {
		l, r := "", ""
		if i < len(left) {
			l = left[i]
		}
		if i < len(right) {
			r = right[i]
		}
		p.add(piece{style.Plain, "  " + padTo(l, p.width-answerWidth-2)}, piece{tone, r})
	}
}

func (f *field) inputRow(p *page, s *session, indent int) {
	v := f.input.Value()
	if v == "" {
		answer, _ := f.answerText(s)
		p.add(piece{style.Plain, strings.Repeat(" ", indent) + "[_"}, piece{style.Dim, " " + answer}, piece{style.Plain, " ]"})
		return
	}
	room := max(4, p.width-indent-6)
	r := []rune(v)
	pos := f.input.Position()
	start := max(0, pos-room+1)
	end := min(len(r), start+room)
	text := string(r[start:min(pos, end)]) + "_" + string(r[min(pos, end):end])
	p.add(piece{style.Plain, strings.Repeat(" ", indent) + "["}, piece{style.Chosen, text}, piece{style.Plain, "]" + f.unit()})
}

func (f *field) unit() string {
	switch f.q.Unit {
	case "ft", "in", "ft2":
		return " " + f.q.Unit
	}
	return ""
}

func (f *field) choiceRows(p *page, s *session, indent int, g style.Glyphs) {
	known := s.answered().ValueOf(f.q, s.house.Place(f.place))
	for i, o := range f.options() {
		mark, tone := "  ", style.Plain
		if i == f.cursor {
			mark, tone = g.Pointer+" ", style.Chosen
		}
		note := ""
		if known.Source == house.FromDefault && o.Value == optionOf(f.q, known.Answer) {
			note = "  (assumed)"
		}
		p.line(tone, strings.Repeat(" ", indent)+mark+numbered(i)+o.Label+note)
	}
	if known.Source == house.FromUnknown {
		p.line(style.Warn, strings.Repeat(" ", indent)+"not known yet")
	}
}

func (f *field) manyRows(p *page, s *session, indent int, g style.Glyphs) {
	list := s.answered().ValueOf(f.q, s.house.Place(f.place)).Answer.List
	for i, o := range f.options() {
		mark, tone := "  ", style.Plain
		if i == f.cursor {
			mark, tone = g.Pointer+" ", style.Chosen
		}
		tick := g.NoTick
		if slices.Contains(list, o.Value) {
			tick = g.Tick
		}
		p.line(tone, strings.Repeat(" ", indent)+mark+tick+" "+o.Label)
	}
}

func numbered(i int) string {
	if i > 8 {
		return "   "
	}
	return string(rune('1'+i)) + "  "
}

func (f *field) keys() []key.Binding {
	out := []key.Binding{keys.Accept}
	switch {
	case f.q.Kind == house.Many:
		out = append(out, bind("up/down", "move", "up"), keys.Toggle)
	case !f.textual():
		out = append(out, bind("up/down", "choose", "up"))
	}
	if f.q.DontKnow {
		b := keys.DontKnow
		if f.letters() {
			b = bind("ctrl+d", "don't know", "ctrl+d")
		}
		out = append(out, b)
	}
	why := keys.Why
	if f.typing() && f.typed {
		why = bind("f1", "why we ask", "f1")
	}
	return append(out, why)
}
