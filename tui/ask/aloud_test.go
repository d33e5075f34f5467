package ask_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

// A screen reader says each sign by its name, or says none: lines hold words.
func TestSignsAreSaidAsWords(t *testing.T) {
	out, err := said(t, fixture.NewMemory(), ask.Config{Echo: true}, "3", "matters", "fiberglass", "done",
		"1", "why", "layers", "damp", "how", "back", "report", "next", "done", "ladder", "back", "next", "asking sheet", "quit")
	require.NoError(t, err)
	flat := strings.Join(strings.Fields(out), " ")
	has(t, flat, ": fiberglass to ")
	has(t, flat, " more; ")
	for _, sign := range []string{" -> ", "+$", " -$", "____", "----", "====", "?:", "[ ]"} {
		require.NotContains(t, out, sign)
	}
	for _, line := range strings.Split(out, "\n") {
		require.False(t, strings.HasPrefix(line, "! ") || strings.HasPrefix(line, "+ "), line)
	}
	has(t, flat, "For it: ")
	has(t, flat, "Against it: ")
	has(t, flat, "To write down: Width, in inches")
	has(t, flat, "To write down: Price of a package, face included, in dollars")
}

// What is only read out brings the prompt again and not the page before it.
func TestReadingOutDoesNotRepeatThePage(t *testing.T) {
	out, err := said(t, fixture.NewMemory(), ask.Config{Echo: true}, "3", "1", "why", "layers", "damp", "how", "change", "back",
		"compare", "what if", "find out", "next", "done", "next", "cut lists", "all", "back", "asking sheet", "quit")
	require.NoError(t, err)
	require.Equal(t, 1, strings.Count(out, "\nUse: "))
	require.Equal(t, 2, strings.Count(out, "\nThe house at a glance\n"), "on coming and on coming back")
	require.Equal(t, 1, strings.Count(out, "\nBefore you order\n"))

	again, err := said(t, fixture.NewMemory(), ask.Config{Echo: true}, "3", "1", "again", "back", "quit")
	require.NoError(t, err)
	require.Equal(t, 2, strings.Count(again, "\nUse: "))
}

// Help tells the rows that are picked by number too.
func TestHelpTellsTheNumbers(t *testing.T) {
	out, err := said(t, fixture.NewMemory(), ask.Config{Echo: true}, "help", "quit")
	require.NoError(t, err)
	require.Equal(t, 2, strings.Count(out, "\n1. A new house, rough look."))
	require.Equal(t, 2, strings.Count(out, "\n6. Quit\n"))
}

// A word of the trade is explained at every question, where a text is the
// answer too; in quotes it is the answer.
func TestAWordIsExplainedWhereATextIsAsked(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{Echo: true}, "1", "", "", "VT", "word kraft", "Chitenden", "Chittenden", "done", "1", "word of mouth", `"word of mouth"`, "done", "save", "w.toml", "quit")
	require.NoError(t, err)
	flat := strings.Join(strings.Fields(out), " ")
	require.NotContains(t, flat, `no county "word kraft"`)
	has(t, flat, "If that was your answer, type it in double quotes.")
	has(t, flat, "did you mean Chittenden? The same typed again is taken.")
	has(t, store.Files["w.toml"], `label = "word of mouth"`)
}

// A wrong number says what would be right, with the word that was typed.
func TestAWrongNumberOfAPlaceIsToldWithItsWord(t *testing.T) {
	out, err := said(t, fixture.NewMemory(), ask.Config{Echo: true}, "3", "places", "delete 99", "delete", "copy x", "quit")
	require.NoError(t, err)
	has(t, out, `"99" is not a number from 1 to 8, for instance: delete 1.`)
	has(t, out, "say which, from 1 to 8, for instance: delete 1.")
	has(t, out, `"x" is not a number from 1 to 8, for instance: copy 1.`)
	require.Equal(t, 1, strings.Count(out, "\nThe places to insulate\n"))
}

// Two columns side by side are heard as one line of both: each cell is said
// with the name of its row and column.
func TestOffersAreSaidCellByCell(t *testing.T) {
	out, err := said(t, site(t), ask.Config{Echo: true}, "3", "check", "offers", "open", "full.toml", "quit")
	require.NoError(t, err)
	has(t, out, "\nFiber, Plan: fiberglass\nFiber, Complete Bid (invented): fiberglass\n")
	has(t, out, "\nOffer: Complete Bid (invented): $4,140\n")
	require.NotContains(t, out, "Plan    ")
}

// Half of a size, and a decimal comma, leave the area assumed.
func TestAnAreaIsYoursOnlyWhenAllOfItWasTyped(t *testing.T) {
	out, err := said(t, fixture.NewMemory(), ask.Config{Echo: true}, "1", "done", "1", "", "40", "done", "1", "", "", "8,5", "20", "done", "quit")
	require.NoError(t, err)
	require.Equal(t, 1, strings.Count(out, "your figure"))
	has(t, out, "1. Attic floor: 1,120 ft2, assumed")
	has(t, out, "1. Attic floor: 800 ft2, your figure")
	has(t, out, `Not taken: Found "8,5"; want a number of feet`)
}

// A price mistyped a hundred times too high turns the plan to another blanket.
// What was typed stays in reach, and taken away the order is as it was.
func TestAPriceThatTurnsThePlanAwayStaysInReach(t *testing.T) {
	out, err := said(t, fixture.NewMemory(), ask.Config{Echo: true}, "3", "order", "prices", "3", "1", "115 per ft2", "back", "quit")
	require.NoError(t, err)
	has(t, out, "\n3. fiberglass R-20, paper face, 15 in wide: no price typed yet")
	flat := strings.Join(strings.Fields(out), " ")
	has(t, flat, "fiberglass R-20, paper face, 15 in wide: $115.00 a ft2, label not typed; not in the order as the plan is now")
	rows := strings.Split(out, "\n")
	number := ""
	for _, l := range rows {
		if n, _, ok := strings.Cut(l, ". fiberglass R-20, paper face, 15 in wide: $115"); ok {
			number = n
		}
	}
	require.NotEmpty(t, number)
	out, err = said(t, fixture.NewMemory(), ask.Config{Echo: true}, "3", "order", "prices", "3", "1", "115 per ft2", "back",
		number, "1", "clear", "back", "quit")
	require.NoError(t, err)
	require.NotContains(t, out[strings.LastIndex(out, "Prices and labels"):], "not in the order")
	has(t, out[strings.LastIndex(out, "Prices and labels"):], "\n3. fiberglass R-20, paper face, 15 in wide: no price typed yet")
}
