package tui

import (
	"math/rand/v2"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/plan"
)

// keystrokes is how many random keys a test run presses; BATTWRIGHT_KEYS asks
// for a longer run, for instance 100000.
const keystrokes = 6000

func keyCount(t *testing.T) int {
	if s := os.Getenv("BATTWRIGHT_KEYS"); s != "" {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		return n
	}
	if testing.Short() {
		return keystrokes / 4
	}
	return keystrokes
}

// badPaste is what a careless or hostile clipboard holds: 10 kB with newlines,
// escape sequences, control characters and text that runs the other way.
var badPaste = strings.Repeat("1\n2\r\n\x1b[31mred\x1b]0;title\x07 \x00\x7f\u202e9 ft\t日本\u0301 ", 250)

// randomKey picks what an excited person or a cat might press.
func randomKey(r *rand.Rand) tea.Msg {
	named := []string{"enter", "enter", "enter", "enter", "esc", "up", "down", "down", "left", "right", "tab", "tab", "shift+tab", "pgup", "pgdn", "backspace", "delete", "home", "end", "f1", "space"}
	switch n := r.IntN(1000); {
	case n < 480:
		return keyOf(named[r.IntN(len(named))])
	case n < 800:
		const often = "bdmnepwhofxskg?/ac12345yr"
		return keyOf(string(often[r.IntN(len(often))]))
	case n < 920:
		return keyOf(string(rune(' ' + r.IntN(95))))
	case n < 960:
		return keyOf("ctrl+" + string("abdefghijklnoprstuvwxyz"[r.IntN(23)]))
	case n < 963:
		return keyOf("ctrl+c")
	case n < 970:
		return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(badPaste), Paste: true}
	case n < 975:
		return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("12 ft 6 in"), Paste: true}
	case n < 985: // keys sent in one write may come as one message
		return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("dnb")}
	case n < 990:
		return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(strconv.Itoa(r.IntN(70))), Alt: r.IntN(2) == 0}
	}
	return tea.WindowSizeMsg{Width: r.IntN(201), Height: r.IntN(61)}
}

// expectation is an answer that the next enter must keep.
type expectation struct {
	q     house.Question
	place string
	a     house.Answer
}

// expected tells what enter would keep of what is typed now. After ctrl-c, which
// may still be on its way to its end, it is nothing.
func expected(m Model) *expectation {
	f, ok := m.top().(*form)
	if !ok || f.help || m.asking || m.done || len(m.queue) > 0 || m.width < minWidth || m.height < minHeight || len(f.fields) == 0 {
		return nil
	}
	x := f.fields[f.active]
	if !x.textual() || !x.typed {
		return nil
	}
	a, err := x.q.Parse(x.input.Value())
	if err != nil {
		return nil
	}
	if doubt := m.s.Answered().Doubt(x.q, a); doubt != "" && x.problem != doubt+keepsIt {
		return nil // asked once whether it is meant
	}
	return &expectation{x.q, x.place, a}
}

func TestRandomKeys(t *testing.T) {
	total := keyCount(t)
	const perHouse = 400
	pressed, kept := 0, 0
	for seed := uint64(0); pressed < total; seed++ {
		n, k := randomRun(t, seed, min(perHouse, total-pressed))
		pressed, kept = pressed+n, kept+k
	}
	require.Positive(t, kept, "no typed answer was accepted: the run says nothing")
}

// randomRun presses at most n keys on one house. It tells how many, and how
// many typed answers were accepted on the way.
func randomRun(t *testing.T, seed uint64, n int) (pressed, kept int) {
	r := rand.New(rand.NewPCG(seed, 7))
	c := Config{Mono: seed%3 == 0, ASCII: seed%5 == 0} // what a person types may hold any letter
	if seed%2 == 0 {
		c.House = demoHouse(t)
	}
	p := newPlayer(t, c, 80, 24)
	p.mix = r.Shuffle
	var log []string
	defer func() {
		if e := recover(); e != nil {
			t.Fatalf("seed %d: panic %v after %q", seed, e, log[max(0, len(log)-20):])
		}
	}()
	for i := range n {
		msg := randomKey(r)
		if k, ok := msg.(tea.KeyMsg); ok {
			log = append(log, short(k.String()))
		}
		var want *expectation
		if k, ok := msg.(tea.KeyMsg); ok && k.Type == tea.KeyEnter {
			want = expected(p.m)
		}
		p.hold = r.IntN(20) == 0 // now and then results of commands come late
		p.send(msg)
		if want != nil {
			got := p.m.s.Answered().Raw(want.q, p.m.s.House.Place(want.place))
			require.True(t, got.Equal(want.a), "seed %d key %d: %s: accepted %+v, house has %+v", seed, i, want.q.FullKey(), want.a, got)
			kept++
		}
		view := p.view()
		if p.m.width > 0 && p.m.height > 0 && !p.m.done {
			require.Empty(t, frameProblem(view, p.m.width, p.m.height, Config{Mono: c.Mono}), "seed %d key %d %q\n%s", seed, i, log[max(0, len(log)-20):], view)
		}
		if i%40 == 39 || p.quit {
			p.settle()
			checkSession(t, p, seed, i)
		}
		if p.quit || len(p.m.s.House.Places) > 14 {
			return i + 1, kept // a person leaves; a house of many copies only costs time
		}
	}
	return n, kept
}

// checkSession compares the plan on the screen with one made from nothing, and
// the kept answers with the house.
func checkSession(t *testing.T, p *player, seed uint64, i int) {
	t.Helper()
	s := p.m.s
	fresh := plan.Assess(s.Answered()).Weigh(plan.PreferencesOf(s.Answered(), nil))
	require.True(t, samePlan(fresh, s.Plan), "seed %d key %d: the plan shown is not the plan of the answers", seed, i)
	require.False(t, p.store.Mismatch, "seed %d key %d: one autosave number, two texts", seed, i)
	text := s.KeptText()
	if p.store.Kept {
		require.Equal(t, p.store.Offered, p.store.Text, "seed %d key %d: an older state was kept over a newer one", seed, i)
	}
	if !s.Saved && s.Edits > 0 && p.store.Kept && p.store.Newest == s.Edits {
		require.Equal(t, text, p.store.Text, "seed %d key %d: the kept answers are not the newest", seed, i)
	}
	again, err := house.Read(s.List, "kept", text)
	require.NoError(t, err, "seed %d key %d: the kept answers cannot be read again:\n%s", seed, i, text)
	require.Equal(t, s.Text(), house.Write(s.List, again))
}

// samePlan compares two plans by all that they say. What they have worked out beside
// that, when it was asked for, may differ.
func samePlan(a, b plan.Plan) bool {
	said := func(p plan.Plan) []any {
		out := []any{p.Name, p.Stage, p.Site, p.Priorities, p.Bill, p.Spend, p.Assumed, p.Unknown, p.Undrawn, p.Disagree, p.NotCovered, p.Overlaid, p.Sources}
		for _, x := range p.Places {
			out = append(out, x.PlaceResult, x.Calls, x.Entries, x.Choice, x.Best, x.Also, x.Stops, x.Elsewhere, x.Install, x.Depends, x.Weights, x.Levels, x.Own, x.WaysOut, x.Hinges, x.Cost, x.Limited)
		}
		return out
	}
	return reflect.DeepEqual(said(a), said(b))
}

func short(s string) string {
	if len(s) > 12 {
		return s[:12] + "..."
	}
	return s
}
