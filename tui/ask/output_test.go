package ask_test

import (
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/strict"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

// everything reads all pages of the demo house once.
var everything = []string{
	"3", "report", "compare", "find out", "what if", "1", "why", "layers", "damp", "how", "own", "done", "next", "next", "layers", "damp", "edit", "done", "back",
	"help", "word kraft", "words", "word zzzz", "plans", "back", "next", "done", "ladder", "back", "export", "back", "next", "cut lists", "all", "1", "measured 1", "back", "asking sheet", "shopping list", "prices", "1", "1", "62.50", "2", "", "back", "back", "export", "back", "next", "help", "before covering", "sheets", "1", "8", "back", "pages", "1", "2", "3", "4", "5", "6", "7", "back", "offers", "open", "bold.toml", "open", "metric.toml", "1", "compare", "close 2", "blank", "back", "back",
	"finished work", "8", "y", "1 1/2", "done", "result", "open", "mixed.toml", "y", "result", "form", "write", "back", "back", "ready", "find out", "next", "places", "not covered", "house", "back", "quit",
}

func TestLinesFitAndHoldNothingATerminalObeys(t *testing.T) {
	for _, width := range []int{0, 1, 30, 46, 78, 200, 5000} {
		for _, echo := range []bool{true, false} {
			out, err := said(t, site(t), ask.Config{Width: width, Echo: echo}, everything...)
			require.NoError(t, err)
			limit := map[int]int{0: 78, 1: 30, 5000: 200}[width]
			if limit == 0 {
				limit = width
			}
			checkOutput(t, out, limit)
			require.NotContains(t, out, "is not offered here", "a word of the walk is not one")
			for _, part := range []string{"Not covered", "Why it matters:", "No such word here", "layers from inside to outside", "damp check", "What the next dollars buy", "Before anything is covered", "Hand over and check", "For the store", "Could not be read", "Offers beside the plan", "STOP: DO NOT CLOSE", "Finished work, by hand", "Ready to close"} {
				if width >= 46 {
					require.Contains(t, out, part)
				}
			}
		}
	}
}

// checkOutput: whole lines no wider than the width, without anything that
// moves a cursor or sets a colour. A prompt and its echo may be longer.
func checkOutput(t testing.TB, out string, width int) {
	t.Helper()
	for _, l := range strings.Split(out, "\n") {
		clean, changed := strict.CleanText(l)
		require.False(t, changed, "%q", l)
		require.True(t, utf8.ValidString(l))
		prompt := strings.HasPrefix(clean, "Answer: ") || strings.HasPrefix(clean, "Your choice: ") || strings.HasPrefix(clean, "File: ") || strings.HasPrefix(clean, "Name: ")
		if !prompt {
			require.LessOrEqual(t, len([]rune(l)), width, "%q", l)
		}
	}
}

func TestWhatIsTypedNeverReachesTheTerminalRaw(t *testing.T) {
	store := fixture.NewMemory()
	long := strings.Repeat("x", 100_000)
	out, err := said(t, store, ask.Config{Echo: true}, "2", "na\x1b[31mme\x07\u202e", long, strings.Repeat("é", 401), "framed\r", "quit\r")
	require.NoError(t, err)
	checkOutput(t, out, 78)
	require.Equal(t, 2, strings.Count(out, "Not taken: a line may have at most 400 characters."))
	require.Equal(t, house.Text("na[31mme"), kept(t, store).Answers["name"])
	require.Equal(t, house.Text("framed"), kept(t, store).Answers["stage"])
}

// A line of which nothing can be read is no enter: it neither passes a question
// over nor takes what is assumed.
func TestNothingReadableIsNoEnter(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{Echo: true}, "1", "\x07\x07", "\xff\xfe", "\x1b", "\x00", "\u202e", "framed", "quit")
	require.NoError(t, err)
	require.Equal(t, 5, strings.Count(out, "Not taken: nothing in that line can be read"))
	require.Equal(t, house.Text("framed"), kept(t, store).Answers["stage"])
}

func TestBothUnitsAreSaidWhereFiguresAreInSI(t *testing.T) {
	out, err := said(t, fixture.NewMemory(), ask.Config{System: 1}, "1", "skip", "skip", "no", "VT", "Chittenden", "quit")
	require.NoError(t, err)
	require.Contains(t, out, "m (40 ft).")
}

// The mode stands on no terminal library, nor on the screens that do.
func TestNoTerminalLibrary(t *testing.T) {
	for _, dir := range []string{".", "../chart", "../draw", "../session"} {
		names, err := filepath.Glob(filepath.Join(dir, "*.go"))
		require.NoError(t, err)
		require.NotEmpty(t, names)
		for _, name := range names {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
			require.NoError(t, err)
			for _, imp := range f.Imports {
				path, err := strconv.Unquote(imp.Path.Value)
				require.NoError(t, err)
				require.NotContains(t, path, "charmbracelet", name)
				require.True(t, !strings.HasPrefix(path, "battwright/tui") || slices.Contains([]string{"battwright/tui/session", "battwright/tui/draw", "battwright/tui/chart"}, path), "%s imports %s", name, path)
			}
		}
	}
}

// Where figures are shown in SI nothing that is said is left in US units, but
// the answer in the units it is typed in, in brackets behind it.
func TestEverythingSaidFollowsTheUnits(t *testing.T) {
	typed := regexp.MustCompile(` \([^()]*\)`)
	for _, system := range []units.System{units.US, units.SI} {
		out, err := said(t, fixture.NewMemory(), ask.Config{Width: 200, System: system}, everything...)
		require.NoError(t, err)
		require.NotContains(t, out, "{", "a figure in braces")
		if system == units.US {
			continue
		}
		for _, l := range strings.Split(out, "\n") {
			if !strings.HasPrefix(l, "Where the figures are from") && !strings.Contains(l, "[") {
				require.Empty(t, fixture.LeftInUS(typed.ReplaceAllString(l, "")), l)
			}
		}
	}
}
