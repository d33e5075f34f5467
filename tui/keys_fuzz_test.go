package tui

import (
	"math/rand/v2"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"
)

// FuzzKeys: whatever keys come, pasted or pressed, at whatever size of window,
// there is a frame that fits and a plan that is the plan of the answers. What
// is pressed is chosen by the bytes: each draws from the keys of the random
// run; text is typed as it stands.
func FuzzKeys(f *testing.F) {
	f.Add([]byte("\x00\x01\x02\x03"), "12 ft 6 in", true)
	f.Add([]byte{255, 1, 7, 13, 13, 13, 200, 90}, "\x1b[31m\u202e", false)
	f.Add([]byte("enter enter enter"), "MN", false)
	f.Fuzz(func(t *testing.T, keys []byte, text string, demo bool) {
		if len(keys) > 120 || len(text) > 1<<12 {
			return
		}
		c := Config{Mono: true}
		if demo {
			c.House = demoHouse(t)
		}
		p := newPlayer(t, c, 80, 24)
		for i, k := range keys {
			p.send(randomKey(rand.New(rand.NewPCG(uint64(k), 11))))
			if i%8 == 3 {
				p.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: i%16 == 3})
			}
			if p.m.width > 0 && p.m.height > 0 && !p.m.done {
				require.Empty(t, frameProblem(p.view(), p.m.width, p.m.height, c), "%v", keys[:i+1])
			}
			if p.quit || len(p.m.s.House.Places) > 14 {
				break
			}
		}
		p.settle()
		checkSession(t, p, 0, len(keys))
	})
}
