package pages_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// Whatever answers a house has, each caution of severity 3 and more stands on
// every paper somebody takes along: in full, or in its sentence behind MIND.
func TestEveryCautionStandsOnEveryPaper(t *testing.T) {
	rng, said := rand.New(rand.NewPCG(15, 3)), map[string]int{}
	missing := func(name, rule string, p plan.Place, text, want string) {
		if !strings.Contains(text, want) {
			t.Errorf("%s: %s, choice %v, stopped %v, idle %v", name, rule, p.Choice != nil, p.Stopped(), p.Target.Idle)
		}
	}
	for range 120 {
		a := fixture.RandomHouse(t, rng)
		j := planned.Job(a)
		all := papers(t, a)
		all["plan"], all["offers"] = planned.Printed(t, j.Plan), bid(t, j, "version = 1\nfrom = \"Invented bidder\"\n")["text"]
		opts := planned.Options(t)
		for name, write := range map[string]func() ([]byte, error){
			"plan json":     func() ([]byte, error) { return pages.JSON(j.Plan, opts, false) },
			"handover json": func() ([]byte, error) { return pages.Handover{Job: j}.JSON(opts) },
			"order json":    func() ([]byte, error) { return pages.OrderJSON(order.Make(j.Plan, a), j.Plan, opts, false) },
		} {
			b, err := write()
			require.NoError(t, err)
			all[name] = string(b)
		}
		for name := range all {
			all[name] = spaced(strings.ReplaceAll(all[name], `\"`, `"`))
		}
		r := found(t, j, "version = 1\n")
		seen := spaced(print.Text(pages.FoundPage(j, r, planned.Options(t)), planned.Options(t).Width))
		for _, p := range r.Places {
			for _, text := range p.Plan.Minds(units.US) {
				missing("inspect", text, p.Plan, seen, spaced(text))
			}
		}
		for _, p := range j.Plan.Places {
			minds := p.Minds(units.US)
			for _, text := range p.BoardCautions() {
				for _, name := range []string{"handover", "handover json", "order", "order json"} {
					if p.Choice != nil && !p.Stopped() && p.Surface.Held() == "" {
						missing(name, "board", p, all[name], spaced(text))
					}
				}
			}
			for _, h := range p.Safety {
				e := h.Rule.Effect
				if e.Severity < 3 {
					continue
				}
				said[h.Rule.ID]++
				full, short := spaced(j.Catalog().Caution(h, units.US)), units.Prose(e.Mind).In(units.US)
				for name, text := range all {
					if p.Choice == nil && name == "offers" || p.Target.Idle && !p.Stopped() && (name == "form" || name == "inspect template") {
						continue // nothing is offered there, or done
					}
					if h.AsksFirst() || e.Stops || e.SettleFirst || strings.HasPrefix(name, "plan") {
						missing(name, h.Rule.ID, p, text, full)
						continue
					}
					require.Contains(t, minds, short, h.Rule.ID)
					if strings.HasSuffix(name, "json") {
						missing(name, h.Rule.ID, p, text, spaced(short))
						continue
					}
					missing(name, h.Rule.ID, p, text, spaced(p.MindText(units.US)))
				}
			}
		}
	}
	for _, r := range fixture.Catalog(t).Book().Rules() {
		if e := r.Effect; e.Severity >= 3 && !e.Stops && !e.AsksFirst && !e.SettleFirst {
			require.NotEmpty(t, e.Mind, "%s has no sentence for papers", r.ID)
		}
	}
	require.Greater(t, len(said), 25, "most cautions came up")
}
