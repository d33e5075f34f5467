package main

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/demo"
	"battwright/tui"
)

// The README shows real output. Each block between "<!-- real: NAME -->" and
// "<!-- end -->" is made again here and compared; UPDATE=1 writes it anew.
func TestReadmeShowsRealOutput(t *testing.T) {
	const path = "../../README.md"
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	block := regexp.MustCompile(`(?s)<!-- real: ([a-z-]+) -->\n(.*?)<!-- end -->`)
	seen := 0
	now := block.ReplaceAllStringFunc(string(b), func(s string) string {
		name := block.FindStringSubmatch(s)[1]
		seen++
		return "<!-- real: " + name + " -->\n```\n" + readmeBlock(t, name) + "```\n<!-- end -->"
	})
	require.GreaterOrEqual(t, seen, 3)
	l, err := env{}.loadCatalog("")
	require.NoError(t, err)
	require.Contains(t, string(b), fmt.Sprintf("about %d questions on the house", house.NewList(l).Counts(true).House), "what is promised is counted")
	if os.Getenv("UPDATE") == "1" {
		require.NoError(t, os.WriteFile(path, []byte(now), 0o644))
		return
	}
	require.Equal(t, now, string(b), "UPDATE=1 go test ./cmd/battwright -run Readme writes the blocks anew")
}

func readmeBlock(t *testing.T, name string) string {
	t.Helper()
	switch name {
	case "plan-street-wall":
		out := with{yearly: true}.run("plan").stdout
		_, rest, ok := strings.Cut(out, "\nStreet wall, ")
		require.True(t, ok)
		text, _, ok := strings.Cut("Street wall, "+rest, "\nRanks ")
		require.True(t, ok)
		return text + "\n"
	case "screen-first-look":
		return screen(t)
	case "screen-place":
		return screen(t, tea.KeyMsg{Type: tea.KeyDown}, tea.KeyMsg{Type: tea.KeyDown}, tea.KeyMsg{Type: tea.KeyEnter})
	}
	t.Fatalf("no such block: %s", name)
	return ""
}

// screen is the wizard on the demo house after some keys, 80 by 24, no colour.
func screen(t *testing.T, keys ...tea.KeyMsg) string {
	t.Helper()
	c, err := env{}.loadCatalog("")
	require.NoError(t, err)
	l := house.NewList(c)
	h, err := house.Read(l, demo.Default, demo.Text(demo.Default))
	require.NoError(t, err)
	var m tea.Model = tui.NewModel(tui.Config{List: l, House: h, Path: "demo.toml", Mono: true})
	after := func(cmd tea.Cmd) {
		for cmd != nil {
			msg := cmd()
			if msg == nil {
				return
			}
			m, cmd = m.Update(msg)
		}
	}
	m, _ = m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	after(m.Init())
	for _, k := range keys {
		var cmd tea.Cmd
		m, cmd = m.Update(k)
		after(cmd)
	}
	var b strings.Builder
	for _, line := range strings.Split(m.View(), "\n") {
		fmt.Fprintln(&b, strings.TrimRight(line, " "))
	}
	return b.String()
}
