package tui

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/page"
	"battwright/testdata/fixture/planned"
	"battwright/tui/style"
)

// Whatever a page says, the screens say it.
func TestEveryBlockIsShown(t *testing.T) {
	s := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24).m.s
	for name, d := range planned.Pages(t) {
		p := newCanvas(112, "...")
		showPage(p, s, d)
		var b strings.Builder
		for _, r := range p.rows {
			for _, x := range r {
				b.WriteString(x.text)
			}
			b.WriteString("\n")
		}
		planned.Holds(t, name, d, b.String(), func(s string) string { return s })
	}
}

// What can hurt people is painted as danger in every kind of row.
func TestStopIsPaintedAsDanger(t *testing.T) {
	s := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24).m.s
	for _, k := range []page.Kind{page.Text, page.Item, page.Tick, page.Sub, page.Fact} {
		p := newCanvas(80, "...")
		showRow(p, s, page.Row{Kind: k, Tone: page.Stop, Label: "STOP", Text: "do not begin"}, labelColumn)
		last := p.rows[0][len(p.rows[0])-1]
		require.Equal(t, style.Danger, last.tone)
		require.Contains(t, last.text, "do not begin")
	}
}
