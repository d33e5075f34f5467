package ask_test

import (
	"io"
	"strings"
	"testing"

	"battwright/rules/house"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/tui"
	"battwright/tui/ask"
	"battwright/tui/session"
)

// One store serves the screens and the lines.
var _ session.Store = tui.Store(nil)

func demoHouse(t testing.TB) *house.House {
	t.Helper()
	return fixture.Demo(t, demo.Default).House
}

// said runs the lines against a store and gives what was written.
func said(t testing.TB, store *fixture.Memory, cfg ask.Config, lines ...string) (string, error) {
	var out strings.Builder
	cfg.List, cfg.Store = fixture.List(t), store
	in := strings.Join(lines, "\n")
	if len(lines) > 0 {
		in += "\n"
	}
	err := ask.Run(strings.NewReader(in), &out, cfg)
	return out.String(), err
}

// partner answers each prompt when it is asked: a person who reads first.
type partner struct {
	written strings.Builder
	from    int // what was read of it
	answer  func(since string) (string, bool)
	rest    string
}

func (p *partner) Write(b []byte) (int, error) { return p.written.Write(b) }

func (p *partner) Read(b []byte) (int, error) {
	if p.rest == "" {
		since := p.written.String()[p.from:]
		p.from = p.written.Len()
		line, ok := p.answer(since)
		if !ok {
			return 0, io.EOF
		}
		p.rest = line + "\n"
	}
	n := copy(b, p.rest)
	p.rest = p.rest[n:]
	return n, nil
}
