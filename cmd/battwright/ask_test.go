package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"

	"battwright/tui/ask"
)

func lineEnv(t *testing.T) map[string]string {
	t.Helper()
	return map[string]string{"XDG_STATE_HOME": t.TempDir()}
}

func TestAskInLines(t *testing.T) {
	environ := lineEnv(t)
	r := with{stdin: "1\nframed\n", environ: environ}.run("ask")
	require.Equal(t, exitInput, r.code, "the end of the input is an error")
	require.Contains(t, r.stderr, "the answers ended before quit. Your answers are in "+environ["XDG_STATE_HOME"])
	kept := readFile(t, filepath.Join(environ["XDG_STATE_HOME"], "battwright", keptName))
	require.Contains(t, kept, `stage = "framed"`)

	r = with{stdin: "1\nquit\n", environ: environ}.run("ask")
	require.Equal(t, exitDone, r.code, r.stderr)
	require.Contains(t, r.stdout, "Your answer so far: framed.")
	require.Contains(t, r.stdout, "\nAnswer: quit\n", "what comes from a file is shown")

	r = with{stdin: "report\nquit\n", environ: lineEnv(t)}.run("ask", goodHouse, "--units", "si")
	require.Equal(t, exitDone, r.code, r.stderr)
	require.Contains(t, r.stdout, "Where the figures are from")
	require.Equal(t, exitInput, runs("ask", brokenHouse).code)
	require.Equal(t, exitInput, runs("ask", "testdata/nowhere.toml").code)
	require.Equal(t, exitUsage, runs("ask", goodHouse, goodHouse).code)
	require.Equal(t, exitUsage, runs("ask", "--units", "cubits").code)
}

func TestLinesWhereScreensWouldNotDo(t *testing.T) {
	const mark = "line by line"
	lines := func(terminal bool, environ map[string]string, args ...string) bool {
		environ["XDG_STATE_HOME"] = t.TempDir()
		r := with{stdin: "quit\n", terminal: terminal, environ: environ}.run(args...)
		require.Equal(t, exitDone, r.code, r.stderr)
		return strings.Contains(r.stdout, mark)
	}
	require.True(t, lines(false, map[string]string{}, "--plain"))
	require.True(t, lines(true, map[string]string{}, "--plain", goodHouse))
	require.True(t, lines(true, map[string]string{"ACCESSIBLE": "1"}))
	require.True(t, lines(true, map[string]string{"TERM": "dumb"}))
	require.False(t, lines(false, map[string]string{"TERM": "dumb", "ACCESSIBLE": "1"}), "a script that wants the plan is not asked")
	require.False(t, lines(false, map[string]string{"ACCESSIBLE": ""}))
}

func TestAskKeepsToTheColumns(t *testing.T) {
	for columns, limit := range map[string]int{"": 78, "50": 50, "wide": 78, "-3": 78, "9": 30} {
		environ := lineEnv(t)
		environ["COLUMNS"] = columns
		r := with{stdin: "3\nreport\nquit\n", environ: environ}.run("ask")
		longest := 0
		for _, l := range strings.Split(r.stdout, "\n") {
			longest = max(longest, len([]rune(l)))
		}
		require.LessOrEqual(t, longest, limit, columns)
		require.Greater(t, longest, limit-8, columns)
	}
}

// A reader that can be stopped gives what was typed, whole, and the stop.
func TestStoppableReader(t *testing.T) {
	text := strings.Repeat("forty feet\n", 2000)
	for _, in := range []io.Reader{strings.NewReader(text), iotest.OneByteReader(strings.NewReader(text)), iotest.DataErrReader(strings.NewReader(text))} {
		got, err := io.ReadAll(stoppable(context.Background(), nil, in))
		require.NoError(t, err)
		require.Equal(t, text, string(got))
	}
	ctx, stop := context.WithCancel(context.Background())
	r, w, err := os.Pipe()
	require.NoError(t, err)
	defer w.Close()
	s := stoppable(ctx, nil, r)
	_, err = w.WriteString("40")
	require.NoError(t, err)
	buf := make([]byte, 10)
	n, err := s.Read(buf)
	require.NoError(t, err)
	require.Equal(t, "40", string(buf[:n]))
	stop()
	_, err = s.Read(buf) // the pipe is silent: only the stop can end this
	require.ErrorIs(t, err, ask.ErrInterrupted)
	_, err = s.Read(buf)
	require.ErrorIs(t, err, ask.ErrInterrupted)
}

// Every command of the tour can be typed as it stands.
func TestTour(t *testing.T) {
	r := runs("tour")
	require.Equal(t, exitDone, r.code)
	require.LessOrEqual(t, strings.Count(r.stdout, "\n"), 28)
	typed := 0
	for _, l := range strings.Split(r.stdout, "\n") {
		require.LessOrEqual(t, len([]rune(l)), 79, l)
		words := strings.Fields(l)
		if !strings.HasPrefix(l, "     battwright") {
			continue
		}
		typed++
		got := with{stdin: "quit\n", environ: lineEnv(t)}.run(words[1:]...)
		require.Equal(t, exitDone, got.code, "%s\n%s", l, got.stderr)
		require.NotEmpty(t, got.stdout, l)
	}
	require.GreaterOrEqual(t, typed, 5)
	require.Equal(t, exitUsage, runs("tour", goodHouse).code)
}
