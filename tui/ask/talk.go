package ask

import (
	"bufio"
	"fmt"
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
	open  string // the prompt that the cursor stands behind
}

// Resumer is a reader that calls back when the program goes on after a pause,
// while it waits for a line: a shell wrote on the terminal meanwhile.
type Resumer interface{ OnResume(func()) }

func newTalk(in io.Reader, out io.Writer, width int, echo bool) *talk {
	if width == 0 {
		width = UsualWidth
	}
	t := &talk{in: bufio.NewReader(in), out: bufio.NewWriter(out), width: min(max(width, leastWidth), mostWidth), echo: echo}
	if r, ok := in.(Resumer); ok {
		r.OnResume(func() {
			t.out.WriteString(t.open)
			t.out.Flush()
		})
	}
	return t
}

// endLine ends the line of a prompt that got no answer.
func (t *talk) endLine() {
	if t.open != "" {
		t.out.WriteByte('\n')
		t.open = ""
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

// typed prompts and reads one line. A line that is too long, or of which nothing
// can be read, comes back empty with a problem, so that nobody's half answer is
// taken, nor one that was meant for no answer.
func (t *talk) typed(prompt string) (line, problem string, err error) {
	clean, _ := strict.CleanText(prompt)
	t.open = clean + ": "
	t.out.WriteString(t.open)
	if err := t.out.Flush(); err != nil {
		return "", "", err
	}
	line, problem, err = t.read()
	if err != nil {
		return "", "", err
	}
	if t.echo {
		t.out.WriteString(line + "\n")
	}
	t.open = ""
	return line, problem, nil
}

// read takes one line of any length without keeping more of it than counts. A
// last line without its end is a line.
func (t *talk) read() (line, problem string, err error) {
	var b strings.Builder
	long := false
	for {
		part, more, err := t.in.ReadLine()
		if room := 4*maxTyped - b.Len(); room < len(part) {
			part, long = part[:max(0, room)], true
		}
		b.Write(part)
		switch {
		case err != nil:
			return "", "", err
		case more:
			continue
		}
		line, _ = strict.CleanText(b.String())
		line = strings.TrimSpace(line)
		switch {
		case long || len([]rune(line)) > maxTyped:
			return "", fmt.Sprintf("a line may have at most %d characters.", maxTyped), nil
		case line == "" && strings.TrimSpace(b.String()) != "":
			return "", "nothing in that line can be read as letters or digits.", nil
		}
		return line, "", nil
	}
}
