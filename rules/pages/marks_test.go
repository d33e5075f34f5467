package pages_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

var marked = regexp.MustCompile(`^(?:- )?(.*) \[([^\]]+)\]$`)

// One source prints the same marks in every house and on every page: plan,
// sheets, bids and finished work. Where it serves several, all are named.
func TestASourcePrintsTheSameMarksEverywhere(t *testing.T) {
	o := planned.Options(t)
	o.Width = 4000
	seen, count := map[string]string{}, map[string]int{}
	look := func(page, text string) {
		for _, line := range strings.Split(text, "\n") {
			m := marked.FindStringSubmatch(strings.TrimSpace(line))
			if m == nil {
				continue
			}
			count[m[1]]++
			if was, ok := seen[m[1]]; ok {
				require.Equal(t, was, m[2], "%s on %s", m[1], page)
			}
			seen[m[1]] = m[2]
		}
	}
	for _, name := range demo.Names() {
		j := planned.Job(fixture.Demo(t, name))
		look(name, print.Text(pages.PlanPage(j.Plan, o), o.Width))
		text, err := planned.Handed(pages.Handover{Job: j}, o)
		require.NoError(t, err)
		look(name+" handover", text)
		for _, file := range []string{"full", "metric"} {
			bid, _ := inspect.ReadOffer(j, file, fixture.File(t, "offers/"+file+".toml"))
			look(name+" bid", print.Text(pages.OffersPage(j, []inspect.OfferResult{inspect.JudgeOffer(j, bid)}, nil, o), o.Width))
		}
		found := inspect.EmptyFound(j)
		look(name+" finished", print.Text(pages.FoundPage(j, inspect.JudgeFound(j, found, nil), o), o.Width))
		for _, s := range j.Plan.Sources {
			require.NotEmpty(t, o.Catalog.Marks(s.ID), s.ID)
		}
	}
	require.Greater(t, count["IRC R1003.18 and .19: clearance and fireblocking of masonry chimneys"], 3)
	require.Equal(t, "checked source", seen["IRC R1003.18 and .19: clearance and fireblocking of masonry chimneys"])
}

// Every mark that a rule, a width or a material carries is among those its
// source is printed with.
func TestTheMarksOfASourceAreThoseOfItsStatements(t *testing.T) {
	c := fixture.Catalog(t)
	n := 0
	check := func(what string, r catalog.Ref) {
		n++
		require.Contains(t, c.Marks(r.Source), r.Known, what)
	}
	for _, r := range c.Book().Rules() {
		check(r.ID, catalog.Ref{Source: r.Source, Known: catalog.Known(r.Known)})
	}
	for _, x := range c.Clearances {
		check(x.ID, x.Ref)
	}
	for i, m := range c.Materials {
		check(fmt.Sprint(i), m.Ref)
	}
	require.Greater(t, n, 100)
	require.Equal(t, []catalog.Known{catalog.Standard}, c.Marks("irc-r1003"), "nothing that was not read is said to stand there")
	require.Equal(t, []catalog.Known{catalog.Secondary, catalog.Memory}, c.Marks("irc-r1001"))
}
