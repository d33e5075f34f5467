package pages_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// No line is wider than asked, whatever the width and the names.
func TestTextKeepsItsWidth(t *testing.T) {
	check := func(p plan.Plan, o pages.Options) {
		for i, l := range strings.Split(print.Text(pages.PlanPage(p, o), o.Width), "\n") {
			require.LessOrEqual(t, utf8.RuneCountInString(l), o.Width, "width %d line %d: %q", o.Width, i+1, l)
			require.Equal(t, strings.TrimRight(l, " "), l, "no spaces at the end")
		}
	}
	p, o := demoPlan(t, demo.Default), planned.Options(t)
	for o.Width = 30; o.Width <= 120; o.Width++ {
		check(p, o)
	}
	rng := rand.New(rand.NewPCG(41, 41))
	for range 60 {
		o.Width = 30 + rng.IntN(91)
		o.System = units.System(rng.IntN(2))
		check(plan.Make(fixture.RandomHouse(t, rng)), o)
	}
}

// A width does not change the words.
func TestWidthOnlyWraps(t *testing.T) {
	p, o := demoPlan(t, "house-by-the-water.toml"), planned.Options(t)
	words := func(width int) string {
		o.Width = width
		text := strings.NewReplacer("=", "", "-", "", ":", "").Replace(print.Text(pages.PlanPage(p, o), o.Width))
		return strings.Join(strings.Fields(text), "")
	}
	for _, width := range []int{30, 40, 60, 120} {
		require.Equal(t, words(78), words(width), "width %d", width)
	}
}

var nasty = []string{
	"\x1b[31mred\x1b[0m", "bell\a", "back\b\b\bspace", "over\rwritten", "two\nlines", "tab\there", "\x00null", "\u202eright to left", "zero\u200bwidth",
	"\u2028separator", "\ufeffmark", "\x9bcsi", "bad\xffutf8", "\u00ad soft", "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\ufe661+1", "=cmd|' /C calc'!A0", `"quote", comma`, "| pipe | table",
	"[link](http://example.invalid)", "<script>alert(1)</script>", "# heading", "*bold* _it_ `code`", "\\", "&lt;b&gt;",
}

// nastyPlan has a text where the builder may type one.
func nastyPlan(t *testing.T, text string) plan.Plan {
	t.Helper()
	a := fixture.Demo(t, "house-on-stilts.toml")
	a.House.Answers.Set("name", house.Text(text))
	for i := range a.House.Places {
		a.House.Places[i].Answers.Set("label", house.Text(text))
		a.House.Places[i].Answers.Set("rule_out", house.List("cotton"))
		a.House.Places[i].Answers.Set("rule_out_reason", house.Text(text))
	}
	p := plan.Make(a)
	p.Overlaid = []string{text}
	return p
}

// The builder's words cannot act as markup: no raw tag, link, or row of a
// table of their own.
func TestMarkdownTakesNoMarkup(t *testing.T) {
	rows := func(p plan.Plan) string {
		var out []string
		for _, l := range strings.Split(print.Markdown(pages.PlanPage(p, planned.Options(t))), "\n") {
			if strings.HasPrefix(l, "|") {
				out = append(out, fmt.Sprint(strings.Count(strings.ReplaceAll(l, "\\|", ""), "|")))
			}
			require.NotContains(t, l, "<script")
			require.NotRegexp(t, `[^\\]\]\(`, l)
		}
		return strings.Join(out, " ")
	}
	want := rows(nastyPlan(t, "plain"))
	for _, text := range nasty {
		require.Equal(t, want, rows(nastyPlan(t, text)), "%q", text)
		require.NotContains(t, print.Markdown(pages.PlanPage(nastyPlan(t, text), planned.Options(t))), "&lt;b&gt;", "what was typed as an entity stays one")
	}
}

// Each material of each place has its row in the table form, and one choice.
func TestCSVMatchesThePlan(t *testing.T) {
	for _, name := range demo.Names() {
		p := demoPlan(t, name)
		out, err := pages.CSV(p, planned.Options(t))
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
		require.NoError(t, err)
		col := map[string]int{}
		for i, h := range rows[0] {
			col[h] = i
		}
		chosen := map[string]int{}
		for _, r := range rows[1:] {
			if r[col["chosen"]] == "yes" {
				chosen[r[col["place"]]]++
				require.NotEmpty(t, r[col["typical_usd"]])
			}
		}
		for _, place := range p.Places {
			want := 0
			if place.Choice != nil {
				want = 1
			}
			require.Equal(t, want, chosen[place.Surface.Label], "%s %s", name, place.Surface.Label)
		}
	}
}

// Every report ends with who decides.
func TestEveryReportDefers(t *testing.T) {
	plans(t, 10, func(p plan.Plan) {
		out := planned.Forms(t, p, planned.Options(t))
		b, err := json.Marshal(pages.Closing)
		require.NoError(t, err)
		require.True(t, strings.HasSuffix(plain(out["text"]), plain(pages.Closing)))
		require.True(t, strings.HasSuffix(plain(out["markdown"]), plain(pages.Closing)))
		require.Contains(t, out["json"], string(b))
	})
}
