package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strconv"
	"syscall"

	"github.com/charmbracelet/x/term"

	"battwright/rules/house"
	"battwright/tui"
	"battwright/tui/ask"
	shared "battwright/tui/session"
)

// runAsk asks the questions line by line, without screens.
func runAsk(o options, e env) int {
	if len(o.files) > 1 {
		return usage(e, "ask takes one house file; plan takes several")
	}
	c, err := e.loadCatalog(o.dataDir)
	if err != nil {
		return fail(e, err)
	}
	answers := newStore(e.getenv)
	defer answers.Close()
	cfg := tui.Config{List: house.NewList(c), Store: answers, System: systemOf(o.system)}
	if len(o.files) == 1 {
		if code := openFor(&cfg, o.files[0], e); code != exitDone {
			return code
		}
	}
	return askInLines(cfg, e)
}

// wantsLines reports whether the bare command should ask line by line: when it
// was told so, when the person set ACCESSIBLE, and on a terminal that cannot
// move its cursor.
func wantsLines(plain bool, e env) bool {
	return plain || e.terminal && (e.getenv("ACCESSIBLE") != "" || e.getenv("TERM") == "dumb")
}

// askInLines runs the line-by-line mode for what the screens would have been
// started with. A signal ends it in order: the answers are kept.
func askInLines(cfg tui.Config, e env) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	context.AfterFunc(ctx, stop) // a second signal ends the program whatever hangs
	defer stop()
	if cfg.New {
		tell(e, "battwright: "+shared.NewFile(cfg.Path))
	}
	resumed, deaf := resumes()
	defer deaf()
	err := ask.Run(stoppable(ctx, resumed, e.stdin), e.stdout, ask.Config{
		List: cfg.List, Store: cfg.Store, House: cfg.House, Path: cfg.Path, Text: cfg.Text, New: cfg.New,
		System: cfg.System, Width: lineWidth(e), Echo: !typedAt(e.stdin),
	})
	switch {
	case errors.Is(err, ask.ErrInterrupted):
		tell(e, "battwright: stopped."+left(cfg))
		return exitInterrupted
	case errors.Is(err, ask.ErrEnded):
		return fail(e, fmt.Errorf("battwright: %w.%s", err, left(cfg)))
	case err != nil:
		return fail(e, fmt.Errorf("battwright: %w", err))
	}
	goodbye(cfg, e, "battwright ask")
	return exitDone
}

// lineWidth is how long lines may be, in characters: what the person set, else the
// usual, less in a narrower window; 0 is the usual.
func lineWidth(e env) int {
	if set, err := strconv.Atoi(e.getenv("COLUMNS")); err == nil {
		return max(0, set)
	}
	f, ok := e.stdout.(*os.File)
	if !ok {
		return 0
	}
	if window, _, err := term.GetSize(f.Fd()); err == nil && window < ask.UsualWidth {
		return max(0, window)
	}
	return 0
}

// typedAt reports whether a terminal shows what is typed by itself.
func typedAt(in io.Reader) bool {
	f, ok := in.(*os.File)
	return ok && isTerminal(f)
}

// stoppable is a reader that ends with ErrInterrupted when the context does,
// even while it waits for a line, and says so when it waits on after a pause.
func stoppable(ctx context.Context, resumed <-chan os.Signal, in io.Reader) io.Reader {
	s := &stopReader{ctx: ctx, resumed: resumed, parts: make(chan part)}
	go s.pump(in)
	return s
}

type part struct {
	data []byte
	err  error
}

type stopReader struct {
	ctx     context.Context
	resumed <-chan os.Signal
	again   func()
	parts   chan part
	rest    []byte
	err     error
}

// OnResume is ask.Resumer.
func (s *stopReader) OnResume(again func()) { s.again = again }

// pump hands on what is read until the input or the context ends. It may stay
// behind in a read that never returns; the program ends without it.
func (s *stopReader) pump(in io.Reader) {
	for {
		buf := make([]byte, 4096)
		n, err := in.Read(buf)
		select {
		case s.parts <- part{buf[:n], err}:
		case <-s.ctx.Done():
			return
		}
		if err != nil {
			return
		}
	}
}

func (s *stopReader) Read(p []byte) (int, error) {
	for len(s.rest) == 0 {
		if s.err != nil {
			return 0, s.err
		}
		select {
		case <-s.ctx.Done():
			s.err = ask.ErrInterrupted
		case <-s.resumed:
			s.again()
		case got := <-s.parts:
			s.rest, s.err = got.data, got.err
		}
	}
	n := copy(p, s.rest)
	s.rest = s.rest[n:]
	return n, nil
}
