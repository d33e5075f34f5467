package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every flag of the table goes somewhere and is taken by a command, and is in the
// help and in every completion script.
func TestFlagTableIsWhole(t *testing.T) {
	names := append([]string{""}, commandNames()...)
	require.Len(t, commandFlags(), len(names), "the table has a command that is gone, or lacks one")
	all := map[string]bool{}
	for _, name := range names {
		want, ok := commandFlags()[name]
		require.True(t, ok, name)
		require.Len(t, flagsOf(name), len(want), "a flag of %q has no meaning in the table", name)
		require.Equal(t, exitUsage, runs(append(strings.Fields(name), "--no-such-flag")...).code, name)
		for _, f := range flagsOf(name) {
			all[f.name] = true
			require.Contains(t, new(options).values(), f.name)
			require.Contains(t, commandHelp(name), "  --"+f.name)
		}
	}
	help := runs("--help").stdout
	for _, f := range flagTable() {
		require.True(t, all[f.name], "no command takes --%s", f.name)
		require.NotEmpty(t, f.what)
		require.Equal(t, f.arg == "", f.takes == takesNothing, f.name)
		require.Contains(t, help, "  --"+strings.TrimSpace(f.name+" "+f.arg))
		for _, shell := range shells {
			sign := "--" + f.name
			if shell == "fish" {
				sign = "-l " + f.name + " "
			}
			require.Contains(t, completion(shell), sign, shell)
		}
	}
	for _, shell := range shells {
		for _, c := range commands() {
			require.Contains(t, completion(shell), c.name, shell)
		}
	}
}

// What the table offers after a flag is taken by the flag, and all of it.
func TestOfferedValuesAreTaken(t *testing.T) {
	for _, f := range flagTable() {
		for _, v := range f.values {
			if strings.HasSuffix(v, "=") {
				v += "2"
			}
			for _, c := range commands() {
				if slices.Contains(commandFlags()[c.name], f.name) {
					r := runs(c.name, "--"+f.name, v)
					require.NotEqual(t, exitUsage, r.code, "%s --%s %s: %s", c.name, f.name, v, r.stderr)
					break
				}
			}
		}
	}
	c, err := env{}.loadCatalog("")
	require.NoError(t, err)
	var offered []string
	for _, f := range flagTable() {
		if f.name == "priority" {
			offered = f.values
		}
	}
	require.Len(t, offered, len(c.Criteria))
	for _, k := range c.Criteria {
		require.Contains(t, offered, k.ID+"=")
	}
}

func TestCompletionCommand(t *testing.T) {
	for _, shell := range shells {
		r := runs("completion", shell)
		require.Equal(t, exitDone, r.code)
		require.Equal(t, completion(shell), r.stdout)
		require.True(t, strings.HasSuffix(r.stdout, "\n"))
	}
	require.Equal(t, exitUsage, runs("completion").code)
	require.Equal(t, exitUsage, runs("completion", "tcsh").code)
	require.Equal(t, exitUsage, runs("completion", "bash", "zsh").code)
}

// The shells themselves read the scripts without complaint.
func TestScriptsAreGoodSyntax(t *testing.T) {
	for _, shell := range shells {
		t.Run(shell, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "script")
			require.NoError(t, os.WriteFile(file, []byte(completion(shell)), 0o600))
			out, err := inShell(t, shell, "", "-n", file)
			require.NoError(t, err, out)
			require.Empty(t, out)
		})
	}
}

func inShell(t *testing.T, shell, stdin string, args ...string) (string, error) {
	t.Helper()
	path, err := exec.LookPath(shell)
	if err != nil {
		t.Skip("no " + shell + " here")
	}
	cmd := exec.Command(path, args...)
	cmd.Dir = t.TempDir()
	cmd.Env = []string{"HOME=" + cmd.Dir, "PATH=" + os.Getenv("PATH"), "TERM=dumb"}
	for _, name := range []string{"house.toml", "notes.txt"} {
		require.NoError(t, os.WriteFile(filepath.Join(cmd.Dir, name), nil, 0o600))
	}
	cmd.Stdin = strings.NewReader(stdin)
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// typedLines are command lines, cut where the person asks for completion, with
// what must be offered and what must not.
var typedLines = []struct {
	words      []string
	want, lack []string
}{
	{[]string{"pl"}, []string{"plan"}, []string{"words", "notes.txt"}},
	{[]string{""}, []string{"plan", "compare", "ask", "check", "words", "tour", "completion", "house.toml"}, []string{"notes.txt"}},
	{[]string{"--pl"}, []string{"--plain"}, []string{"--format"}},
	{[]string{"plan", "--"}, []string{"--format", "--out", "--priority", "--strict", "--help"}, []string{"--plain", "--rules"}},
	{[]string{"plan", "--format", ""}, []string{"text", "markdown", "json", "csv"}, []string{"house.toml"}},
	{[]string{"plan", "--format", "m"}, []string{"markdown"}, []string{"json"}},
	{[]string{"plan", "--units", "s"}, []string{"si"}, []string{"us"}},
	{[]string{"plan", "--priority", "fi"}, []string{"fire="}, []string{"cost="}},
	{[]string{"plan", "ho"}, []string{"house.toml"}, []string{"notes.txt"}},
	{[]string{"completion", ""}, []string{"bash", "zsh", "fish"}, nil},
	{[]string{"check", "--r"}, []string{"--rules"}, []string{"--units"}},
}

func TestBashCompletes(t *testing.T) {
	for _, c := range typedLines {
		script := completion("bash") + "\nCOMP_WORDS=(battwright"
		for _, w := range c.words {
			script += " " + shellQuote(w)
		}
		script += ")\nCOMP_CWORD=$((${#COMP_WORDS[@]}-1))\n_battwright\nprintf '%s\\n' \"${COMPREPLY[@]}\"\n"
		out, err := inShell(t, "bash", script, "--norc", "--noprofile")
		require.NoError(t, err, out)
		offers(t, strings.Fields(out), c.words, c.want, c.lack)
	}
	// bash cuts a word at the sign "=".
	out, err := inShell(t, "bash", completion("bash")+"\nCOMP_WORDS=(battwright plan --units = s)\nCOMP_CWORD=4\n_battwright\necho \"${COMPREPLY[@]}\"\n", "--norc", "--noprofile")
	require.NoError(t, err)
	require.Equal(t, "si\n", out)
}

func TestFishCompletes(t *testing.T) {
	file := filepath.Join(t.TempDir(), "battwright.fish")
	require.NoError(t, os.WriteFile(file, []byte(completion("fish")), 0o600))
	for _, c := range typedLines {
		script := "source " + file + "; complete -C " + fishQuote("battwright "+strings.Join(c.words, " "))
		out, err := inShell(t, "fish", "", "--no-config", "-c", script)
		require.NoError(t, err, out)
		var got []string
		for _, l := range strings.Split(out, "\n") {
			word, _, _ := strings.Cut(l, "\t")
			got = append(got, word)
		}
		want := slices.Clone(c.want)
		if len(c.words) == 1 && c.words[0] == "" {
			want = slices.DeleteFunc(want, func(w string) bool { return w == "house.toml" }) // fish adds files of its own
		}
		offers(t, got, c.words, want, slices.DeleteFunc(slices.Clone(c.lack), func(w string) bool { return w == "notes.txt" }))
	}
}

func offers(t *testing.T, got, typed, want, lack []string) {
	t.Helper()
	for _, w := range want {
		require.Contains(t, got, w, "after %q", typed)
	}
	for _, w := range lack {
		require.NotContains(t, got, w, "after %q", typed)
	}
}
