package rules

import (
	"math"
	"strconv"
	"strings"
)

// template is a reason cut at its placeholders. Every part is words followed
// by a fact or by a figure that stands in the reason itself.
type template struct {
	whole string // the reason in the Plain format, when it names no fact
	parts []part
	facts bool // it names a fact
}

// part has no fact (-1) and no figure where only words are left.
type part struct {
	words  string
	fact   int
	figure string
}

// Written is the unit of the fact that a Format is given for a figure that
// stands in a reason with its own unit, {3 in} or {R-19}: the value is that
// text.
const Written = "as written"

// isFigure tells a figure between braces from the name of a fact.
func isFigure(body string) bool {
	return strings.HasPrefix(body, "R-") || body != "" && body[0] >= '0' && body[0] <= '9'
}

// FiguresIn lists the figures of a reason that stand in it with their unit.
func FiguresIn(reason string) []string {
	var out []string
	for _, part := range strings.Split(reason, "{")[1:] {
		if body, _, closed := strings.Cut(part, "}"); closed && isFigure(body) {
			out = append(out, body)
		}
	}
	return out
}

// parse cuts a reason at {fact} and {3 in}. A brace that does not close, or
// closes nothing, is refused: it would reach the screen.
func (b *Book) parse(reason string) (t template, found, want string) {
	if strings.TrimSpace(reason) == "" {
		return t, "none", "why, in words for the builder"
	}
	t.whole = reason
	rest := reason
	for {
		open := strings.IndexAny(rest, "{}")
		if open < 0 {
			break
		}
		end := strings.IndexAny(rest[open+1:], "{}")
		if rest[open] == '}' || end < 0 || rest[open+1+end] == '{' {
			return t, "a brace without its partner", "each { with its }"
		}
		name := rest[open+1 : open+1+end]
		i, ok := b.index[name]
		switch {
		case ok:
			t.parts, t.facts = append(t.parts, part{words: rest[:open], fact: i}), true
		case isFigure(name):
			t.parts = append(t.parts, part{words: rest[:open], fact: -1, figure: name})
		default:
			return t, "{" + name + "}", "a declared fact, or a figure with its unit like {3 in} or {R-19}"
		}
		rest = rest[open+end+2:]
	}
	if len(t.parts) > 0 && rest != "" {
		t.parts = append(t.parts, part{words: rest, fact: -1})
	}
	if !t.facts {
		t.whole = b.fill(&t, nil, Plain)
	}
	return t, "", ""
}

// Format shows the value of a fact in a reason.
type Format func(Fact, Value) string

// Plain is the format of Hit.Text: numbers with three figures and their unit,
// listed values with blanks for hyphens, yes or no, "unknown"; a figure of the
// reason itself as it is written.
func Plain(f Fact, v Value) string {
	if f.Unit == Written {
		return v.text
	}
	if n, ok := v.AsNumber(); ok {
		return withUnit(shortNumber(n), f.Unit)
	}
	if s, ok := v.AsText(); ok {
		return strings.ReplaceAll(s, "-", " ")
	}
	return v.String()
}

// Render fills in the reason of a rule again, in another format (other units,
// other words). A nil format is Plain. It returns "" for a rule of another book.
func (b *Book) Render(r *Rule, f *Facts, format Format) string {
	if r == nil {
		return ""
	}
	i, ok := b.byID[r.ID]
	if !ok || &b.rules[i] != r {
		return ""
	}
	if format == nil {
		format = Plain
	}
	return b.fill(&b.ready[i].text, b.own(f), format)
}

func (b *Book) fill(t *template, f *Facts, format Format) string {
	if len(t.parts) == 0 {
		return t.whole
	}
	var out strings.Builder
	for _, p := range t.parts {
		out.WriteString(p.words)
		switch {
		case p.fact >= 0:
			fact := b.facts[p.fact]
			out.WriteString(format(fact, fact.unpack(f.slots[p.fact])))
		case p.figure != "":
			out.WriteString(format(Fact{Unit: Written}, Text(p.figure)))
		}
	}
	return out.String()
}

// withUnit writes thermal resistance the way bags do, R-19, and puts other
// units behind the number.
func withUnit(number, unit string) string {
	switch unit {
	case "":
		return number
	case "R":
		return "R-" + number
	}
	return number + " " + unit
}

// shortNumber rounds to three figures, and to whole numbers from 100 on: more
// than a builder can measure, and no false precision.
func shortNumber(v float64) string {
	if v == 0 || !finite(v) {
		if v == 0 {
			return "0"
		}
		return "unknown"
	}
	decimals := 2 - int(math.Floor(math.Log10(math.Abs(v))))
	decimals = min(max(decimals, 0), 6)
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
