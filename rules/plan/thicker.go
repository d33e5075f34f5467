package plan

import (
	"math"

	"battwright/rules/candidate"
	"battwright/rules/units"
)

// Thicker is the next better stack of the chosen material: what it costs more
// and what heat it saves in a year. It is context, never a promise.
type Thicker struct {
	Stack        candidate.Assessed
	ExtraCost    units.Cents
	SavesUSD     units.Range[float64] // a year
	PaybackYears units.Range[float64] // simple, no interest; 0 where nothing is saved
}

// NextThicker looks one step up from the choice, false when there is none.
func (p Place) NextThicker() (Thicker, bool) {
	if p.Choice == nil {
		return Thicker{}, false
	}
	now := p.Choice.Assessed
	out := Thicker{}
	for _, v := range p.Choice.Others {
		if v.Excluded() || v.Heat.DeliveredR <= now.Heat.DeliveredR+1 {
			continue
		}
		if more := p.More(v.Assessed); more > 0 && (out.ExtraCost == 0 || more < out.ExtraCost) {
			out.Stack, out.ExtraCost = *v.Assessed, more
		}
	}
	if out.ExtraCost == 0 || now.Heat.LossMMBtu.High <= 0 {
		return Thicker{}, false
	}
	next := out.Stack
	out.SavesUSD = minus(now.Heat.LossUSD, next.Heat.LossUSD)
	years := func(usd float64) float64 {
		if usd <= 0 {
			return 0
		}
		return math.Round(out.ExtraCost.Dollars() / usd)
	}
	out.PaybackYears = units.Range[float64]{Low: years(out.SavesUSD.High), Typical: years(out.SavesUSD.Typical), High: years(out.SavesUSD.Low)}
	return out, true
}

// minus takes ranges apart end by end: both stand in the same house under the
// same weather, heater and price.
func minus(a, b units.Range[float64]) units.Range[float64] {
	return units.Range[float64]{Low: a.Low - b.Low, Typical: a.Typical - b.Typical, High: a.High - b.High}
}
