package rules

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// Source "kleene": the truth table of strong three-valued conjunction.
func TestConjunctionFollowsKleene(t *testing.T) {
	p := readPublished(t)
	letters := map[string]Value{"T": Bool(true), "F": Bool(false), "U": Unknown()}
	states := map[string]truth{"T": yes, "F": no, "U": undecided}
	facts := []Fact{{Name: "a", Type: Boolean}, {Name: "b", Type: Boolean}}
	note := newBook(t, facts, []Rule{rule("note", Effect{Kind: Install}, holds("a"), holds("b"))})
	caution := newBook(t, facts, []Rule{rule("caution", Effect{Kind: Safety, Severity: 1}, holds("a"), holds("b"))})
	require.Len(t, p.Kleene.Rows, 9)
	for _, row := range p.Kleene.Rows {
		values := map[string]Value{"a": letters[row[0]], "b": letters[row[1]]}
		v := note.Eval(factsOf(t, note, values))
		require.Equal(t, states[row[2]] == yes, len(v.Install) == 1, row)
		require.Equal(t, states[row[2]] == undecided, len(v.Depends) == 1, row)
		s := caution.Eval(factsOf(t, caution, values))
		require.Equal(t, states[row[2]] != no, len(s.Safety) == 1, row)
		require.Empty(t, s.Depends)
	}
}

// zoneBook turns a zone table into one require rule per zone.
func zoneBook(t *testing.T, table zoneTable, never ...Where) *Book {
	t.Helper()
	facts := []Fact{
		{Name: "cdd", Type: Numeric, Min: 0, Max: 20000},
		{Name: "hdd", Type: Numeric, Min: 0, Max: 40000},
	}
	var list []Rule
	for _, row := range table.Rows {
		where := Where{}
		add := func(fact, end string, limit *float64) {
			if limit != nil {
				where = all(where, num(fact, end, *limit))
			}
		}
		add("cdd", "above", row.CDDAbove)
		add("cdd", "at_most", row.CDDTo)
		add("hdd", "above", row.HDDAbove)
		add("hdd", "at_most", row.HDDTo)
		n := strconv.Itoa(row.Zone)
		list = append(list, rule("zone-"+n, Effect{Kind: Require, Need: "zone", NeedValue: n}, where))
	}
	return newBook(t, facts, list, never...)
}

var everywhere = []Obligation{{ID: "complete", Effect: Require}}

// Source "zones": the table is meant to give every place exactly one zone.
func TestZoneTableOf2021IsAPartition(t *testing.T) {
	p := readPublished(t)
	b := zoneBook(t, p.Zones2021)
	require.Equal(t, []FindingKind{BadExample}, kinds(b.Prove()), "one zone each; the examples here are none")
	require.Empty(t, b.CheckObligations(everywhere))
	// Taking any row out opens a hole: the proof above is not an idle one.
	for i := range p.Zones2021.Rows {
		less := p.Zones2021
		less.Rows = append(append(less.Rows[:0:0], less.Rows[:i]...), less.Rows[i+1:]...)
		require.Len(t, zoneBook(t, less).CheckObligations(everywhere), 1)
	}
}

// Source "zones-2018": cooling rows carry no heating limit there, so that very
// hot and very cold at once would be in two zones; no place on earth is.
func TestZoneTableOf2018OverlapsOnlyWhereNobodyLives(t *testing.T) {
	p := readPublished(t)
	b := zoneBook(t, p.Zones2018)
	require.Empty(t, b.CheckObligations(everywhere))
	var pairs []string
	for _, f := range b.Prove() {
		if f.Kind == Contradiction {
			pairs = append(pairs, f.Rule)
		}
	}
	hot, both := 0, 0
	for _, row := range p.Zones2018.Rows {
		if row.CDDAbove != nil && row.HDDTo == nil {
			hot++
		}
		if row.HDDAbove != nil {
			both++
		}
	}
	require.Len(t, pairs, hot*both)
	never := all(num("cdd", "above", 6300), num("hdd", "above", 5400))
	require.NotContains(t, kinds(zoneBook(t, p.Zones2018, never).Prove()), Contradiction)
}

// Source "degree-days": 57 stations against the zone of their county; where the
// county list departs from the degree days the row says so.
func TestStationsFallInTheZoneOfTheirCounty(t *testing.T) {
	p := readPublished(t)
	b := zoneBook(t, p.Zones2021)
	require.Len(t, p.Stations.Rows, 57)
	agree := 0
	for _, s := range p.Stations.Rows {
		v := b.Eval(factsOf(t, b, map[string]Value{"cdd": Number(s.CDD / 1.8), "hdd": Number(s.HDD / 1.8)}))
		require.Len(t, v.Require, 1, s.Place)
		same := v.Require[0].Value == strconv.Itoa(s.Zone)
		require.Equal(t, s.Differs, !same, "%s: %s", s.Place, v.Require[0].Value)
		if same {
			agree++
		}
	}
	require.Equal(t, 49, agree) // as counted in the comparison of both lists
}
