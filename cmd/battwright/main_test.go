package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// binaryDir holds the built program for the tests that need the real thing.
var binaryDir string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "battwright-test-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	binaryDir = dir
	code := m.Run()
	os.RemoveAll(dir)
	os.Exit(code)
}

// build makes the program once, when the first test asks for it.
var build = sync.OnceValues(func() (string, error) {
	path := filepath.Join(binaryDir, "battwright")
	if runtime.GOOS == "windows" {
		path += ".exe"
	}
	out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput()
	if err != nil {
		return "", errors.New(string(out))
	}
	return path, nil
})

func binary(t testing.TB) string {
	t.Helper()
	path, err := build()
	require.NoError(t, err)
	return path
}

// published is what terminals and systems expect, with where it is from.
type published struct {
	Signals []struct {
		Name   string
		Number int
	}
	Exit []struct {
		Name string
		Code int
	}
	Sequences []struct{ Name, Text string }
	Folders   []struct {
		Given map[string]string
		Want  string
	}
}

var expectations = sync.OnceValues(func() (published, error) {
	var p published
	b, err := os.ReadFile("../../testdata/published/terminal.json")
	if err != nil {
		return p, err
	}
	return p, json.Unmarshal(b, &p)
})

func expectation(t testing.TB) published {
	t.Helper()
	p, err := expectations()
	require.NoError(t, err)
	return p
}

func (p published) sequence(t testing.TB, name string) string {
	t.Helper()
	for _, s := range p.Sequences {
		if s.Name == name {
			return s.Text
		}
	}
	require.Fail(t, "no such sequence", name)
	return ""
}

// result is what a run gave back.
type result struct {
	code           int
	stdout, stderr string
}

// with is a run in memory: no terminal, and only the environment given.
type with struct {
	stdin    string
	environ  map[string]string
	terminal bool
	stdout   io.Writer
	yearly   bool // damp is judged
}

func (w with) run(args ...string) result {
	var out, errs bytes.Buffer
	e := env{stdin: strings.NewReader(w.stdin), stdout: &out, stderr: &errs, terminal: w.terminal, getenv: func(k string) string { return w.environ[k] }, now: func() time.Time { return testDay }}
	if !w.yearly { // a year of damp takes longer than all else of a test
		e.files = fixture.NoHours
	}
	if w.stdout != nil {
		e.stdout = w.stdout
	}
	code := run(args, e)
	return result{code, out.String(), errs.String()}
}

// testDay is the day on which the tests run.
var testDay = time.Date(2026, 6, 1, 12, 0, 0, 0, time.Local)

func runs(args ...string) result { return with{}.run(args...) }

func readFile(t testing.TB, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(b)
}

const (
	goodHouse   = "testdata/good-house.toml"
	shortHouse  = "testdata/short-house.toml"
	brokenHouse = "testdata/broken-house.toml"
	demoFolder  = "../../testdata/demo/"
)
