package units

import "strings"

// Prose is a sentence with its figures in braces, in US units: "keep
// {3 inches min} free", "at least {R-19}", "supports every {12 to 18 in}". In
// US units a figure is shown as it is written; in SI it is turned. What may
// stand between braces:
//
//	one or several amounts and their unit   {3 in}  {16 or 24 inches}  {4 by 8 feet}  {half an inch}
//	R-values, also of one inch of depth     {R-5}   {R-3.5 to 3.7 an inch}  {3 for each inch}
//	words that name a unit without a figure {square feet|square meters}
//
// Units: in, inch, inches, ft, foot, feet, ft2, square foot, square feet,
// per ft2, lb/ft2, F, perm, perms, mil. A word behind them tells more, and is not shown:
//
//	min         in SI rounded up: a clearance must not shrink
//	max         in SI rounded down
//	difference  degrees between two temperatures: {1 F difference}
//	bare        the figure without its unit, which the sentence has said before
type Prose string

// In is the sentence with its figures in a system of units.
func (p Prose) In(s System) string {
	text := string(p)
	if !strings.ContainsAny(text, "{}") {
		return text
	}
	var b strings.Builder
	for {
		before, body, after, ok := nextBraces(text)
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		b.WriteString(Figure(body, s))
		text = after
	}
}

// String is the sentence in US units.
func (p Prose) String() string { return p.In(US) }

// Problem finds the first figure that is not understood: what was found and what
// would be right, both empty when nothing is wrong.
func (p Prose) Problem() (found, want string) {
	text := string(p)
	for {
		before, body, after, ok := nextBraces(text)
		if strings.ContainsAny(before, "{}") {
			return "a brace without its partner", "each { with its }, and a figure with its unit between them: {3 in}"
		}
		if !ok {
			return "", ""
		}
		if wrong := FigureProblem(body); wrong != "" {
			return "{" + body + "}", wrong
		}
		text = after
	}
}

// nextBraces cuts at the first pair of braces; ok is false, and before is all
// of the text, when there is none.
func nextBraces(text string) (before, body, after string, ok bool) {
	end := strings.IndexByte(text, '}')
	if end < 0 {
		return text, "", "", false
	}
	start := strings.LastIndexByte(text[:end], '{')
	if start < 0 {
		return text, "", "", false
	}
	return text[:start], text[start+1 : end], text[end+1:], true
}

// Figure shows what stands between the braces of a Prose: as it is written
// where it is not understood, which no checked data holds.
func Figure(body string, s System) string {
	if us, si, words := strings.Cut(body, "|"); words {
		if s == SI {
			return si
		}
		return us
	}
	f, wrong := readFigure(body)
	switch {
	case wrong != "":
		return body
	case s == SI:
		return f.inSI()
	case f.how == bare:
		return f.amountText(func(a amount) string { return a.text })
	}
	return f.us
}

// FigureProblem says what would be right where what stands between braces is
// not understood, and nothing where it is.
func FigureProblem(body string) string {
	if us, si, words := strings.Cut(body, "|"); words {
		// A figure among the words would escape the factors.
		if us == "" || si == "" || strings.ContainsAny(unitDigits.Replace(body), "0123456789") || strings.Contains(si, "|") {
			return "words in US units, a bar, words in SI, without digits: {square feet|square meters}"
		}
		return ""
	}
	_, wrong := readFigure(body)
	return wrong
}

// manner is the last word of a figure.
type manner string

const (
	nearest manner = ""
	atLeast manner = "min"
	atMost  manner = "max"
	between manner = "difference"
	bare    manner = "bare"
)

// figure is what stands between braces, taken apart.
type figure struct {
	us      string // as shown in US units
	amounts []amount
	unit    *measure
	isR     bool
	how     manner
}

// amount is one number with what stands between it and the next.
type amount struct {
	text  string
	value float64
	then  string
}

// spelled are the units as prose writes them, the longer ending first where
// one ends in another.
var spelled = []struct {
	name string
	unit *measure
}{
	{" for each inch", perInch},
	{" an inch", perInch}, // "half an inch" is taken before
	{" inches", inches},
	{" inch", inches},
	{" in", inches},
	{" per ft2", perArea},
	{" square feet", area},
	{" square foot", area},
	{" lb/ft2", load},
	{" ft2", area},
	{" feet", feet},
	{" foot", feet},
	{" ft", feet},
	{" perms", permeance},
	{" perm", permeance},
	{" mil", mils},
	{" F", temperature},
}

// amountWords are amounts of an inch that prose spells out.
var amountWords = map[string]float64{"an": 1, "half an": 0.5, "a thousandth of an": 0.001}

// separators stand between the amounts of one figure.
var separators = []string{" to ", " or ", " and ", " by ", " x ", ", "}

// unitDigits are no figures.
var unitDigits = strings.NewReplacer("ft2", "", "m2", "")

// readFigure takes a figure apart; wrong is what would be right.
func readFigure(body string) (f figure, wrong string) {
	f = figure{us: body}
	for _, how := range []manner{atLeast, atMost, between, bare} {
		if rest, ok := strings.CutSuffix(body, " "+string(how)); ok {
			f.us, f.how = rest, how
			break
		}
	}
	text := f.us
	if words, ok := strings.CutSuffix(text, " inch"); ok && amountWords[strings.ToLower(words)] > 0 {
		f.amounts, f.unit = []amount{{words, amountWords[strings.ToLower(words)], ""}}, inches
		return f, ""
	}
	for _, u := range spelled {
		if rest, ok := strings.CutSuffix(text, u.name); ok {
			text, f.unit = rest, u.unit
			break
		}
	}
	text, f.isR = strings.CutPrefix(text, "R-")
	switch {
	case f.isR && f.unit == nil:
		f.unit = resistance
	case f.isR && f.unit != perInch:
		return f, "an R without a unit, or of an inch: {R-19}, {R-3.7 an inch}"
	case f.unit == nil:
		return f, "a unit behind the figure, in, ft, ft2, lb/ft2, F, perm or mil, or R- before it: {3 in}, {R-19}"
	}
	if f.how == between {
		if f.unit != temperature {
			return f, "a difference of temperatures: {1 F difference}"
		}
		f.unit = difference
	}
	var err error
	if f.amounts, err = readAmounts(text); err != nil {
		return f, "a number as builders write it before the unit: {3 in}, {5 1/2 in}, {12 to 18 in}"
	}
	return f, ""
}

func readAmounts(text string) ([]amount, error) {
	var out []amount
	for {
		at, sep := len(text), ""
		for _, s := range separators {
			if i := strings.Index(text, s); i >= 0 && i < at {
				at, sep = i, s
			}
		}
		v, err := ParseNumber(text[:at])
		if err != nil || strings.TrimSpace(text[:at]) != text[:at] {
			return nil, ErrNotANumber
		}
		out = append(out, amount{text[:at], v, sep})
		if sep == "" {
			return out, nil
		}
		text = text[at+len(sep):]
	}
}

func (f figure) inSI() string {
	shown := f.amountText(func(a amount) string {
		switch f.how {
		case atLeast, atMost:
			return f.unit.bound(a.value, f.how == atLeast)
		}
		return f.unit.fine(a.value)
	})
	switch {
	case f.how == bare:
		return shown
	case f.isR || f.unit == perInch:
		return SI.RName() + shown + f.unit.si
	case f.unit == mils:
		// A grade that is asked for by its name.
		return f.us + " (" + shown + f.unit.si + ")"
	}
	return shown + f.unit.si
}

func (f figure) amountText(one func(amount) string) string {
	var b strings.Builder
	for _, a := range f.amounts {
		b.WriteString(one(a))
		b.WriteString(a.then)
	}
	return b.String()
}
