package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

var shells = []string{"bash", "zsh", "fish"}

// runCompletion prints a script that teaches a shell our commands and flags.
func runCompletion(o options, e env) int {
	names := o.files
	if len(names) != 1 || !slices.Contains(shells, names[0]) {
		return usage(e, "completion: name one of %s", strings.Join(shells, ", "))
	}
	if _, err := io.WriteString(e.stdout, completion(names[0])); err != nil {
		return fail(e, err)
	}
	return exitDone
}

func completion(shell string) string {
	switch shell {
	case "zsh":
		return zshScript()
	case "fish":
		return fishScript()
	}
	return bashScript()
}

func commandNames() []string {
	var out []string
	for _, c := range commands() {
		out = append(out, c.name)
	}
	return out
}

// wordsOf are the fixed words that may follow a command, beside files.
func wordsOf(name string) []string {
	if name == "completion" {
		return shells
	}
	return nil
}

func dashed(fs []flagInfo) []string {
	out := []string{}
	for _, f := range fs {
		out = append(out, "--"+f.name)
	}
	return append(out, "--help")
}

// bashScript needs no library of the shell. Where it offers nothing, the shell
// completes file names itself.
func bashScript() string {
	var b strings.Builder
	b.WriteString("# completion of battwright for bash: source this file, or put it among your completions\n")
	b.WriteString(`_battwright() {
  local cur="${COMP_WORDS[COMP_CWORD]}" prev="${COMP_WORDS[COMP_CWORD-1]}" cmd="" offer="" i
  COMPREPLY=()
  if [[ $cur == "=" ]]; then cur=""; elif [[ $prev == "=" && $COMP_CWORD -gt 1 ]]; then prev="${COMP_WORDS[COMP_CWORD-2]}"; fi
  for ((i = 1; i < COMP_CWORD; i++)); do
    case "${COMP_WORDS[i]}" in
`)
	fmt.Fprintf(&b, "      %s) cmd=\"${COMP_WORDS[i]}\"; break ;;\n", strings.Join(commandNames(), "|"))
	b.WriteString("    esac\n  done\n  case \"$prev\" in\n")
	for _, f := range flagTable() {
		switch {
		case f.takes == takesFolder:
			fmt.Fprintf(&b, "    --%s) local IFS=$'\\n'; COMPREPLY=($(compgen -d -- \"$cur\")); return ;;\n", f.name)
		case len(f.values) > 0:
			fmt.Fprintf(&b, "    --%s) COMPREPLY=($(compgen -W '%s' -- \"$cur\")); return ;;\n", f.name, strings.Join(f.values, " "))
		case f.takes != takesNothing:
			fmt.Fprintf(&b, "    --%s) return ;;\n", f.name)
		}
	}
	b.WriteString("  esac\n  case \"$cmd\" in\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "    %s) offer=\"%s\" ;;\n", c.name, strings.Join(append(dashed(flagsOf(c.name)), wordsOf(c.name)...), " "))
	}
	fmt.Fprintf(&b, "    *) offer=\"%s\" ;;\n", strings.Join(append(append(commandNames(), dashed(flagsOf(""))...), "--version"), " "))
	b.WriteString(`  esac
  COMPREPLY=($(compgen -W "$offer" -- "$cur"))
  if [[ $cur != -* ]]; then
    local IFS=$'\n'
    COMPREPLY+=($(compgen -f -X '!*.toml' -- "$cur"))
  fi
}
complete -o bashdefault -o default -F _battwright battwright
`)
	return b.String()
}

// zshScript uses the argument helper that every zsh brings.
func zshScript() string {
	var b strings.Builder
	b.WriteString("#compdef battwright\n# completion of battwright for zsh: put this file as _battwright in a folder of your fpath\n_battwright() {\n  local -a commands\n  commands=(\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "    %s\n", shellQuote(c.name+":"+c.what))
	}
	b.WriteString("  )\n  local cmd=${words[2]}\n  if (( CURRENT == 2 )); then\n    _describe -t commands command commands\n    cmd=''\n  fi\n  case $cmd in\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "    %s) _arguments -s%s ;;\n", c.name, zshArgs(c.name))
	}
	fmt.Fprintf(&b, "    *) _arguments -s%s ;;\n", zshArgs(""))
	b.WriteString("  esac\n}\nif [[ $funcstack[1] == _battwright ]]; then _battwright \"$@\"; else compdef _battwright battwright; fi\n")
	return b.String()
}

func zshArgs(name string) string {
	var b strings.Builder
	for _, f := range flagsOf(name) {
		spec := "--" + f.name + "[" + zshEscape(f.what) + "]"
		switch {
		case f.takes == takesFolder:
			spec += ":folder:_files -/"
		case len(f.values) > 0:
			spec += ":value:(" + strings.Join(f.values, " ") + ")"
		case f.takes == takesFile:
			spec += ":file:_files"
		case f.takes == takesText:
			spec += ":text: "
		}
		if f.takes != takesNothing {
			spec = "*" + spec
		}
		b.WriteString(" " + shellQuote(spec))
	}
	b.WriteString(" '--help[how to use it]'")
	if name == "" {
		b.WriteString(" '--version[which version this is]'")
	}
	rest := "*:house file:_files -g \"*.toml\""
	if w := wordsOf(name); w != nil {
		rest = "*:word:(" + strings.Join(w, " ") + ")"
	}
	b.WriteString(" " + shellQuote(rest))
	return b.String()
}

// zshEscape keeps brackets and colons out of the syntax of a spec.
func zshEscape(s string) string {
	return strings.NewReplacer(`\`, `\\`, "[", `\[`, "]", `\]`, ":", `\:`).Replace(s)
}

// fishScript is one line for each thing that may be typed.
func fishScript() string {
	var b strings.Builder
	b.WriteString("# completion of battwright for fish: put this file as battwright.fish in your completions folder\n")
	none := "not __fish_seen_subcommand_from " + strings.Join(commandNames(), " ")
	for _, c := range commands() {
		fmt.Fprintf(&b, "complete -c battwright -n %s -a %s -d %s\n", shellQuote(none), c.name, fishQuote(c.what))
	}
	fishFlags(&b, none, "")
	fmt.Fprintf(&b, "complete -c battwright -n %s -l version -d 'which version this is'\n", shellQuote(none))
	for _, c := range commands() {
		when := "__fish_seen_subcommand_from " + c.name
		fishFlags(&b, when, c.name)
		if w := wordsOf(c.name); w != nil {
			fmt.Fprintf(&b, "complete -c battwright -n %s -f -a %s\n", shellQuote(when), shellQuote(strings.Join(w, " ")))
		}
	}
	return b.String()
}

func fishFlags(b *strings.Builder, when, name string) {
	for _, f := range flagsOf(name) {
		line := "complete -c battwright -n " + shellQuote(when) + " -l " + f.name
		switch {
		case f.takes == takesFolder:
			line += " -x -a '(__fish_complete_directories)'"
		case len(f.values) > 0:
			line += " -x -a " + shellQuote(strings.Join(f.values, " "))
		case f.takes == takesFile:
			line += " -r -F"
		case f.takes == takesText:
			line += " -x"
		}
		fmt.Fprintf(b, "%s -d %s\n", line, fishQuote(f.what))
	}
	fmt.Fprintf(b, "complete -c battwright -n %s -l help -d 'how to use it'\n", shellQuote(when))
}

// shellQuote quotes for bash and zsh; fishQuote for fish, whose single quotes
// know a backslash.
func shellQuote(s string) string { return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'" }

func fishQuote(s string) string {
	return "'" + strings.NewReplacer(`\`, `\\`, "'", `\'`).Replace(s) + "'"
}
