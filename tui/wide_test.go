package tui

import (
	"regexp"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// taken is a marked material: with what fits, or with what is wrong with the
// best that goes in.
var taken = regexp.MustCompile(`\* (fits|short by|about equal|gets damp)`)

// The wide first look has every place and every material, and what the plan
// takes is marked in words or signs, never by colour alone.
func TestWideFirstLook(t *testing.T) {
	p := at(t, stopNamed(t, "look"), Config{Mono: true}, 120, 40)
	view := p.view()
	for _, pl := range p.m.s.Plan.Places {
		for _, word := range strings.Fields(pl.Surface.Label) {
			require.Contains(t, view, word)
		}
		require.Contains(t, view, p.m.s.System.MoneyOf(pl.Cost.Total.Typical, pl.Cost.Total), pl.Surface.Label)
	}
	table, _, _ := strings.Cut(view, takenMark+" is what the plan takes")
	require.Len(t, taken.FindAllString(table, -1), len(p.m.s.Plan.Places), "one mark a place")
	flat := strings.Join(strings.Fields(view), " ")
	require.Contains(t, flat, "KEEP THE GAP EMPTY (2 in)", "the row of the chimney is words")
	for range 7 {
		p.press("down")
	}
	require.Contains(t, p.view(), "› Beside the brick chimney")
	require.Contains(t, p.view(), "confirm with the mason or installer")
	require.NotContains(t, at(t, stopNamed(t, "look"), Config{Mono: true}, 119, 40).view(), "sheep's wool\n─")
}

// The same with nothing but ASCII, where the pointer is another sign.
func TestWideFirstLookInASCII(t *testing.T) {
	p := at(t, stopNamed(t, "look"), Config{Mono: true, ASCII: true}, 120, 40).press("down", "down")
	require.Contains(t, p.view(), "> Street wall")
}

// A place that may not be planned says so first, on every view of it, and no
// table gives it a price.
func TestStoppedPlace(t *testing.T) {
	h := demoHouse(t)
	h.Answers["old"] = house.YesNo(true)
	h.Place("attic").Answers["knob_and_tube"] = house.YesNo(true)
	p := newPlayer(t, Config{Mono: true, House: h}, 120, 40)
	require.Contains(t, strings.Join(strings.Fields(p.view()), " "), "Attic over bedrooms: STOP, see below")
	p.press("enter")
	require.Contains(t, p.view(), "STOP    Old wiring")
	for _, key := range []string{"w", "p", "d", "h"} {
		p.press(key)
		lines := strings.Split(p.view(), "\n")
		require.Contains(t, lines[3], "STOP: Old wiring", key)
		require.NotContains(t, p.view(), "Use ")
		require.NotContains(t, p.view(), "of 100 points")
	}
}

// Where no material goes in, the page itself says why, each reason once.
func TestNothingFitsSaysWhy(t *testing.T) {
	h := demoHouse(t)
	h.Place("basement").Answers["foam_r"] = house.Number(0)
	p := newPlayer(t, Config{Mono: true, House: h}, 80, 24).onPlace(5)
	names := regexp.MustCompile(`Why     (.*): Straight on`).FindStringSubmatch(p.view())
	require.Len(t, names, 2, p.view())
	require.ElementsMatch(t, []string{"fiberglass", "mineral wool", "cotton", "sheep's wool"}, strings.Split(names[1], ", "))
	require.Equal(t, 1, strings.Count(p.view(), "Straight on"))
}

// The first line of each view says what it is.
func TestFirstLineSaysWhatItIs(t *testing.T) {
	for key, want := range map[string]string{"w": "Street wall: why", "p": "Street wall: layers", "d": "Street wall: damp check", "h": "Street wall: how to install"} {
		p := at(t, stopNamed(t, "place-result"), Config{Mono: true}, 80, 24).press(key)
		require.Contains(t, strings.Split(p.view(), "\n")[2], want)
	}
}

// Beside a picture the result loses no line.
func TestResultBesidePictureIsWhole(t *testing.T) {
	words := func(width int) map[string]bool {
		p := at(t, stopNamed(t, "place-result"), Config{Mono: true}, width, 80)
		out := map[string]bool{}
		for _, w := range strings.Fields(p.view()) {
			out[w] = true
		}
		return out
	}
	wide := words(120)
	for w := range words(110) {
		if !strings.HasPrefix(w, "─") {
			require.True(t, wide[w], "%q is missing beside the picture", w)
		}
	}
	require.True(t, wide["INSIDE:"])
}

// Source: Unicode Character Database (computed sums; the file names it and its
// mark). Wide letters keep the columns of the first look in line.
func TestWideLettersKeepColumns(t *testing.T) {
	var published struct {
		Texts struct {
			Rows []struct {
				Text    string
				Columns int
			}
		}
	}
	fixture.Published(t, "chart.json", &published)
	require.NotEmpty(t, published.Texts.Rows)
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 120, 40)
	table := [][]string{{"Place", "|"}}
	for _, r := range published.Texts.Rows {
		require.Equal(t, r.Columns, ansi.StringWidth(r.Text), r.Text)
		table = append(table, []string{r.Text, "|"})
	}
	c, x := newCanvas(120, "..."), &viewScreen{cursor: -1}
	require.True(t, x.table(c, p.m.s, table))
	at := map[int]bool{}
	for i, r := range c.rows {
		if line := r[0].text; i != 1 { // the rule
			require.True(t, strings.HasSuffix(line, "|"), line)
			at[ansi.StringWidth(line)] = true
		}
	}
	require.Len(t, at, 1, "the last columns stand under one another")
}
