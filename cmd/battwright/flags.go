package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/print"
)

// flagInfo is what help and completion say of a flag. A flag means the same
// in every command that has it.
type flagInfo struct {
	name, arg, what string
	values          []string // what may follow, when it is one of a few
	takes           argKind
}

// argKind is what completion offers after a flag.
type argKind int

const (
	takesNothing argKind = iota
	takesText
	takesFile
	takesFolder
)

// flagTable holds every flag of the program. Tests hold it against the flag
// sets of the commands.
func flagTable() []flagInfo {
	return []flagInfo{
		{"format", "text|markdown|json|csv", "how to print (csv: plan and order; several houses as json: one a line)", formats, takesText},
		{"out", "FILE", "write to FILE instead; --force to overwrite", nil, takesFile},
		{"force", "", "overwrite the file of --out", nil, takesNothing},
		{"priority", "cost=5", "try another priority (cost, sound, irritants, fire, moisture; 0 to 5)", []string{"cost=", "sound=", "irritants=", "fire=", "moisture="}, takesText},
		{"variant", "NAME", "use a plan saved in the house file under NAME", nil, takesText},
		{"data", "DIR", "lay your own data files over ours", nil, takesFolder},
		{"units", "us|si", "how figures are shown", []string{"us", "si"}, takesText},
		{"strict", "", "exit 3 when a place falls short, has no plan or something to find out first (order: is not counted or not measured)", nil, takesNothing},
		{"picture", "", "with the layers of each place and the year of its damp check drawn", nil, takesNothing},
		{"rules", "", "check the data files strictly and prove the rules", nil, takesNothing},
		{"page", "installer", "the page of one person: " + strings.Join(catalog.Persons, ", "), catalog.Persons, takesText},
		{"drywall", "YYYY-MM-DD", "a calendar back from the day the drywall starts", nil, takesText},
		{"width", "40|80", "columns of the text, 30 to 200", []string{"40", "80"}, takesText},
		{"ask", "", "the sheet with blanks for stores and installers", nil, takesNothing},
		{"template", "", "a file to fill in, instead of reading one", nil, takesNothing},
		{"form", "", "a form to fill in by hand", nil, takesNothing},
		{"plain", "", "ask line by line instead of in screens", nil, takesNothing},
		{"ascii", "", "draw with plain letters and signs only", nil, takesNothing},
		{"no-color", "", "no color; NO_COLOR does the same", nil, takesNothing},
	}
}

// commandFlags says which flags each command has. The bare command is "".
func commandFlags() map[string][]string {
	return map[string][]string{
		"":           {"data", "units", "plain", "ascii", "no-color"},
		"plan":       {"format", "out", "force", "priority", "variant", "data", "units", "strict", "picture"},
		"compare":    {"variant", "data", "units"},
		"ask":        {"data", "units"},
		"handover":   {"page", "drywall", "width", "format", "out", "force", "data", "units"},
		"offer":      {"template", "width", "format", "out", "force", "data", "units"},
		"inspect":    {"template", "form", "width", "format", "out", "force", "data", "units"},
		"order":      {"ask", "format", "out", "force", "priority", "variant", "width", "data", "units", "strict"},
		"check":      {"data", "rules"},
		"words":      {"data", "units"},
		"tour":       {},
		"completion": {},
	}
}

// flagsOf gives the flags of a command as the table has them.
func flagsOf(name string) []flagInfo {
	var out []flagInfo
	for _, f := range flagTable() {
		if !slices.Contains(commandFlags()[name], f.name) {
			continue
		}
		if f.name == "format" && slices.Contains([]string{"handover", "offer", "inspect"}, name) { // no csv of a page
			f.arg, f.values, f.what = strings.Join(jobFormats, "|"), jobFormats, "how to print"
		}
		out = append(out, f)
	}
	return out
}

// helpAsked is what --help returns: the flags that were looked for.
type helpAsked struct{ flags *flag.FlagSet }

func (helpAsked) Error() string { return flag.ErrHelp.Error() }
func (helpAsked) Unwrap() error { return flag.ErrHelp }

// flagProblem turns an error of the flag package into an exit code. --help
// shows the flags that the command really has, whatever the table says.
func flagProblem(e env, name string, err error) int {
	var asked helpAsked
	switch {
	case errors.As(err, &asked):
		io.WriteString(e.stdout, commandHelp(name, asked.flags))
		return exitDone
	case errors.Is(err, flag.ErrHelp):
		io.WriteString(e.stdout, helpText())
		return exitDone
	}
	return usage(e, "%s", flagText(name, err.Error()))
}

var (
	noSuchFlag = regexp.MustCompile(`^flag provided but not defined: --?(.+)$`)
	noValue    = regexp.MustCompile(`^flag needs an argument: --?(.+)$`)
	wrongValue = regexp.MustCompile(`^invalid (?:boolean )?value (".*") for (?:flag )?-([a-z-]+): .*$`)
)

// flagText says what the flag package found, with options written as people
// type them and with what would be right.
func flagText(name, found string) string {
	command := strings.TrimSpace("battwright " + strings.TrimPrefix(name, "battwright"))
	table := flagsOf(strings.TrimPrefix(name, "battwright"))
	wanted := func(option string) string {
		at := slices.IndexFunc(table, func(x flagInfo) bool { return x.name == option })
		if at < 0 || table[at].takes == takesNothing {
			return "nothing behind it"
		}
		return table[at].arg
	}
	if m := noSuchFlag.FindStringSubmatch(found); m != nil {
		return fmt.Sprintf("there is no option --%s here; %s --help lists the options", m[1], command)
	}
	if m := noValue.FindStringSubmatch(found); m != nil {
		return fmt.Sprintf("--%s needs a value: --%s %s", m[1], m[1], wanted(m[1]))
	}
	if m := wrongValue.FindStringSubmatch(found); m != nil {
		return fmt.Sprintf("--%s %s; want %s", m[2], m[1], wanted(m[2]))
	}
	return command + ": " + found
}

// commandHelp is the help of one command.
func commandHelp(name string, flags *flag.FlagSet) string {
	var b strings.Builder
	usage, what := "battwright [house.toml]", "describe a house, screen by screen"
	for _, c := range commands() {
		if c.name == name {
			usage, what = strings.TrimSpace("battwright "+c.name+" "+c.args), c.what
		}
	}
	fmt.Fprintf(&b, "%s\n  %s\n", usage, what)
	table := flagsOf(name)
	flags.VisitAll(func(f *flag.Flag) {
		info := flagInfo{name: f.Name}
		if i := slices.IndexFunc(table, func(x flagInfo) bool { return x.name == f.Name }); i >= 0 {
			info = table[i]
		}
		b.WriteString(info.line())
	})
	b.WriteString("battwright --help tells the rest.\n")
	return b.String()
}

// line is one flag in the help.
func (f flagInfo) line() string { return twoColumns("  --"+f.name+" "+f.arg, f.what) }

// helpColumn is where meanings begin in the help, helpWidth how wide it is.
const (
	helpColumn = 38
	helpWidth  = 100
)

// twoColumns writes what is typed and beside it, or below when it is long,
// what it does.
func twoColumns(head, what string) string {
	var b strings.Builder
	head = strings.TrimRight(head, " ")
	if len(head) > helpColumn-1 {
		b.WriteString(head + "\n")
		head = ""
	}
	for _, l := range print.Wrap(what, helpWidth-helpColumn) {
		fmt.Fprintf(&b, "%-*s%s\n", helpColumn, head, l)
		head = ""
	}
	return b.String()
}
