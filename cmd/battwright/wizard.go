package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui"
)

// runBare starts the wizard, or without a terminal prints the plan of the
// demo house and how to start.
func runBare(o options, e env) int {
	lines := wantsLines(o.plain, e)
	if !e.terminal && !lines {
		return noTerminal(o, e)
	}
	if len(o.files) > 1 {
		return usage(e, "the screens take one house file; plan takes several")
	}
	c, err := e.loadCatalog(o.dataDir)
	if err != nil {
		return fail(e, err)
	}
	answers := newStore(e.getenv)
	defer answers.Close()
	cfg := tui.Config{
		List: house.NewList(c), Store: answers, System: systemOf(o.system), In: e.stdin, Out: e.stdout,
		ASCII: o.ascii || !speaksUTF8(e.getenv), Mono: o.mono || e.getenv("NO_COLOR") != "",
	}
	if len(o.files) == 1 {
		if code := openFor(&cfg, o.files[0], e); code != exitDone {
			return code
		}
	}
	if lines {
		return askInLines(cfg, e)
	}
	return runWizard(cfg, e)
}

// openFor reads the house file named on the command line. A file that is not
// there yet is where a new house will be saved.
func openFor(cfg *tui.Config, path string, e env) int {
	text, err := readOrdinary(path)
	if errors.Is(err, fs.ErrNotExist) && mayBegin(path) {
		cfg.House, cfg.Path, cfg.New = house.New(), path, true
		return exitDone
	}
	if err != nil {
		return fail(e, fmt.Errorf("%s: %w", path, plainPathError(err)))
	}
	h, err := house.Read(cfg.List, path, text)
	if err != nil {
		return fail(e, err)
	}
	cfg.House, cfg.Path, cfg.Text = h, path, text
	return exitDone
}

// mayBegin reports whether a house file can be begun under a name: a word
// mistyped on the command line is none, nor is a folder that is not there.
func mayBegin(path string) bool {
	info, err := os.Stat(filepath.Dir(path))
	return strings.HasSuffix(path, ".toml") && err == nil && info.IsDir()
}

func noTerminal(o options, e env) int {
	code := runPlan(o, e)
	if code == exitDone && len(o.files) == 0 {
		tell(e, "battwright: no terminal here, so this is the plan of the demo house. In a terminal the program asks about yours.")
	}
	return code
}

// runWizard shows the screens. A signal ends them in order: the terminal is
// restored and the answers are kept. A second one ends them whatever hangs.
func runWizard(cfg tui.Config, e env) int {
	ctx, hurry, stop := stopping()
	defer stop()
	err := tui.Run(ctx, hurry, cfg)
	unkept := ""
	if errors.Is(err, tui.ErrNotKept) {
		unkept = " Your answers are in no file."
	}
	switch {
	case errors.Is(err, tui.ErrHurried):
		tell(e, "battwright: ended at once, while something it waited for hung. The very last answer may not be kept.")
		return exitInterrupted
	case errors.Is(err, tui.ErrInterrupted), errors.Is(err, tea.ErrInterrupted), ctx.Err() != nil:
		tell(e, "battwright: stopped."+left(cfg)+unkept)
		return exitInterrupted
	case errors.Is(err, tea.ErrProgramPanic):
		tell(e, "battwright: a fault in the program itself."+left(cfg)+unkept)
		return exitInternal
	case err != nil:
		return fail(e, fmt.Errorf("battwright: %w", err))
	}
	goodbye(cfg, e, "battwright")
	return exitDone
}

// stopping gives what the first signal ends, and what a second one does.
func stopping() (ctx context.Context, hurry <-chan struct{}, stop func()) {
	ctx, cancel := context.WithCancel(context.Background())
	signals, at := make(chan os.Signal, 2), make(chan struct{})
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT)
	go func() {
		<-signals
		cancel()
		<-signals
		close(at)
	}()
	return ctx, at, func() { signal.Stop(signals); cancel() }
}

// speaksUTF8 reports whether the terminal's letters are UTF-8, as the locale has
// it; the first name that is set counts (IEEE Std 1003.1, section 8.2).
func speaksUTF8(getenv func(string) string) bool {
	if runtime.GOOS == "windows" {
		return true // no locale of this kind; the terminal library sees to it
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := strings.ToLower(getenv(name)); v != "" {
			return strings.Contains(v, "utf-8") || strings.Contains(v, "utf8")
		}
	}
	return false
}

// goodbye says where the answers are and with which command to go on; nothing
// when there are none.
func goodbye(cfg tui.Config, e env, again string) {
	said := left(cfg)
	if said == "" {
		return
	}
	if own, ok := cfg.Store.(interface{ File() string }); ok && own.File() != "" {
		again += " " + typedPath(own.File())
	}
	tell(e, strings.TrimSpace(said)+" To go on, type: "+started(os.Args[0], again))
}

// started is a command as it must be typed again by somebody who started the
// program without installing it: "go run" builds it in a folder of its own.
func started(program, again string) string {
	if strings.Contains(program, "go-build") && filepath.Base(filepath.Dir(program)) == "exe" {
		return strings.Replace(again, "battwright", "go run ./cmd/battwright", 1)
	}
	return again
}

// typedPath is a path as it is typed from where the person stands, in quotes
// where the shell would take it apart.
func typedPath(path string) string {
	if here, err := os.Getwd(); err == nil {
		if near, err := filepath.Rel(here, path); err == nil && filepath.IsLocal(near) {
			path = near
		}
	}
	if strings.Trim(path, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._-/") == "" && !strings.HasPrefix(path, "-") {
		return path
	}
	return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
}

// left says where the answers are that a program leaves behind, after a space;
// empty when nothing was said that could be anywhere.
func left(cfg tui.Config) string {
	if where := cfg.Store.Where(); where != "" {
		return " Your answers are in " + where + "."
	}
	return ""
}
