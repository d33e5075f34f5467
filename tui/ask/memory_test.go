package ask_test

import (
	"errors"
	"io"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/testdata/demo"
	"battwright/tui"
	"battwright/tui/ask"
)

// One store serves the screens and the lines.
var _ ask.Store = tui.Store(nil)

var questions = sync.OnceValue(func() *house.QuestionList {
	c, err := catalog.Load(data.Files, nil)
	if err != nil {
		panic(err)
	}
	return house.NewList(c)
})

func demoHouse(t testing.TB) *house.House {
	t.Helper()
	h, err := house.Read(questions(), demo.Default, demo.Text(demo.Default))
	require.NoError(t, err)
	return h
}

// memory is a Store without a disk, with the promises of the real one.
type memory struct {
	n          int
	text, path string
	kept       bool
	files      map[string]string
	foreign    map[string]bool // changed by another program
	broken     error           // what every write says
}

func newMemory() *memory { return &memory{files: map[string]string{}, foreign: map[string]bool{}} }

func (s *memory) Autosave(n int, text string) error {
	if s.broken != nil {
		return s.broken
	}
	if n > s.n {
		s.n, s.text, s.kept = n, text, true
	}
	return nil
}

func (s *memory) Belongs(path string)            { s.path = path }
func (s *memory) Resume() (string, string, bool) { return s.text, s.path, s.kept }
func (s *memory) Forget() error                  { s.kept, s.text = false, ""; return nil }
func (s *memory) Where() string                  { return "memory" }
func (s *memory) Changed(path, _ string) bool    { return s.foreign[path] }

func (s *memory) Read(path string) (string, error) {
	text, ok := s.files[path]
	if !ok {
		return "", errors.New(path + ": there is no such file or folder")
	}
	return text, nil
}

func (s *memory) Write(path, text string, overwrite bool) error {
	if _, ok := s.files[path]; ok && !overwrite {
		return errors.New(path + " is there already.")
	}
	s.files[path] = text
	return nil
}

// said runs the lines against a store and gives what was written.
func said(store *memory, cfg ask.Config, lines ...string) (string, error) {
	var out strings.Builder
	cfg.List, cfg.Store = questions(), store
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
