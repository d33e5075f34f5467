package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture/planned"
)

// What an edit changed is said with what it costs: more, less, or the same,
// never "$0 more".
func TestChangeSaysMoreLessOrTheSame(t *testing.T) {
	for _, c := range []struct {
		cost units.Cents
		want string
	}{
		{14000, "Street wall: fiberglass -> mineral wool, about $140 more"},
		{-14000, "Street wall: fiberglass -> mineral wool, about $140 less"},
		{0, "Street wall: fiberglass -> mineral wool, same price"},
	} {
		change := plan.Change{Label: "Street wall", From: "fiberglass", To: "mineral wool", Cost: c.cost}
		require.Equal(t, c.want, pages.ChangeText([]plan.Change{change}, units.US))
		change.From, change.Product = change.To, true
		_, cost, _ := strings.Cut(c.want, ",")
		require.Equal(t, "Street wall: a different mineral wool blanket,"+cost, pages.ChangeText([]plan.Change{change}, units.US))
		change.Product = false
		require.Equal(t, "Street wall:"+cost, pages.ChangeText([]plan.Change{change}, units.US))
	}
	require.Equal(t, pages.NoChange, pages.ChangeText(nil, units.US))
}

// Without a width the plans beside each other are as wide as any other page.
func TestComparingTakesAWidthWhereNoneIsGiven(t *testing.T) {
	p, o := demoPlan(t, demo.Default), planned.Options(t)
	plans := []pages.Named{{Name: "now", Plan: p}, {Name: "then", Plan: p}}
	longest := func(width int) int {
		o.Width = width
		most := 0
		for _, line := range strings.Split(print.Text(pages.ComparePage(plans, o), o.Width), "\n") {
			most = max(most, len(line))
		}
		return most
	}
	require.Equal(t, longest(78), longest(0))
	require.Greater(t, longest(0), 60)
	require.LessOrEqual(t, longest(40), 40)
}
