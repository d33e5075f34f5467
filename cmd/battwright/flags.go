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
	"battwright/rules/strict"
)

// flagInfo is what help and completion say of a flag. A flag means the same
// in every command that has it.
type flagInfo struct {
	name, arg, what string
	values          []string // what may follow, when it is one of a few
	takes           argKind
}

// options are all that may stand behind the name of a command. Each command has
// those that commandFlags names; the others stay as they begin.
type options struct {
	files                                        []string
	dataDir, system, format, out, page, drywall  string
	priorities, variants                         stringList
	width                                        int // columns, 0: as many as a printed page has
	force, strict, picture, rules, ask, template bool
	form, plain, ascii, mono                     bool
}

// values are where what was typed goes, by the name of the flag.
func (o *options) values() map[string]any {
	return map[string]any{
		"format": &o.format, "out": (*outFile)(&o.out), "force": &o.force, "priority": &o.priorities, "variant": &o.variants, "data": &o.dataDir,
		"units": &o.system, "strict": &o.strict, "picture": &o.picture, "rules": &o.rules, "page": &o.page, "drywall": &o.drywall, "width": &o.width,
		"ask": &o.ask, "template": &o.template, "form": &o.form, "plain": &o.plain, "ascii": &o.ascii, "no-color": &o.mono,
	}
}

type stringList []string

func (s *stringList) String() string     { return strings.Join(*s, ", ") }
func (s *stringList) Set(v string) error { *s = append(*s, v); return nil }

// outFile is the name of a file.
type outFile string

func (out *outFile) String() string { return string(*out) }

func (out *outFile) Set(name string) error {
	if clean, changed := strict.CleanText(name); changed || clean == "" {
		return errors.New("not the name of a file")
	}
	*out = outFile(name)
	return nil
}

// The least and most columns of a text.
const (
	leastWidth = 30
	mostWidth  = 200
)

// usualWidth is the width of a text where that is said; else it is 0.
var usualWidth = map[string]int{"order": 78}

// begin reads what is typed behind the name of a command, and does it.
func begin(name string, run func(options, env) int, args []string, e env) int {
	o := options{format: formats[0], system: "us", width: usualWidth[name]}
	f := flag.NewFlagSet(name, flag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.Usage = func() {}
	for _, x := range flagsOf(name) {
		switch to := o.values()[x.name].(type) {
		case *string:
			f.StringVar(to, x.name, *to, "")
		case *int:
			f.IntVar(to, x.name, *to, "")
		case *bool:
			f.BoolVar(to, x.name, false, "")
		case flag.Value:
			f.Var(to, x.name, "")
		}
	}
	var err error
	if o.files, err = parseFlags(f, args); errors.Is(err, flag.ErrHelp) {
		io.WriteString(e.stdout, commandHelp(name))
		return exitDone
	} else if err != nil {
		return usage(e, "%s", flagText(name, err.Error()))
	}
	if problem := o.wrong(name); problem != "" {
		return usage(e, "%s", problem)
	}
	return run(o, e)
}

// wrong finds what is wrong with the values of options, empty when nothing is.
func (o options) wrong(name string) string {
	for _, x := range flagsOf(name) {
		if x.name == "format" && !slices.Contains(x.values, o.format) {
			return fmt.Sprintf("--format %q; want %s", o.format, strings.Join(x.values, ", "))
		}
	}
	switch {
	case o.system != "us" && o.system != "si":
		return fmt.Sprintf("--units %q; want us or si", o.system)
	case o.width != usualWidth[name] && (o.width < leastWidth || o.width > mostWidth):
		return fmt.Sprintf("--width %d; want %d to %d, usually 40 or 80", o.width, leastWidth, mostWidth)
	}
	return ""
}

// argKind is what completion offers after a flag.
type argKind int

const (
	takesNothing argKind = iota
	takesText
	takesFile
	takesFolder
)

// flagTable holds every flag of the program.
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

var (
	formats    = []string{"text", "markdown", "json", "csv"}
	jobFormats = formats[:3] // of a page: no csv
)

// flagsOf gives the flags of a command as the table has them.
func flagsOf(name string) []flagInfo {
	var out []flagInfo
	for _, f := range flagTable() {
		if !slices.Contains(commandFlags()[name], f.name) {
			continue
		}
		if f.name == "format" && slices.Contains([]string{"handover", "offer", "inspect"}, name) {
			f.arg, f.values, f.what = strings.Join(jobFormats, "|"), jobFormats, "how to print"
		}
		out = append(out, f)
	}
	return out
}

var (
	noSuchFlag = regexp.MustCompile(`^flag provided but not defined: --?(.+)$`)
	noValue    = regexp.MustCompile(`^flag needs an argument: --?(.+)$`)
	wrongValue = regexp.MustCompile(`^invalid (?:boolean )?value (".*") for (?:flag )?-([a-z-]+): .*$`)
)

// flagText says what the flag package found, with options written as people
// type them and with what would be right.
func flagText(name, found string) string {
	command := strings.TrimSpace("battwright " + name)
	table := flagsOf(name)
	wanted := func(option string) string {
		at := slices.IndexFunc(table, func(x flagInfo) bool { return x.name == option })
		if at < 0 || table[at].takes == takesNothing {
			return "nothing behind it"
		}
		return table[at].arg
	}
	if m := noSuchFlag.FindStringSubmatch(found); m != nil {
		dashes := "--"
		if len(m[1]) == 1 {
			dashes = "-"
		}
		return fmt.Sprintf("there is no option %s%s here; %s --help lists the options", dashes, m[1], command)
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
func commandHelp(name string) string {
	var b strings.Builder
	usage, what := "battwright [house.toml]", "describe a house, screen by screen"
	for _, c := range commands() {
		if c.name == name {
			usage, what = strings.TrimSpace("battwright "+c.name+" "+c.args), c.what
		}
	}
	fmt.Fprintf(&b, "%s\n  %s\n", usage, what)
	table := flagsOf(name)
	slices.SortFunc(table, func(a, b flagInfo) int { return strings.Compare(a.name, b.name) })
	for _, f := range table {
		b.WriteString(f.line())
	}
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
