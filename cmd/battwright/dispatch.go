package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"

	"battwright/rules/strict"
)

// command is one sub-command; commandFlags has its flags.
type command struct {
	name, args, what string
	run              func(o options, e env) int
}

func commands() []command {
	return []command{
		{"plan", "[house.toml ...]", "print the recommendation (the demo house if no file is named)", runPlan},
		{"compare", "[house.toml]", "set the saved plans of a house side by side", runCompare},
		{"ask", "[house.toml]", "the same questions line by line, without screens", runAsk},
		{"handover", "[house.toml]", "sheets to hand over: what is agreed, and a page per person", runHandover},
		{"offer", "house.toml offer.toml ...", "compare one to three bids with the plan", runOffer},
		{"inspect", "house.toml finished.toml", "check finished work against the plan", runInspect},
		{"order", "[--ask] [house.toml ...]", "print what to buy, how to cut it and what it costs", runOrder},
		{"check", "[--rules] [house.toml ...]", "check house files and data, print every problem", runCheck},
		{"words", "[term]", "explain a trade word, or list them all", runWords},
		{"tour", "", "what to look at in the demo house, and in which order", runTour},
		{"completion", "bash|zsh|fish", "print a script that completes commands in your shell", runCompletion},
	}
}

func dispatch(args []string, e env) int {
	if len(args) == 0 {
		return begin("", runBare, nil, e)
	}
	switch args[0] {
	case "--version", "-version", "version":
		fmt.Fprintln(e.stdout, version())
		return exitDone
	case "--help", "-h", "-help", "help":
		io.WriteString(e.stdout, helpText())
		return exitDone
	}
	for _, c := range commands() {
		if c.name == args[0] {
			return begin(c.name, c.run, args[1:], e)
		}
	}
	if at := commandBehind(args); at > 0 {
		return dispatch(slices.Concat(args[at:at+1], args[:at], args[at+1:]), e)
	}
	if strings.HasPrefix(args[0], "-") || strings.HasSuffix(args[0], ".toml") {
		return begin("", runBare, args, e)
	}
	hint := ""
	if near := strict.Nearest(args[0], commandNames()); near != "" {
		hint = fmt.Sprintf("; did you mean %s?", near)
	}
	return usage(e, "there is no command %q%s", args[0], hint)
}

// commandBehind finds a command that was named behind its options, as people
// type them; 0 when there is none.
func commandBehind(args []string) int {
	for at := 0; at < len(args); at++ {
		name, isFlag := strings.CutPrefix(args[at], "-")
		name = strings.TrimPrefix(name, "-")
		switch {
		case isFlag && name == "":
			return 0
		case !isFlag:
			if slices.ContainsFunc(commands(), func(c command) bool { return c.name == args[at] }) {
				return at
			}
			return 0
		case slices.ContainsFunc(flagTable(), func(f flagInfo) bool { return f.name == name && f.takes != takesNothing }):
			at++ // its value
		}
	}
	return 0
}

// usage reports a wrong command line and where to look.
func usage(e env, format string, args ...any) int {
	text, _ := strict.CleanText(fmt.Sprintf(format, args...))
	fmt.Fprintf(e.stderr, "battwright: %s\nTry: battwright --help\n", text)
	return exitUsage
}

// fail reports what went wrong to the person who must act.
func fail(e env, err error) int {
	for _, line := range strings.Split(err.Error(), "\n") {
		tell(e, line)
	}
	return exitInput
}

// tell says one line to the person. It may hold a name or a path, which can be
// anything at all.
func tell(e env, line string) {
	clean, _ := strict.CleanText(line)
	fmt.Fprintln(e.stderr, clean)
}

// parseFlags allows flags before and after the files, as people type them.
func parseFlags(f *flag.FlagSet, args []string) (files []string, err error) {
	for {
		if err := f.Parse(args); err != nil {
			return nil, err
		}
		if f.NArg() == 0 {
			if i := slices.Index(files, "-"); i >= 0 && slices.Contains(files[i+1:], "-") {
				return nil, errors.New("- is standard input, which can be read once; name it once")
			}
			return files, nil
		}
		rest := f.Args()
		files, args = append(files, rest[0]), rest[1:]
	}
}

func helpText() string {
	var b strings.Builder
	b.WriteString(`battwright: which blanket insulation goes in each place of your house, and why

  battwright                          describe a house, screen by screen
  battwright house.toml               go on with a house file, or begin it
`)
	for _, c := range commands() {
		b.WriteString(twoColumns("  battwright "+c.name+" "+c.args, c.what))
	}
	b.WriteString("\nOptions (battwright plan --help tells those of plan):\n")
	for _, f := range flagTable() {
		b.WriteString(f.line())
	}
	b.WriteString(`
Examples:
  battwright plan
  battwright plan my-house.toml --priority sound=5 --priority cost=1
  battwright plan my-house.toml --format markdown --out my-house.md
  battwright handover my-house.toml --page framer --drywall 2027-05-03
  battwright check my-house.toml
  battwright words kraft

Exit codes: 0 done, 1 input wrong or could not read or write, 2 wrong command line,
3 done but something falls short (plan and order with --strict, offer, inspect,
check --rules), 70 fault in the program, 130 stopped.
Results go to standard output, messages to standard error. Nothing is sent anywhere.
`)
	return b.String()
}
