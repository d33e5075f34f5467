package style

import (
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/quick"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/require"
)

// A terminal with every colour, so that a colour beyond the sixteen would show.
func TestMain(m *testing.M) {
	lipgloss.SetColorProfile(termenv.TrueColor)
	os.Exit(m.Run())
}

var tones = []Tone{Plain, Title, Dim, Chosen, Good, Warn, Danger, Key}

func TestPaintKeepsTextAndWidth(t *testing.T) {
	same := func(s string, tone uint8) bool {
		s = strings.Map(func(r rune) rune { // the page hands over clean text only
			if r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 {
				return -1
			}
			return r
		}, s)
		x := tones[int(tone)%len(tones)]
		painted := New(false, false).Paint(x, s)
		return New(true, false).Paint(x, s) == s && ansi.Strip(painted) == s && ansi.StringWidth(painted) == ansi.StringWidth(s)
	}
	require.NoError(t, quick.Check(same, nil))
}

var sgr = regexp.MustCompile("\x1b\\[([0-9;]*)m")

// Foregrounds 30 to 37 and 90 to 97, bold and faint: nothing that hides text
// on a light or a dark background, and no background at all (SGR parameters
// as in ECMA-48 8.3.117; memory).
func TestOnlySixteenColoursAndNoBackground(t *testing.T) {
	theme := New(false, false)
	coloured := 0
	for _, tone := range tones {
		painted := theme.Paint(tone, "text")
		require.NotContains(t, sgr.ReplaceAllString(painted, ""), "\x1b", "tone %d", tone)
		for _, m := range sgr.FindAllStringSubmatch(painted, -1) {
			for _, part := range strings.Split(m[1], ";") {
				n, err := strconv.Atoi(part)
				require.NoError(t, err)
				ok := n <= 2 || n >= 30 && n <= 37 || n >= 90 && n <= 97
				require.True(t, ok, "tone %d uses SGR %d", tone, n)
				if n > 2 {
					coloured++
				}
			}
		}
	}
	require.Positive(t, coloured)
	require.Empty(t, theme.Paint(Danger, ""), "no colour around nothing")
}

func TestGlyphs(t *testing.T) {
	uni, plain := New(false, false).Glyphs, New(false, true).Glyphs
	for _, g := range []string{uni.Pointer, uni.Rule, uni.Dot, uni.Bar, uni.Empty, uni.Ellipsis} {
		require.Equal(t, 1, ansi.StringWidth(g), "%q", g)
	}
	for _, g := range []string{plain.Pointer, plain.Rule, plain.Dot, plain.Bar, plain.Empty, plain.Ellipsis, plain.Tick, plain.NoTick, uni.Tick, uni.NoTick} {
		require.NotEmpty(t, g)
		for _, r := range g {
			require.True(t, r >= ' ' && r < 0x7f, "%q", g)
		}
	}
	require.NotEqual(t, plain.Bar, plain.Empty)
	require.NotEqual(t, plain.Tick, plain.NoTick)
}
