package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// keptIn is where the store keeps answers below a state folder.
func keptIn(state string) string { return filepath.Join(state, "battwright", keptName) }

func TestExitCodes(t *testing.T) {
	require.Equal(t, [...]int{0, 1, 2, 3}, [...]int{exitDone, exitInput, exitUsage, exitShort})
	p := expectation(t)
	codes := map[string]int{"interrupted": exitInterrupted, "internal": exitInternal}
	require.Len(t, p.Exit, len(codes))
	for _, x := range p.Exit {
		require.Equal(t, x.Code, codes[x.Name], x.Name)
	}
	for _, s := range p.Signals {
		if s.Name == "SIGINT" {
			require.Equal(t, 128+s.Number, exitInterrupted)
		}
	}
	folder := t.TempDir()
	for _, c := range []struct {
		code int
		args []string
		says string // on standard error
	}{
		{exitDone, []string{"--version"}, ""},
		{exitDone, []string{"version"}, ""},
		{exitDone, []string{"--help"}, ""},
		{exitDone, []string{"-h"}, ""},
		{exitDone, []string{"plan", "--help"}, ""},
		{exitDone, []string{"check", "-h"}, ""},
		{exitDone, []string{"plan", goodHouse}, ""},
		{exitDone, []string{goodHouse, "--units", "si"}, ""},
		{exitDone, []string{"check", goodHouse}, ""},
		{exitDone, []string{"check"}, ""},
		{exitDone, []string{"words"}, ""},
		{exitDone, []string{"words", "vapor", "retarder"}, ""},
		{exitInput, []string{"plan", "testdata/nowhere.toml"}, "testdata/nowhere.toml: there is no such file"},
		{exitInput, []string{"plan", folder}, "this is a folder"},
		{exitInput, []string{"plan", brokenHouse}, brokenHouse + ":3"},
		{exitInput, []string{"plan", "--variant", "loud one", goodHouse}, "it has: quiet one"},
		{exitInput, []string{"plan", "--data", filepath.Join(folder, "none")}, "no such file or folder"},
		{exitInput, []string{"plan", "--data", goodHouse}, "not a folder"},
		{exitInput, []string{"check", "--data", filepath.Join(folder, "none")}, "no such file or folder"},
		{exitInput, []string{"words", "--data", filepath.Join(folder, "none")}, "no such file or folder"},
		{exitInput, []string{"check", goodHouse, brokenHouse}, brokenHouse},
		{exitInput, []string{"words", "zzzzqqqq"}, `no entry for "zzzzqqqq"`},
		{exitInput, []string{"plan", "--out", filepath.Join(folder, "no", "such", "plan.txt")}, "no such file or folder"},
		{exitUsage, []string{"plan", "--format", "pdf"}, "want text, markdown, json, csv"},
		{exitUsage, []string{"inspect", "-", "-"}, "name it once"},
		{exitInput, []string{"ask", "-"}, "name a house file"},
		{exitUsage, []string{"plan", "--units", "cubits"}, "want us or si"},
		{exitUsage, []string{"compare", "--units", "cubits"}, "want us or si"},
		{exitUsage, []string{"plan", "--priority", "cost=9"}, "whole number from 0 to 5"},
		{exitUsage, []string{"plan", "--priority", "cost=1.5"}, "whole number from 0 to 5"},
		{exitUsage, []string{"plan", "--priority", "beauty=3"}, "cost, sound, irritants, fire, moisture"},
		{exitUsage, []string{"plan", "--priority", "cost"}, "want one like cost=5"},
		{exitUsage, []string{"plan", "--priority", "cost="}, "whole number"},
		{exitUsage, []string{"plan", "--colour"}, "colour"},
		{exitUsage, []string{"plan", "--colour"}, "there is no option --colour here; battwright plan --help lists the options"},
		{exitUsage, []string{"-v"}, "there is no option -v here; battwright --help lists the options"},
		{exitUsage, []string{"--format", "json"}, "there is no option --format here; battwright --help lists the options"},
		{exitUsage, []string{"tour", "--units", "si"}, "there is no option --units here; battwright tour --help"},
		{exitUsage, []string{"plan", "--out"}, "--out needs a value: --out FILE"},
		{exitUsage, []string{"plan", "--format"}, "--format needs a value: --format text|markdown|json|csv"},
		{exitUsage, []string{"handover", "--format"}, "--format needs a value: --format text|markdown|json\n"},
		{exitUsage, []string{"plan", "--strict=maybe"}, `--strict "maybe"; want nothing behind it`},
		{exitUsage, []string{"order", "--width", "wide"}, `--width "wide"; want 40|80`},
		{exitUsage, []string{"plna"}, "did you mean plan?"},
		{exitUsage, []string{"chekc"}, "did you mean check?"},
		{exitUsage, []string{"word"}, "did you mean words?"},
		{exitUsage, []string{"xyzzy"}, "there is no command"},
		{exitUsage, []string{""}, "there is no command"},
		{exitShort, []string{"plan", "--strict", shortHouse}, ""},
	} {
		r := runs(c.args...)
		require.Equal(t, c.code, r.code, "%q\n%s", c.args, r.stderr)
		require.Contains(t, r.stderr, c.says, "%q", c.args)
		if c.code == exitUsage {
			require.Contains(t, r.stderr, "battwright --help", "%q", c.args)
		}
		if c.code == exitUsage || c.code == exitInput && c.args[0] != "check" {
			require.Empty(t, r.stdout, "%q: a message on standard output", c.args)
		}
		if c.code == exitDone {
			require.NotEmpty(t, r.stdout, "%q", c.args)
		}
	}
}

// Every command and every exit code is in the help, which fits a window.
func TestHelpNamesEverything(t *testing.T) {
	help := runs("--help").stdout
	for _, c := range commands() {
		require.Contains(t, help, "battwright "+c.name)
		require.Contains(t, help, c.what)
	}
	for _, code := range []int{exitDone, exitInput, exitUsage, exitShort, exitInternal, exitInterrupted} {
		require.Contains(t, help, " "+strconv.Itoa(code)+" ")
	}
	for _, line := range strings.Split(help, "\n") {
		require.LessOrEqual(t, len([]rune(line)), 100, "%q", line)
	}
}

func TestVersionIsOneLine(t *testing.T) {
	r := runs("--version")
	require.Regexp(t, `^battwright .+\n$`, r.stdout)
	require.Empty(t, r.stderr)
}

// Without a terminal the bare command shows what it can do and how to start.
func TestNoTerminal(t *testing.T) {
	r := runs()
	require.Equal(t, exitDone, r.code)
	require.Equal(t, runs("plan").stdout, r.stdout)
	require.Contains(t, r.stderr, "no terminal")
	for _, args := range [][]string{{"--ascii"}, {"--no-color"}, {"--units", "si"}, {goodHouse}, {goodHouse, "--ascii"}} {
		r := runs(args...)
		require.Equal(t, exitDone, r.code, "%q: %s", args, r.stderr)
		require.NotEmpty(t, r.stdout)
	}
	require.Equal(t, exitUsage, runs("--units", "cubits").code)
	require.Equal(t, exitUsage, with{terminal: true}.run(goodHouse, goodHouse).code, "the screens take one house")
	bad := with{terminal: true}.run(brokenHouse)
	require.Equal(t, exitInput, bad.code)
	require.Contains(t, bad.stderr, brokenHouse+":3")
}

// All mistakes of all files come at once, each with its line, and none of
// them can write to the terminal.
func TestEveryProblemIsNamed(t *testing.T) {
	r := runs("check", brokenHouse, "testdata/nowhere.toml", goodHouse)
	require.Equal(t, exitInput, r.code)
	require.Equal(t, goodHouse+": good\n", r.stdout)
	for _, line := range []int{3, 4, 8, 11, 12, 16, 17, 20} {
		require.Contains(t, r.stderr, brokenHouse+":"+strconv.Itoa(line)+":", "line %d", line)
	}
	require.Contains(t, r.stderr, "testdata/nowhere.toml")

	hostile := filepath.Join(t.TempDir(), "hostile.toml")
	require.NoError(t, os.WriteFile(hostile, []byte("version = 1\n\"\\u001b]0;x\\u0007\" = \"\\u001b[31m\"\n"), 0o644))
	r = runs("check", hostile)
	require.Equal(t, exitInput, r.code)
	require.NotContains(t, r.stderr, "\x1b")
	require.NotContains(t, r.stderr, "\x07")
	require.NotContains(t, runs("words", "\x1b[31mkraft").stderr, "\x1b")
	require.NotContains(t, runs("\x1b[31mplan").stderr, "\x1b")
}

// Sizes that do not give the area that was typed are no good house.
func TestCheckNamesSizesThatDisagree(t *testing.T) {
	const attic = "version = 1\n[site]\nzone = \"5A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nlength_ft = 40\nwidth_ft = 28\n"
	r := with{stdin: attic + "area_ft2 = 9000\n"}.run("check", "-")
	require.Equal(t, exitShort, r.code)
	require.Contains(t, r.stdout, "SIZES DISAGREE, Attic floor: you typed 9000 square feet")
	require.Equal(t, exitDone, with{stdin: attic + "area_ft2 = 1120\n"}.run("check", "-").code)

	r = with{stdin: attic + "[[place]]\nkind = \"crawl-space\"\nvented = false\nwall_height_ft = 4\nabove_grade_ft = 6\n"}.run("check", "-")
	require.Equal(t, exitShort, r.code)
	require.Contains(t, r.stdout, "-:13: place[2].above_grade_ft: TWO ANSWERS DISAGREE: of Crawl space, 6 ft of wall")
}

func TestCheckRules(t *testing.T) {
	r := runs("check", "--rules")
	require.Equal(t, exitDone, r.code, r.stdout+r.stderr)
	require.Regexp(t, `(?m)^\d+ rules over \d+ facts; \d+ obligations; 0 findings$`, r.stdout)
}

func TestWords(t *testing.T) {
	list := runs("words").stdout
	require.Greater(t, strings.Count(list, "\n"), 30)
	kraft := runs("words", "kraft")
	require.Equal(t, exitDone, kraft.code)
	require.Contains(t, kraft.stdout, "Why it matters: ")
	require.Contains(t, kraft.stdout, "From: ")
	require.Equal(t, kraft.stdout, runs("words", "craft").stdout, "a word that sounds the same")
	near := runs("words", "fibreglas")
	require.Contains(t, near.stdout+near.stderr, "fiberglass")
	for _, line := range strings.Split(kraft.stdout, "\n") {
		require.LessOrEqual(t, len([]rune(line)), 80, "%q", line)
	}
}

// brokenPipe is standard output when its reader has gone.
type brokenPipe struct{ after int }

func (b *brokenPipe) Write(p []byte) (int, error) {
	if b.after -= len(p); b.after >= 0 {
		return len(p), nil
	}
	return 0, errors.New("write |1: broken pipe")
}

func TestBrokenPipe(t *testing.T) {
	for _, args := range [][]string{{"plan"}, {"plan", "--format", "json"}, {"plan", "--format", "csv"}, {"--help"}, {"words"}, {"check", "--rules"}, {"compare"}} {
		for _, after := range []int{0, 10} {
			r := with{stdout: &brokenPipe{after: after}}.run(args...)
			require.NotEqual(t, exitInternal, r.code, "%q: %s", args, r.stderr)
			require.NotContains(t, r.stderr, "goroutine", "%q", args)
		}
	}
	require.Equal(t, exitInput, with{stdout: &brokenPipe{}}.run("plan").code, "a plan that nobody got is not done")
}

// A fault of ours is reported in plain words, with its own code.
func TestFaultIsReported(t *testing.T) {
	var errs strings.Builder
	code := run([]string{"plan", "-"}, env{stdin: faulty{}, stdout: io.Discard, stderr: &errs, getenv: func(string) string { return "" }})
	require.Equal(t, exitInternal, code)
	require.Contains(t, errs.String(), "a fault in the program itself: made up for a test")
	require.Contains(t, errs.String(), "Nothing you saved was changed")
}

type faulty struct{}

func (faulty) Read([]byte) (int, error) { panic("made up for a test") }
