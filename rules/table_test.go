package rules

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Invented tables of blankets, read by plain comparisons beside the book: a
// table may be whole, name two blankets for one bay, or leave a bay out.

// widthRow is a blanket for bays from one width to another, both included, in.
type widthRow struct{ from, to float64 }

func widthBook(t *testing.T, rows []widthRow) *Book {
	t.Helper()
	var list []Rule
	for i, r := range rows {
		id := fmt.Sprintf("row-%d", i+1)
		list = append(list, rule(id, Effect{Kind: Require, Need: "blanket", NeedValue: id}, num("bay_in", "at_least", r.from), num("bay_in", "at_most", r.to)))
	}
	return newBook(t, []Fact{{Name: "bay_in", Type: Numeric, Min: rows[0].from, Max: rows[len(rows)-1].to}}, list)
}

func TestOverlapAndGapOfWidths(t *testing.T) {
	for name, rows := range map[string][]widthRow{
		"overlap": {{11, 15.5}, {14.5, 24}},
		"gap":     {{11, 15}, {18, 24}},
		"touch":   {{11, 15}, {15, 24}},
		"both":    {{6, 11}, {10, 15}, {16, 24}},
	} {
		b := widthBook(t, rows)
		most, least := 0, len(rows)
		for at := rows[0].from; at <= rows[len(rows)-1].to; at += 0.25 {
			n := 0
			for _, r := range rows {
				if r.from <= at && at <= r.to {
					n++
				}
			}
			most, least = max(most, n), min(least, n)
			require.Len(t, b.Eval(factsOf(t, b, map[string]Value{"bay_in": Number(at)})).Require, n, "%s: bay of %v in", name, at)
		}
		require.Equal(t, most > 1, slices.Contains(kinds(b.Prove()), Contradiction), name)
		gaps := b.CheckObligations(everywhere)
		require.Equal(t, least < 1, len(gaps) > 0, name)
		for _, g := range gaps {
			require.Equal(t, Unmet, g.Kind)
			var at float64
			_, after, _ := strings.Cut(g.Text, "bay_in = ")
			_, err := fmt.Sscan(strings.TrimRight(strings.Fields(after)[0], ",.;"), &at)
			require.NoError(t, err, g.Text)
			require.Empty(t, b.Eval(factsOf(t, b, map[string]Value{"bay_in": Number(at)})).Require, "%s: %v in is no gap", name, at)
		}
	}
}

// noEnd stands for a row without an upper end.
const noEnd = 99

// depthRow is the blanket for a spacing and a depth from one figure up to, and
// without, another, in.
type depthRow struct {
	spacing     string
	from, below float64
	blanket     string
}

func depthRules(rows []depthRow) []Rule {
	var list []Rule
	for i, r := range rows {
		depth := num("depth_in", "at_least", r.from)
		if r.below != noEnd {
			depth = all(depth, num("depth_in", "below", r.below))
		}
		list = append(list, rule(fmt.Sprintf("row-%d", i+1), Effect{Kind: Require, Need: "blanket", NeedValue: r.blanket}, is("spacing", r.spacing), depth))
	}
	return list
}

// Source "hit-policies", policy Unique: a table without overlap or hole, and
// each half-open end on the right side.
func TestDepthTableIsUniqueAndComplete(t *testing.T) {
	facts := []Fact{
		{Name: "spacing", Type: Enum, Values: []string{"16", "24"}},
		{Name: "depth_in", Type: Numeric, Min: 0, Max: 16},
	}
	table := []depthRow{
		{"16", 0, 3.5, "none"},
		{"16", 3.5, 5.5, "thin"},
		{"16", 5.5, 9.25, "middle"},
		{"16", 9.25, noEnd, "thick"},
		{"24", 0, 5.5, "none"},
		{"24", 5.5, 11.25, "wide"},
		{"24", 11.25, noEnd, "two layers"},
	}
	b := newBook(t, facts, depthRules(table))
	require.NotContains(t, kinds(b.Prove()), Contradiction)
	require.Empty(t, b.CheckObligations(everywhere))
	for _, spacing := range facts[0].Values {
		for at := 0.0; at <= 16; at += 0.25 {
			v := b.Eval(factsOf(t, b, map[string]Value{"spacing": Text(spacing), "depth_in": Number(at)}))
			require.Len(t, v.Require, 1, "%s, %v in", spacing, at)
			for _, r := range table {
				if r.spacing == spacing && r.from <= at && at < r.below {
					require.Equal(t, r.blanket, v.Require[0].Value, "%s, %v in", spacing, at)
				}
			}
		}
	}
	for i := range table {
		rows := append([]depthRow(nil), table...)
		if rows[i].below < noEnd {
			rows[i].below++
			require.Contains(t, kinds(newBook(t, facts, depthRules(rows)).Prove()), Contradiction, "row %d", i+1)
			rows[i].from, rows[i].below = table[i].below, table[i].from
			_, err := NewBook(facts, depthRules(rows))
			require.ErrorContains(t, err, "which nothing can be")
		}
		rows[i] = table[i]
		rows[i].from++
		require.Len(t, newBook(t, facts, depthRules(rows)).CheckObligations(everywhere), 1, "row %d", i+1)
	}
}
