package strict

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A writer of random TOML that knows the line of every key because it counts
// while it writes: what the scan finds is checked against it.
type generator struct {
	rng   *rand.Rand
	text  strings.Builder
	line  int
	lines map[string]int
	paths [][]any
}

func (g *generator) put(s string) {
	g.text.WriteString(s)
	g.line += strings.Count(s, "\n")
}

func (g *generator) note(path []any) {
	g.lines[keyText(path)] = g.line
	g.paths = append(g.paths, append([]any(nil), path...))
}

func (g *generator) pick(options ...string) string { return options[g.rng.IntN(len(options))] }

// key gives a new key and the ways to write it.
func (g *generator) key(n int) (name, written string) {
	name = fmt.Sprintf("k%d", n)
	if g.rng.IntN(4) == 0 {
		name += g.pick(".x", " y", "]", "#", "=")
		return name, `"` + name + `"`
	}
	return name, g.pick(name, `"`+name+`"`, `'`+name+`'`)
}

func (g *generator) value(path []any, depth int) {
	kind := g.rng.IntN(9)
	if depth > 3 {
		kind = g.rng.IntN(6)
	}
	switch kind {
	case 0, 1:
		g.put(g.pick("1", "-2.5", "true", "1979-05-27 07:32:00", "0x1F", "1_000"))
	case 2:
		g.put(g.pick(`"a \" ] # ="`, `'\ "'`, `""`, `''`, `"\u0041"`))
	case 3:
		g.put(g.pick("\"\"\"\na\n\"\" b\\\"\n\"\"\"", "'''\n] # x\n''''", "\"\"\"x \\\n\n  y\"\"\"\"\"", "''''''"))
	case 4, 5, 6:
		g.list(path, depth)
	default:
		g.table(path, depth)
	}
}

func (g *generator) list(path []any, depth int) {
	g.put("[")
	n := g.rng.IntN(4)
	for i := range n {
		g.put(g.pick("", " ", "\n", " # [ \"\n\t", "\n\n"))
		at := append(path[:len(path):len(path)], i)
		g.note(at)
		g.value(at, depth+1)
		g.put(g.pick("", "\n"))
		if i < n-1 || g.rng.IntN(2) == 0 {
			g.put(",")
		}
	}
	g.put(g.pick("", "\n", " # ]\n") + "]")
}

func (g *generator) table(path []any, depth int) {
	g.put("{")
	n := g.rng.IntN(4)
	for i := range n {
		g.put(g.pick("", " "))
		g.pair(path, i, depth)
		if i < n-1 {
			g.put(g.pick(",", " , "))
		}
	}
	g.put(g.pick("", " ") + "}")
}

func (g *generator) pair(path []any, n, depth int) {
	name, written := g.key(n)
	at := append(path[:len(path):len(path)], name)
	g.note(at)
	if g.rng.IntN(4) == 0 { // dotted
		sub, subWritten := g.key(0)
		written += g.pick(".", " . ") + subWritten
		at = append(at, sub)
		g.note(at)
	}
	g.put(written + g.pick("=", " = "))
	g.value(at, depth+1)
}

func (g *generator) file() string {
	for i := range g.rng.IntN(4) {
		g.pair(nil, i, 0)
		g.put(g.pick("\n", " # x\n", "\n\n"))
	}
	for i := range g.rng.IntN(4) {
		name, written := g.key(100 + i)
		count := 1 + g.rng.IntN(3)
		if g.rng.IntN(2) == 0 {
			count = 0
		}
		path := []any{name}
		g.note(path)
		g.section(path, "["+written+"]", count == 0)
		for j := range count {
			at := []any{name, j}
			g.note(at)
			g.section(at, "[["+written+"]]", true)
			if g.rng.IntN(2) == 0 {
				below := append(at[:2:2], "sub")
				g.note(below)
				g.section(below, "["+written+".sub]", true)
			}
		}
	}
	return g.text.String()
}

func (g *generator) section(path []any, header string, write bool) {
	if !write {
		return
	}
	g.put(header + g.pick("\n", " # [x]\n"))
	for i := range g.rng.IntN(3) {
		g.pair(path, i, 0)
		g.put("\n")
	}
}

func TestLinesOfGeneratedFiles(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	paths := 0
	for range 3000 {
		paths += checkGenerated(t, rng)
	}
	require.Greater(t, paths, 10_000, "the generator writes something")
}

// checkGenerated writes a file, reads it, and counts its keys and elements.
func checkGenerated(t *testing.T, rng *rand.Rand) int {
	g := &generator{rng: rng, line: 1, lines: map[string]int{}}
	text := g.file()
	if rng.IntN(4) == 0 {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	tree, problems := Parse("f", text)
	require.Empty(t, problems, text)
	for _, path := range g.paths {
		_, ok := tree.Get(path...)
		require.True(t, ok, "%v in\n%s", path, text)
		require.Equal(t, g.lines[keyText(path)], tree.Line(path...), "%v in\n%s", path, text)
	}
	require.Equal(t, len(g.lines), requireAgree(t, tree), text)
	return len(g.paths)
}

// countPaths counts the keys and list elements below a value.
func countPaths(v any) (n int) {
	switch v := v.(type) {
	case map[string]any:
		for _, e := range v {
			n += 1 + countPaths(e)
		}
	case []any:
		for _, e := range v {
			n += 1 + countPaths(e)
		}
	case []map[string]any:
		for _, e := range v {
			n += 1 + countPaths(e)
		}
	}
	return n
}
