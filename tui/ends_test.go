package tui

import (
	"bytes"
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/session"
)

// openFields are the kinds of field something may stand in, and how what stood
// there is told in what is kept.
var openFields = map[string]struct {
	open        []string
	typed, kept string
	bad         string // what cannot be taken; empty where all can
}{
	"house":           {[]string{"g", "1"}, "61", "length_ft = 61", "wide"},
	"finished work":   {[]string{"g", "7", "5", "1"}, "38", "#| label_r = [38.0]", "thick"},
	"price":           {[]string{"g", "6", "p", "enter", "enter"}, "91.5", "usd = 91.5", "cheap"},
	"name of a plan":  {[]string{"g", "4", "k", "enter"}, "loud house", `name = "loud house"`, ""},
	"replaces a plan": {[]string{"g", "4", "k", "enter"}, "quiet house", "", "quiet house"},
}

// opened is a player with a file at an open field in which something is typed.
func opened(t *testing.T, name, text string) *player {
	t.Helper()
	store := fixture.NewMemory()
	h := demoHouse(t)
	store.Files["h.toml"] = house.Write(fixture.List(t), h)
	p := newPlayer(t, Config{Mono: true, Store: store, House: h, Path: "h.toml", Text: store.Files["h.toml"]}, 100, 40)
	p.press(openFields[name].open...)
	switch f, _ := p.m.top().(*form); name {
	case "house":
		p.ask("shape.length_ft").press("ctrl+u")
	case "finished work":
		for !f.fields[f.active].textual() {
			p.press("tab")
		}
	}
	require.True(t, p.m.top().Typing(), p.view())
	return p.typed(text)
}

// However a form ends, what stands in its open field is taken in.
func TestWhatStandsInAnOpenFieldIsTakenIn(t *testing.T) {
	for name, x := range openFields {
		if x.kept == "" {
			continue
		}
		for _, key := range []string{"ctrl+c", "ctrl+q", "ctrl+g", "ctrl+s"} {
			p := opened(t, name, x.typed).press(key)
			require.Contains(t, p.m.s.KeptText(), x.kept, "%s, %s", name, key)
			if key == "ctrl+g" {
				require.Contains(t, p.view(), "Go to", name)
				p.press("esc", "enter") // nothing is there to be taken a second time
				require.Contains(t, p.m.s.KeptText(), x.kept, name)
			}
			if key == "ctrl+q" && p.m.asking {
				p.press("n")
			}
			if key == "ctrl+c" || key == "ctrl+q" {
				require.True(t, p.quit, "%s, %s: %s", name, key, p.view())
				require.Contains(t, p.store.Text, x.kept, "%s, %s", name, key)
			}
		}
	}
}

// A signal ends the loop without a key.
func TestASignalTakesInWhatStandsInAnOpenField(t *testing.T) {
	for name, x := range openFields {
		if x.kept == "" {
			continue
		}
		p := opened(t, name, x.typed)
		ctx, stop := context.WithCancel(context.Background())
		stop()
		_ = runWith(ctx, nil, Config{Store: p.store, List: fixture.List(t), In: &bytes.Buffer{}, Out: &bytes.Buffer{}}, func(m *Model) { *m = p.m })
		require.Contains(t, p.store.Text, x.kept, name)
	}
}

// What cannot be taken is asked about once, and said when it is left out.
func TestWhatCannotBeTakenIsAskedAbout(t *testing.T) {
	for name, x := range openFields {
		if x.bad == "" {
			continue
		}
		for _, key := range []string{"ctrl+q", "ctrl+g"} {
			p := opened(t, name, x.bad)
			before, top := p.m.s.KeptText(), p.m.top()
			p.press(key)
			require.Contains(t, p.view(), `Not kept: "`+x.bad+`"`, "%s, %s", name, key)
			require.Contains(t, p.view(), key+" again leaves it out", "%s, %s", name, key)
			require.True(t, p.m.top() == top && !p.quit, "%s, %s", name, key)
			p.press(key)
			require.True(t, p.quit || p.m.asking || p.m.top() != top, "%s, %s", name, key)
			require.Equal(t, before, p.m.s.KeptText(), "%s, %s", name, key)
		}
	}
}

// The window may be too small to draw in.
func TestASmallWindowTakesInWhatWasTyped(t *testing.T) {
	p := opened(t, "house", "61").resize(30, 8).press("q")
	require.Equal(t, 61.0, p.m.s.Answered().Num(house.Shape, nil, "length_ft"))
	require.True(t, p.m.asking)
	require.Equal(t, session.AtHouse, p.m.top().Step())
}
