package strict

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// ninetyRules is a file of rules as long as the program's own.
func ninetyRules() string {
	var b strings.Builder
	for i := range 90 {
		fmt.Fprintf(&b, `# rule %[1]d
[[rule]]
id = "rule-%[1]d"
title = "Keep the blanket off the warm pipe"
when = [
  { fact = "place", op = "in", value = ["attic", "crawl-space"] },
  { fact = "depth_in", op = "lt", value = %[1]d.5 },
]
effect = { kind = "safety", severity = 2 }
reason = "The pipe gets warm; three inches stay free, and a sheet of metal keeps the blanket away from it."
source = "common"
known = "practice"
[[rule.example]]
facts = { place = "attic", depth_in = 0 }
fires = true
[[rule.example]]
facts = { place = "basement-wall" }
fires = false

`, i)
	}
	return b.String()
}

type ruleFile struct {
	Rules []struct {
		ID    string `toml:"id,required"`
		Title string `toml:"title,required"`
		When  []struct {
			Fact  string `toml:"fact,required"`
			Op    string `toml:"op,required"`
			Value any    `toml:"value,required"`
		} `toml:"when"`
		Effect struct {
			Kind     string `toml:"kind,required"`
			Severity int    `toml:"severity"`
		} `toml:"effect,required"`
		Reason   string `toml:"reason"`
		Examples []struct {
			Facts map[string]any `toml:"facts"`
			Fires bool           `toml:"fires,required"`
		} `toml:"example"`
		origin
	} `toml:"rule"`
}

func TestNinetyRules(t *testing.T) {
	text := ninetyRules()
	var strictly, plainly ruleFile
	tree, err := Decode("rules.toml", text, &strictly)
	require.NoError(t, err)
	require.NoError(t, DecodePlain(text, &plainly))
	require.Equal(t, strictly, plainly)
	require.Len(t, strictly.Rules, 90)
	perRule := strings.Count(text, "\n") / 90
	for i := range 90 {
		require.Equal(t, i*perRule+2, tree.Line("rule", i))
		require.Equal(t, i*perRule+7, tree.Line("rule", i, "when", 1, "value"))
		require.Equal(t, i*perRule+17, tree.Line("rule", i, "example", 1, "facts", "place"))
	}
}

func BenchmarkParse(b *testing.B) {
	text := ninetyRules()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := Parse("f", text); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}

func BenchmarkFindPlaces(b *testing.B) {
	text := ninetyRules()
	b.ReportAllocs()
	for b.Loop() {
		if _, stop := findPlaces(&Tree{text: text}); stop >= 0 {
			b.Fatal("not understood")
		}
	}
}

func BenchmarkDecode(b *testing.B) {
	text := ninetyRules()
	b.ReportAllocs()
	for b.Loop() {
		var f ruleFile
		if _, err := Decode("f", text, &f); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDecodePlain(b *testing.B) {
	text := ninetyRules()
	b.ReportAllocs()
	for b.Loop() {
		var f ruleFile
		if err := DecodePlain(text, &f); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCleanText(b *testing.B) {
	text := ninetyRules()
	b.ReportAllocs()
	for b.Loop() {
		CleanLines(text)
	}
}
