package ask

import (
	"bufio"
	"io"
	"strings"

	"battwright/rules/print"
	"battwright/rules/strict"
)

// maxTyped is far above any answer; what is longer is refused, not cut.
const maxTyped = 400

// talk reads and writes lines. What is written is cleaned and wrapped; the
// first failure to write is kept and ends the run at the next question.
type talk struct {
	in    *bufio.Reader
	out   *bufio.Writer
	width int
	echo  bool
	open  bool // the cursor stands behind a prompt
}

func newTalk(in io.Reader, out io.Writer, width int, echo bool) *talk {
	if width == 0 {
		width = usualWidth
	}
	return &talk{in: bufio.NewReader(in), out: bufio.NewWriter(out), width: min(max(width, leastWidth), mostWidth), echo: echo}
}

// endLine ends the line of a prompt that got no answer.
func (t *talk) endLine() {
	if t.open {
		t.out.WriteByte('\n')
		t.open = false
	}
	t.out.Flush()
}

func (t *talk) flush() error { return t.out.Flush() }

// say writes one thing, wrapped.
func (t *talk) say(s string) { t.hang("", s) }

// hang writes a head and a text; further lines are set in by two, so that the
// beginning of each thing can be heard and seen.
func (t *talk) hang(head, s string) {
	clean, _ := strict.CleanText(head + aloud(s))
	for i, l := range print.Wrap(clean, t.width-2) {
		if i > 0 {
			l = "  " + l
		}
		t.out.WriteString(l + "\n")
	}
}

// title begins a new part. It is not in capitals: some readers spell those.
func (t *talk) title(s string) {
	t.out.WriteByte('\n')
	if s != "" {
		t.say(s)
	}
}

// labelled writes "Label: text"; lines without a label go on with the one
// before.
func (t *talk) labelled(label, s string) {
	if label == "" {
		t.hang("  ", s)
		return
	}
	if strings.HasSuffix(label, "?") {
		t.hang(label+" ", s)
		return
	}
	t.hang(label+": ", s)
}

// typed prompts and reads one line. A line that is too long comes back as
// long == true, so that nobody's half answer is taken.
func (t *talk) typed(prompt string) (line string, long bool, err error) {
	clean, _ := strict.CleanText(prompt)
	t.out.WriteString(clean + ": ")
	t.open = true
	if err := t.out.Flush(); err != nil {
		return "", false, err
	}
	line, long, err = t.read()
	if err != nil {
		return "", false, err
	}
	if t.echo {
		t.out.WriteString(line + "\n")
	}
	t.open = false
	return line, long, nil
}

// read takes one line of any length without keeping more of it than counts. A
// last line without its end is a line.
func (t *talk) read() (line string, long bool, err error) {
	var b strings.Builder
	for {
		part, more, err := t.in.ReadLine()
		if room := 4*maxTyped - b.Len(); room < len(part) {
			part, long = part[:max(0, room)], true
		}
		b.Write(part)
		switch {
		case err != nil:
			return "", false, err
		case more:
			continue
		}
		line, _ = strict.CleanText(b.String())
		line = strings.TrimSpace(line)
		if long || len([]rune(line)) > maxTyped {
			return "", true, nil
		}
		return line, false, nil
	}
}
