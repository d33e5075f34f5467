package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

var (
	even      = map[string]float64{"cost": 3, "sound": 3, "irritants": 3, "fire": 3, "moisture": 3}
	materials = []string{"fiberglass", "cotton", "mineral-wool", "sheeps-wool"}
)

// weighed is the one place of a row of the published figures under some levels.
func weighed(t *testing.T, row scoreRow, levels map[string]float64) plan.Place {
	t.Helper()
	a := fixture.OfPlaces(t, row.Site, row.House+"\narea_ft2 = 1000")
	p := plan.Assess(a).Weigh(plan.Preferences{Priorities: levels})
	require.Len(t, p.Places, 1)
	return p.Places[0]
}

// Scores worked out by hand, from memory, for equal weights and no condensate,
// in a dry zone that asks for no retarder.
func TestScoresNearThoseWorkedByHand(t *testing.T) {
	for _, row := range figures(t).NearScores {
		p := weighed(t, row, even)
		require.Len(t, row.Scores, len(materials))
		for _, id := range materials {
			e := p.EntryOf(id)
			require.NotNil(t, e)
			require.Zero(t, e.Damp.Risk(), "%s %s: the figures are for no condensate", row.Place, id)
			if d := math.Abs(e.Score - row.Scores[id]); d > row.Within {
				t.Errorf("%s %s: %.1f, expected %.0f within %g (%s, %s)", row.Place, id, e.Score, row.Scores[id], row.Within, row.Source, row.Mark)
			}
			t.Logf("%-24s %-13s %5.1f, by hand %2.0f, parts %5.1f", row.Place, id, e.Score, row.Scores[id], e.Parts)
		}
	}
}

// byScore lists the usable materials of a place by score alone, whatever their
// tier: the orders below are about the scales.
func byScore(p plan.Place) []string {
	var ids []string
	best := map[string]float64{}
	for _, e := range p.Entries {
		if e.Usable() {
			best[e.MaterialID] = e.Score
		}
	}
	for len(best) > 0 {
		top := ""
		for id, s := range best {
			if top == "" || s > best[top] || s == best[top] && id < top {
				top = id
			}
		}
		ids = append(ids, top)
		delete(best, top)
	}
	return ids
}

func TestOrdersOfTheScales(t *testing.T) {
	f := figures(t)
	rows := map[string]scoreRow{}
	for _, r := range f.NearScores {
		rows[r.Place] = r
	}
	aboutEqual := fixture.List(t).Catalog().Settings.AboutEqual
	for _, o := range f.Orders {
		require.NotEmpty(t, o.Places)
		for _, place := range o.Places {
			row, ok := rows[place]
			require.True(t, ok, place)
			p := weighed(t, row, o.Levels)
			order := byScore(p)
			require.Equal(t, o.Order, order[:len(o.Order)], "%s, %s (%s)", o.When, place, o.Source)
			if len(o.Equal) == 2 {
				require.Less(t, math.Abs(p.EntryOf(o.Equal[0]).Score-p.EntryOf(o.Equal[1]).Score), aboutEqual, "%s, %s", o.When, place)
			}
			if o.NotFirstBefore != "" {
				require.NotEqual(t, o.NotFirstBefore, byScore(weighed(t, row, map[string]float64{}))[0])
				require.Equal(t, o.NotFirstBefore, p.Choice.MaterialID)
			}
		}
	}
}

// Other priorities put other materials first, in the same wall.
func TestPrioritiesChangeTheRanking(t *testing.T) {
	row := figures(t).NearScores[2]
	first := map[string]bool{}
	for _, levels := range []map[string]float64{{"cost": 5}, {"fire": 5}, {"irritants": 5}, {"sound": 3, "irritants": 3}} {
		p := weighed(t, row, levels)
		first[p.Choice.MaterialID] = true
		require.Equal(t, byScore(p)[0], p.Choice.MaterialID)
	}
	require.Len(t, first, 4, "each of the four fibers wins somewhere")
}

// Raising one priority never lets a material that is worst on it overtake the
// one that is best on it.
func TestRaisingAPriorityNeverTurnsAgainstItsBest(t *testing.T) {
	for _, row := range figures(t).NearScores {
		for i, k := range fixture.List(t).Catalog().Criteria {
			led := false
			for level := 0.0; level <= 5; level++ {
				levels := map[string]float64{}
				for id, v := range even {
					levels[id] = v
				}
				levels[k.ID] = level
				p := weighed(t, row, levels)
				best, worst := p.EntryOf(materials[0]), p.EntryOf(materials[0])
				for _, id := range materials {
					e := p.EntryOf(id)
					if e.Values[i].Value.Typical > best.Values[i].Value.Typical {
						best = e
					}
					if e.Values[i].Value.Typical < worst.Values[i].Value.Typical {
						worst = e
					}
				}
				leads := best.Score >= worst.Score
				require.True(t, leads || !led, "%s %s at %g", row.Place, k.ID, level)
				led = leads
			}
		}
	}
}
